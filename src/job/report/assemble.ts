/** A report out of a log: a view of it, recomputed from its events each time. Nothing is judged here beyond what the log says. */
import type { Decoded } from '../log/decode.ts'
import type { LogEvent } from '../log/event.ts'
import { symptomsIn } from '../log/symptoms-in.ts'
import { bootOf } from './boot.ts'
import {
  type Pause,
  REPORT_FORMAT,
  type Report,
  type ReportRepair,
  type ReportStep,
  type Seen,
} from './record.ts'
import { stepsIn } from './steps.ts'

/** The report of a log; undefined where it holds no job. */
export function assembleReport(log: Decoded): Report | undefined {
  const [opened] = log.events
  if (opened?.e !== 'opened') return undefined
  const { steps, rankings, notes, toldLast, waiting } = stepsIn(log.events)
  const symptoms = symptomsIn(log.events)
  const ends = log.events.filter((event) => event.e === 'ended')
  const ended = ends.at(-1)
  const valid = steps.filter((step) => !step.undone)
  const boot = bootOf(steps)
  const ranking = rankings.at(-1)
  const told = [...steps.flatMap((step) => step.told), ...toldLast].map((t) => t.record)
  const verdict = told.filter((record) => record.show === 'verdict').at(-1)
  const resumed = log.events.filter((event) => event.e === 'resumed')
  return {
    report: REPORT_FORMAT,
    build: opened.build,
    symptom: symptoms[0] ?? opened.symptom,
    symptoms,
    plan: {
      file: resumed.findLast((event) => event.plan)?.plan?.file ?? opened.plan.file,
      digest: resumed.at(-1)?.digest ?? opened.digest,
    },
    ...(opened.who === undefined ? {} : { who: opened.who }),
    ...(opened.where === undefined ? {} : { where: opened.where }),
    tools: [...new Set([opened.tool, ...resumed.map((event) => event.tool)])],
    began: opened.at,
    ...(ended === undefined ? {} : { ended: ended.at }),
    outcome: ended?.end.outcome ?? 'open',
    minutes:
      ended?.end.minutes ??
      ranking?.minutes ??
      sum(
        valid.map((step) => (step.read === undefined && step.toldBy === undefined ? step.prompt.minutes : 0)),
      ),
    suspects: ended?.end.suspects ?? ranking?.suspects ?? [],
    ...(verdict === undefined ? {} : { verdict }),
    handedOver: log.events.some((event) => event.e === 'handing-over'),
    steps,
    toldLast,
    ...(waiting === undefined || ended !== undefined ? {} : { waiting }),
    seen: valid.flatMap(seenIn),
    repairs: repairsOf(valid),
    rankings,
    notes,
    pauses: pausesOf(log.events),
    problems: log.problems,
    beyond: log.beyond.length,
    ...(boot ? { boot } : {}),
  }
}

const sum = (figures: readonly number[]): number => figures.reduce((a, b) => a + b, 0)

/** What a reply says of the build, observable by observable; "can't tell" and questions about the past say nothing. */
function seenIn(step: ReportStep): Seen[] {
  const { prompt, reply } = step
  if (prompt.show !== 'ask' || typeof reply === 'string') return []
  const base = { step: step.step, stage: prompt.stage, power: prompt.power }
  if (prompt.many) {
    return prompt.marks
      .filter((mark) => reply.includes(mark.id))
      .map(({ observe, value }) => ({ ...base, observe, value }))
  }
  if (!('observe' in prompt)) return []
  const answer = prompt.answers.find((a) => reply.includes(a.id))
  return prompt.observe.flatMap((observe, i) => {
    const value = answer?.means[i]
    return value === undefined || value === null ? [] : [{ ...base, observe, value }]
  })
}

/** Each repair done, with the proofs that follow it until the next one; a look taken back and made again after it is one. */
function repairsOf(valid: readonly ReportStep[]): ReportRepair[] {
  const repairs: { step: number; proof: number[] }[] = []
  for (const { step, prompt, reply } of valid) {
    if (prompt.show === 'do' && prompt.purpose === 'repair' && reply === 'done')
      repairs.push({ step, proof: [] })
    else if (prompt.show === 'ask' && (prompt.stage === 'proof' || prompt.again === 'undone'))
      repairs.at(-1)?.proof.push(step)
  }
  return repairs
}

function pausesOf(events: readonly LogEvent[]): Pause[] {
  const pauses: Pause[] = []
  let digest = events[0]?.e === 'opened' ? events[0].digest : ''
  let left: { at: string; how: Pause['how'] } | undefined
  for (const [i, event] of events.entries()) {
    if (event.e === 'left') left = { at: event.at, how: event.how ?? 'not-known' }
    if (event.e !== 'resumed') continue
    const from = left ?? { at: events[i - 1]?.at ?? event.at, how: 'not-known' as const }
    pauses.push({
      ...from,
      resumed: event.at,
      planChanged: event.digest !== digest,
      ...(event.cut === undefined ? {} : { cut: event.cut }),
    })
    digest = event.digest
    left = undefined
  }
  if (left !== undefined) pauses.push({ ...left, planChanged: false })
  return pauses
}
