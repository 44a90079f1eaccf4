/** What holds in every job, whatever the person at the bench says: walks over real jobs on the example builds. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { flows } from '../../../flows/all.ts'
import { isInside } from '../../../flows/shared/step.ts'
import { compile } from '../../../src/core/bench/build.ts'
import { faultsOf } from '../../../src/core/faults/catalogue.ts'
import type { Fault } from '../../../src/core/faults/fault.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { begin, type Ground } from '../../../src/job/drive/job.ts'
import type { LogEvent } from '../../../src/job/log/event.ts'
import { playBack } from '../../../src/job/play-back.ts'
import { openSession } from '../../../src/job/session.ts'
import type { View } from '../../../src/job/view.ts'
import { personAt } from '../../support/bench-person.ts'
import fc from '../../support/fast-check.ts'
import { groundFor, memoryLog, memorySession } from '../../support/run-job.ts'
import { afterEdits, plannedWiring, type Wiring } from '../../support/wiring-tracker.ts'
import { restless } from './walk.ts'

function example(name: string): Plan {
  const file = `${name}.build.yaml`
  const read = readPlan(readFileSync(`docs/examples/${file}`, 'utf8'), file)
  if (!read.ok) throw new Error(`${file} does not read`)
  return read.value
}

const plans = ['small-three-fans', 'plain-no-lights', 'archive-ten-fans'].map(example)
/** By name only: a machine in a counterexample would be printed whole. */
const symptoms = flows.map((flow) => flow.id)

const faults = new Map<Plan, readonly Fault[]>(
  plans.map((plan) => [plan, faultsOf(compile(plan)).map((k) => k.fault)]),
)

/** Own edits of the step in hand: what the job does to the build apart from putting a trial back. */
const ownEdits = (events: readonly LogEvent[]) => {
  const step = events.findLast((e) => e.e === 'step')
  return step?.e === 'step' && step.step.kind !== 'end' ? step.step.edits.filter(isInside) : []
}

async function reopened(from: Ground, plan: Plan, events: readonly LogEvent[]) {
  const log = memoryLog(events)
  const played = playBack(begin(from), events)
  if (!played.ok) throw new Error(`line ${played.line} does not fit: ${played.why}`)
  const session = await openSession(played.job, log, plan)
  return { view: session.view(), added: log.events.slice(events.length) }
}

/** What was told, proposed and asked; suspects may be written twice where a log broke off behind them. */
const substance = (events: readonly LogEvent[]) =>
  events.filter((e) => e.e !== 'suspects').map(({ seq: _, at: __, ...body }) => body)

interface Walked {
  readonly prompts: number
  readonly view: View
  readonly events: readonly LogEvent[]
}

const MOST_REPLIES = 220
/** Milliseconds: many jobs in one test, on a machine that may have other things to do. */
const BUSY = 180_000

async function walk(
  plan: Plan,
  symptom: string,
  fault: Fault,
  rolls: readonly (readonly [number, number])[],
): Promise<Walked> {
  const from = groundFor(plan, symptom)
  const { session, log } = await memorySession(plan, symptom, from)
  const person = personAt(plan, [fault])
  let wiring: Wiring = plannedWiring(from.build)
  /** As it should be if every trial had been put back. */
  let kept = wiring
  let prompts = 0
  let whims = 0
  for (let view = session.view(); view.prompt; view = session.view()) {
    const { prompt } = view
    if (++prompts > MOST_REPLIES) throw new Error('the job does not end')
    expect(view.power).toBe(wiring.power)
    if (prompt.hands === 'in') expect(prompt.power).toBe('off')
    if (prompt.show === 'ask') expect(prompt.power).toBe(view.power)
    if (prompt.show === 'do') {
      const outside = prompt.edits.every((e) => e.do === 'set')
      const gate = prompt.edits.length === 1 && prompt.edits[0]?.do === 'power'
      if (!outside && !gate) expect([prompt.power, prompt.hands, wiring.power]).toEqual(['off', 'in', 'off'])
      if (prompt.edits.some((e) => e.do === 'power')) expect([gate, prompt.hands]).toEqual([true, 'out'])
    }
    const [roll, pick] = rolls[prompts % rolls.length] ?? [0, 0]
    const reply = restless(view, person, roll, pick, whims)
    if (prompt.show === 'do' && reply.say === 'done') {
      const own = ownEdits(log.events)
      wiring = afterEdits(wiring, prompt.edits)
      person.did(prompt.edits)
      if (prompt.purpose === 'repair' && prompt.hands === 'in')
        kept = { ...afterEdits({ ...kept, power: 'off' }, own), power: wiring.power }
      if (prompt.hands === 'in') {
        const trial = prompt.purpose === 'check' ? afterEdits({ ...kept, power: 'off' }, own) : kept
        expect(wiring.sits).toEqual(trial.sits)
      }
    }
    if (reply.say === 'undo' || reply.say === 'note') whims++
    expect(await session.reply(reply)).toEqual({ ok: true })
    // Each replay is of the whole log: every third one sees what a replay may lose, and the last.
    if (prompts % 3 !== 0 && session.view().prompt) continue
    const again = await reopened(from, plan, log.events)
    expect(again.view).toEqual(session.view())
    expect(again.added).toEqual([])
  }
  return { prompts, view: session.view(), events: log.events }
}

const rolls = fc.array(fc.tuple(fc.nat(99), fc.nat(997)), { minLength: 40, maxLength: 60 })

describe.each(plans.map((plan) => [plan.build, plan] as const))('on %s', (_, plan) => {
  test(
    'whatever is said, hands go in only with power off, edits make sense, a log gives its job back, a job ends',
    async () => {
      const runs = plan.parts.length > 10 ? 2 : 4
      await fc.assert(
        fc.asyncProperty(fc.constantFrom(...symptoms), fc.nat(100_000), rolls, async (symptom, n, list) => {
          const all = faults.get(plan) ?? []
          const fault = all[n % all.length] as Fault
          const { view, events } = await walk(plan, symptom, fault, list)
          expect(view.end).not.toBeNull()
          expect(events.at(-1)?.e).toBe('ended')
        }),
        { numRuns: runs, seed: 20260105, endOnFailure: true },
      )
    },
    BUSY,
  )

  test(
    'a log torn at any line goes on as if nothing had happened',
    async () => {
      await fc.assert(
        fc.asyncProperty(
          fc.constantFrom(...symptoms),
          fc.nat(100_000),
          rolls,
          fc.array(fc.nat(9999), { minLength: 4, maxLength: 4 }),
          async (symptom, n, list, cuts) => {
            const all = faults.get(plan) ?? []
            const { events } = await walk(plan, symptom, all[n % all.length] as Fault, list)
            const from = groundFor(plan, symptom)
            for (const cut of cuts) {
              const head = events.slice(0, cut % events.length)
              const { added } = await reopened(from, plan, head)
              const onwards = substance(events.slice(head.length))
              expect(substance(added)).toEqual(onwards.slice(0, substance(added).length))
            }
          },
        ),
        { numRuns: 2, seed: 20260106, endOnFailure: true },
      )
    },
    BUSY,
  )
})
