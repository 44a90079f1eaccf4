/** The first boot of the example builds: clean, and with faults planted, each put right on the way. */
import { describe, expect, test } from 'vitest'
import { compile } from '../../src/core/bench/build.ts'
import { bootWalk } from '../../src/core/checks/boot-walk.ts'
import type { Prompt } from '../../src/core/checks/prompt.ts'
import type { Fault } from '../../src/core/faults/fault.ts'
import { example } from '../support/examples.ts'
import { runJob } from '../support/run-job.ts'

const station = example('archive-ten-fans')
const desk = example('small-three-fans')

const edits = (prompts: readonly Prompt[]) => prompts.flatMap((p) => (p.show === 'do' ? p.edits : []))
const asked = (prompts: readonly Prompt[]) => prompts.flatMap((p) => (p.show === 'ask' ? [p.id] : []))

describe('the walk of a plan', () => {
  test('goes over every lead of the plan once before power is given', () => {
    const build = compile(station)
    const before = bootWalk(build).filter((p) => p.stage === 'before-power')
    const plugs = before.flatMap(({ ask }) =>
      ask.many ? ask.marks.filter((m) => m.value === 'doubtful').map((m) => m.observe.at) : [],
    )
    expect([...plugs].sort()).toEqual(station.leads.map((lead) => lead.plug).sort())
    for (const { ask } of before) expect([ask.power, ask.hands]).toEqual(['off', 'in'])
  })

  test('asks for no lights and no USB where there are none', () => {
    const build = compile(example('plain-no-lights'))
    const whats = bootWalk(build).flatMap(({ ask }) => (ask.many ? ask.marks.map((m) => m.observe.what) : []))
    for (const what of ['lit', 'shows', 'listed', 'effect', 'answers']) expect(whats).not.toContain(what)
  })
})

describe('a first boot', () => {
  test('that is clean goes through every point in order, touches nothing and finds nothing wrong', async () => {
    const { end, prompts } = await runJob(station, 'first-boot', [])
    expect(asked(prompts)).toEqual(bootWalk(compile(station)).map((p) => p.ask.id))
    expect(edits(prompts).filter((e) => e.do !== 'power')).toEqual([])
    expect(end.outcome).toBe('nothing-wrong')
  })

  test('with a dead light chain, a swapped pair and a full-speed fan puts all three right and goes on', async () => {
    const faults: Fault[] = [
      { at: 'F9.light', mode: 'open-DATA' },
      { at: 'F4.light', mode: 'swapped-with-F5.light' },
      { at: 'F10.motor', mode: 'open-CONTROL' },
    ]
    const { end, prompts } = await runJob(station, 'first-boot', faults)
    expect(end.outcome).toBe('fixed')
    const done = edits(prompts)
    expect(done).toContainEqual({ do: 'swap', a: 'F4.light', b: 'F5.light' })
    expect(done).toContainEqual({ do: 'substitute', what: 'F9' })
    expect(done).toContainEqual({ do: 'substitute', what: 'F10' })
    expect(asked(prompts).at(-1)).toBe('walk soak')
  }, 60_000)

  test('finds a plug that is not home before power is ever given', async () => {
    const { end, prompts } = await runJob(desk, 'first-boot', [{ at: 'F2.light', mode: 'unplugged' }])
    const on = prompts.findIndex((p) => p.show === 'do' && p.id === 'power on')
    expect(edits(prompts.slice(0, on))).toContainEqual({ do: 'reseat', plug: 'F2.light' })
    expect(end.outcome).toBe('fixed')
  })
})
