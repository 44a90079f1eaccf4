/**
 * A whole job over the line protocol, killed without warning at a chosen point and taken up again. What may not happen:
 * an answer that was acknowledged is gone, the question that stood is another one, or the job ends otherwise.
 */
import { mkdirSync, mkdtempSync } from 'node:fs'
import { join } from 'node:path'
import { compile } from '../../src/core/bench/build.ts'
import { type Edit, parseEdit } from '../../src/core/bench/edit.ts'
import { faultByName } from '../../src/core/faults/catalogue.ts'
import { parseFault } from '../../src/core/faults/fault.ts'
import { readPlanFile } from '../../src/io/read-plan.ts'
import { type KillPoint, type LineResult, type Message, runLines, type Said } from './kill.ts'
import { answerTo, type Line } from './line-driver.ts'
import { envIn } from './program.ts'
import { eventsIn } from './terminal-person.ts'

export interface JobToKill {
  readonly program: string
  readonly plan: string
  readonly symptom: string
  /** As `AT:MODE`. */
  readonly fault: string
  /** Where each run gets a folder of its own. */
  readonly folder: string
}

export interface Whole extends JobToKill {
  /** The questions and things to do, in order, and what was said to each. */
  readonly questions: readonly Message[]
  readonly said: readonly Said[]
  readonly end: Message
  readonly messages: number
  readonly logLines: number
}

const isQuestion = (m: Message): boolean => m.type === 'ask' || m.type === 'do'

/** A person at the bench with that fault, who says what the bench shows. */
function personWith(job: JobToKill): (message: Message) => Said | undefined {
  const read = readPlanFile(job.plan)
  if (!read.ok) throw new Error(`${job.plan} cannot be read`)
  const build = compile(read.value)
  const name = parseFault(job.fault)
  const known = name && faultByName(build, name)
  if (!known) throw new Error(`${job.fault} is no fault of ${job.plan}`)
  const edits: Edit[] = []
  return (message) => {
    const line = message as unknown as Line
    if (line.type === 'do') {
      edits.push(...(line.edits ?? []).flatMap((e) => parseEdit(e) ?? []))
      return { done: true }
    }
    return line.type === 'ask' ? { ...answerTo(line, build, [known], edits) } : undefined
  }
}

interface Place {
  readonly folder: string
  readonly log: string
  readonly env: Readonly<Record<string, string>>
}

function placeIn(parent: string): Place {
  mkdirSync(parent, { recursive: true })
  const folder = mkdtempSync(join(parent, 'job-'))
  return {
    folder,
    log: join(folder, 'job.ndjson'),
    env: envIn(folder),
  }
}

const diagnose = (job: JobToKill, log: string): string[] => [
  'diagnose',
  job.plan,
  '--symptom',
  job.symptom,
  '--lines',
  '--log',
  log,
]

/** The job undisturbed; it has to end by itself. */
export async function wholeJob(job: JobToKill): Promise<Whole> {
  const { folder, log, env } = placeIn(job.folder)
  const ran = await runLines({
    program: job.program,
    args: diagnose(job, log),
    cwd: folder,
    env,
    reply: personWith(job),
  })
  const end = ran.messages.at(-1)
  if (end?.type !== 'end' || ran.code === null) throw new Error(`the job did not end: ${ran.stderr}`)
  return {
    ...job,
    questions: ran.messages.filter(isQuestion),
    said: ran.said,
    end,
    messages: ran.messages.length,
    logLines: eventsIn(log).length,
  }
}

/** Every point at which the job can be killed: at each message, after each reply, at each line of its log. */
export function killPoints(job: Whole): ((log: string) => KillPoint)[] {
  const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1)
  return [
    ...upTo(job.messages - 1).map((n) => () => ({ atMessage: n })),
    ...upTo(job.said.length).map((n) => () => ({ afterReply: n })),
    ...upTo(job.logLines - 1).map((n) => (log: string) => ({ atLogLines: n, log })),
  ]
}

/** Replies that the program must have kept: each that was followed by a question or the end. */
function acknowledged({ messages, said }: LineResult): number {
  const settled = messages.filter((m) => isQuestion(m) || m.type === 'end').length - 1
  return Math.max(0, Math.min(said.length, settled))
}

const named = (m: Message | undefined): string =>
  JSON.stringify(m === undefined ? 'nothing' : { ...m, log: '' })

export interface Killed {
  /** What was lost or changed; empty is right. */
  readonly flaws: readonly string[]
  /** False where the job was over before the kill, or had no log yet. */
  readonly struck: boolean
}

/** Kills the job there, takes it up again and does the rest, saying what was said in the undisturbed one. */
export async function killAndResume(job: Whole, at: (log: string) => KillPoint): Promise<Killed> {
  const { folder, log, env } = placeIn(job.folder)
  let next = 0
  const saidInTurn = (message: Message): Said | undefined =>
    isQuestion(message) ? job.said[next++] : undefined
  const first = await runLines({
    program: job.program,
    args: diagnose(job, log),
    cwd: folder,
    env,
    reply: saidInTurn,
    kill: at(log),
  })
  const point = JSON.stringify({ ...at(''), log: undefined })
  if (first.signal !== 'SIGKILL') return { flaws: [], struck: false }

  const flaws: string[] = []
  const kept = eventsIn(log).filter((e) => e.e === 'replied').length
  if (kept < acknowledged(first)) flaws.push(`${point}: ${acknowledged(first)} answers taken, ${kept} kept`)
  if (eventsIn(log).length === 0) return { flaws, struck: first.messages.length > 0 }

  next = kept
  const second = await runLines({
    program: job.program,
    args: ['resume', log, '--lines'],
    cwd: folder,
    env,
    reply: saidInTurn,
  })
  const over = eventsIn(log).some((e) => e.e === 'ended')
  const [question] = second.messages.filter(isQuestion)
  if (kept < job.said.length && named(question) !== named(job.questions[kept]))
    flaws.push(`${point}: after ${kept} answers ${named(question)} stands, not ${named(job.questions[kept])}`)
  if (!over) flaws.push(`${point}: did not come to an end: ${second.stderr}`)
  const end = eventsIn(log).findLast((e) => e.e === 'ended')?.end
  if (end && (end.outcome !== job.end.outcome || end.minutes !== job.end.minutes))
    flaws.push(`${point}: ended ${end.outcome} after ${end.minutes} minutes`)
  const all = eventsIn(log).filter((e) => e.e === 'replied').length
  if (all !== job.said.length) flaws.push(`${point}: ${all} answers in the log, not ${job.said.length}`)
  return { flaws, struck: true }
}
