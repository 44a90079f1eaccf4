/** Several symptoms told at once: together where one fault may show both, else one after the other in the same job. */
import { describe, expect, test } from 'vitest'
import { flowOfAll } from '../../../flows/all.ts'
import { compile } from '../../../src/core/bench/build.ts'
import { run } from '../../../src/core/bench/run.ts'
import type { Prompt } from '../../../src/core/checks/prompt.ts'
import { faultByName, faultsOf } from '../../../src/core/faults/catalogue.ts'
import type { Fault } from '../../../src/core/faults/fault.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { apply } from '../../../src/job/drive/apply.ts'
import { begin } from '../../../src/job/drive/job.ts'
import { split } from '../../../src/job/drive/one-cause.ts'
import type { LogEvent } from '../../../src/job/log/event.ts'
import { symptomsIn } from '../../../src/job/log/symptoms-in.ts'
import { openSession } from '../../../src/job/session.ts'
import type { Reply, View } from '../../../src/job/view.ts'
import { personAt } from '../../support/bench-person.ts'
import { planOf } from '../../support/build.ts'
import { example } from '../../support/examples.ts'
import { groundFor, memoryLog } from '../../support/run-job.ts'

interface Ran {
  readonly views: readonly View[]
  readonly events: readonly LogEvent[]
  readonly last: View
  readonly right: boolean
}

/** A whole job with the bench as the person. @param refuses things to do that cannot be done here */
async function runTold(
  plan: Plan,
  told: readonly string[],
  faults: readonly Fault[],
  refuses: (prompt: Prompt, view: View) => boolean = () => false,
): Promise<Ran> {
  const ground = { ...groundFor(plan, told[0] ?? ''), told }
  const log = memoryLog()
  const session = await openSession(begin(ground), log, plan)
  const person = personAt(plan, faults, { past: { since: 'new', 'comes-and-goes': 'no', worked: 'never' } })
  const views: View[] = []
  for (let view = session.view(); view.prompt && views.length < 150; view = session.view()) {
    views.push(view)
    const { prompt } = view
    const no = refuses(prompt, view)
    if (prompt.show === 'do' && !no) person.did(prompt.edits)
    const reply: Reply = no
      ? { say: 'cannot' }
      : prompt.show === 'do'
        ? { say: 'done' }
        : person.answer(prompt)
    expect(await session.reply(reply)).toEqual({ ok: true })
  }
  const again = log.events.reduce(apply, begin(ground))
  expect(again.end).toEqual(session.view().end)
  const build = compile(plan)
  const healthy = run(build, { plants: [], edits: [] })
  const right = plan.parts.every((p) =>
    (['spins', 'lit'] as const).every(
      (what) => person.see({ what, at: p.id }) === healthy.see({ what, at: p.id }),
    ),
  )
  return { views, events: log.events, last: session.view(), right }
}

/** A desk of two fans, each on a header of its own, their lights on one hub. */
const small = planOf(`
build: Parish office desk
supply: {leads: {SA: {kind: sata, plugs: 2}}}
board:
  fan_headers: {SYS1: {amps: 1.0, drive: pwm}, SYS2: {amps: 1.0, drive: pwm}}
  light_headers: {L1: {volts: 5, amps: 3.0}}
parts:
  F1: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}}
  F2: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}}
  H1: {kind: light-hub, ports: 2, chain: parallel, power: sata, host: header}
leads:
  - F1.motor -> board.SYS1
  - F2.motor -> board.SYS2
  - F1.light -> H1.1
  - F2.light -> H1.2
  - H1.in -> board.L1
  - H1.power -> supply.SA.1
`)
const archive = example('archive-ten-fans')

describe('symptoms that one fault may show', () => {
  test('are one job with the questions of both, each once', async () => {
    const build = compile(archive)
    const told = ['not-listed', 'lights-stuck']
    expect(split(build, told)).toEqual({ now: told, later: [] })
    const fault = faultsOf(build).find(({ plant, fault: { mode } }) => {
      const sight = run(build, { plants: [plant], edits: [] })
      const [listed, stuck] = [
        sight.see({ what: 'listed', at: 'H1' }),
        sight.see({ what: 'shows', at: 'F1' }),
      ]
      return mode === 'unplugged' && listed === 'no' && stuck === 'stored'
    })?.fault
    expect(fault).toBeDefined()
    const { views, last, events } = await runTold(archive, told, fault ? [fault] : [])
    expect(last.end).toMatchObject({ outcome: 'fixed' })
    expect(last.end?.suspects[0]?.faults).toEqual([fault])
    const asked = views.filter((v) => v.state.startsWith('scoping')).map((v) => v.prompt?.id ?? '')
    expect(asked.slice(0, 2)).toEqual(['map listed', 'map shows'])
    expect(new Set(asked).size).toBe(asked.length)
    expect(events.filter((e) => e.e === 'symptoms')).toHaveLength(1)
  })

  test('have a flow that asks nothing twice and skips what only some of them look over', () => {
    const flow = flowOfAll(['lights-stuck', 'not-listed', 'wrong-colours'])
    const keys = flow?.scoping.map((t) => ('map' in t ? t.map : t.about)) ?? []
    expect(new Set(keys).size).toBe(keys.length)
    expect(new Set(flow?.scoping.map((t) => t.name)).size).toBe(keys.length)
    expect(keys.slice(0, 2)).toEqual(['shows', 'listed'])
    expect(flow?.scoping.find((t) => 'map' in t && t.map === 'shows')?.when).toBeUndefined()
    expect(flowOfAll(['lights-stuck', 'no-such'])).toBeUndefined()
  })
})

describe('symptoms that no single fault of the build can show', () => {
  const told = ['lights-dark', 'fan-still']
  const faults = [
    { at: 'F1.light', mode: 'unplugged' },
    { at: 'F2.motor', mode: 'unplugged' },
  ]

  test('by every fault of the catalogue, planted one by one', () => {
    const build = compile(small)
    expect(split(build, told)).toEqual({ now: ['lights-dark'], later: ['fan-still'] })
    for (const { plant } of faultsOf(build)) {
      const sight = run(build, { plants: [plant], edits: [] })
      const dark = small.parts.some(({ id }) => sight.see({ what: 'lit', at: id }) === 'dark')
      const still = small.parts.some(({ id }) =>
        ['no', 'twitches'].includes(sight.see({ what: 'spins', at: id }) ?? ''),
      )
      expect(dark && still).toBe(false)
    }
  })

  test('are taken one after the other in the same job, the second shown while it waits', async () => {
    for (const fault of faults) expect(faultByName(compile(small), fault)).toBeDefined()
    const { views, events, last, right } = await runTold(small, told, faults)
    expect(last.end?.outcome).toBe('fixed')
    expect(right).toBe(true)
    expect(views[0]).toMatchObject({ symptoms: ['lights-dark'], queued: ['fan-still'] })
    const notes = views[0]?.told.flatMap((t) => (t.show === 'note' ? [t.facts.what] : []))
    expect(notes).toContain('symptoms-apart')
    const taken = events.filter((e) => e.e === 'symptoms')
    expect(taken).toMatchObject([
      { now: ['lights-dark'], later: ['fan-still'] },
      { now: ['fan-still'], later: [], after: 'fixed' },
    ])
    const second = views.filter((v) => v.symptoms[0] === 'fan-still')
    expect(second[0]?.prompt?.id).toBe('map spins')
    expect(second[0]?.power).toBe('on')
    expect(symptomsIn(events)).toEqual(told)
    for (const { prompt, power } of views) if (prompt?.hands === 'in') expect(power).toBe('off')
    // What was answered to the first is closed with it.
    expect(views.filter((v) => v.canUndo && v.state === 'isolating.outside.asking').length).toBeGreaterThan(0)
    expect(second[0]?.canUndo).toBe(false)
  })

  test('are both looked into where the first is handed over, and the job ends as that', async () => {
    const { views, last, events } = await runTold(
      small,
      told,
      faults,
      (prompt, view) =>
        view.queued.length > 0 && prompt.show === 'do' && prompt.edits.some((e) => e.do !== 'power'),
    )
    expect(views.some((v) => v.symptoms[0] === 'fan-still')).toBe(true)
    expect(last.end?.outcome).toMatch(/^(handed-over|declined)$/)
    const after = events.filter((e) => e.e === 'symptoms').at(-1)
    expect(after).toMatchObject({ after: last.end?.outcome })
    expect(last.end?.suspects.flatMap((s) => s.faults.map((f) => f.at))).toContain('F1.light')
  })

  test('stay shown where the technician hands over before the second', async () => {
    const ground = { ...groundFor(small, 'lights-dark'), told }
    const session = await openSession(begin(ground), memoryLog(), small)
    await session.reply({ say: 'hand-over' })
    expect(session.view()).toMatchObject({ queued: ['fan-still'], end: { outcome: 'handed-over' } })
  })
})
