/**
 * A symptom found on the way to another is taken in, not lost: of a fan both leads are out, the person comes with one of the
 * two, or with something else, and goes home with both mended. Over every flow, and over builds that nobody has seen.
 */

import { expect, test } from 'vitest'
import { flows } from '../../flows/all.ts'
import { compile } from '../../src/core/bench/build.ts'
import { run } from '../../src/core/bench/run.ts'
import { faultByName } from '../../src/core/faults/catalogue.ts'
import { plannedTroubles } from '../../src/core/infer/planned.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { planOf } from '../support/build.ts'
import fc from '../support/fast-check.ts'
import { runJob } from '../support/run-job.ts'
import { wiredPlan } from '../support/wired.ts'

const desk = planOf(`
build: Parish office desk
board:
  fan_headers: {SYS1: {amps: 1.0, drive: pwm}, SYS2: {amps: 1.0, drive: pwm}}
  light_headers: {L1: {volts: 5, amps: 3.0}}
parts:
  F1: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}}
  F2: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}}
leads:
  - F1.motor -> board.SYS1
  - F2.motor -> board.SYS2
  - F1.light -> board.L1
`)

/** What is still wrong with that fan at the end of the job, as the bench shows it. */
async function leftWrong(plan: Plan, symptom: string, fan: string): Promise<readonly string[]> {
  const faults = [`${fan}.light`, `${fan}.motor`].map((at) => ({ at, mode: 'unplugged' }))
  const { end, events } = await runJob(plan, symptom, faults, {
    past: { since: 'new', 'comes-and-goes': 'no' },
  })
  const build = compile(plan)
  const shown = new Map(events.flatMap((e) => (e.e === 'shown' ? [[e.seq, e.prompt] as const] : [])))
  const edits = events.flatMap((e) => {
    const prompt = e.e === 'replied' && e.reply === 'done' ? shown.get(e.to) : undefined
    return prompt?.show === 'do' ? prompt.edits : []
  })
  const plants = faults.flatMap((fault) => faultByName(build, fault)?.plant ?? [])
  expect(plants).toHaveLength(2)
  const [now, healthy] = [run(build, { plants, edits }), run(build, { plants: [], edits: [] })]
  const wrong = (['lit', 'spins'] as const)
    .map((what) => ({ what, at: fan }))
    .filter((o) => now.see(o) !== healthy.see(o))
  return [...wrong.map((o) => `${o.what} ${o.at}`), ...(end.outcome === 'fixed' ? [] : [end.outcome])]
}

/** Every second one, to stay quick: the looks before a job is closed are the same in all. */
const some = flows.filter((flow, i) => !flow.walk && i % 2 === 0)

test.each(some.map((flow) => [flow.id]))(
  '%s ends with the lights and the motor of a fan mended, of which both leads were out',
  async (symptom) => {
    expect(await leftWrong(desk, symptom, 'F1')).toEqual([])
  },
)

/** A fan whose both leads show when they are out, of a build that is small enough for a quick job. */
function bothShow(plan: Plan): string | undefined {
  if (plan.parts.length > 6) return undefined
  const build = compile(plan)
  // A plan that cannot work as it stands is another matter.
  if (plannedTroubles(build).length > 0) return undefined
  const healthy = run(build, { plants: [], edits: [] })
  return plan.parts.find(({ id, kind }) => {
    if (kind !== 'fan') return false
    return (['light', 'motor'] as const).every((port) => {
      const plant = faultByName(build, { at: `${id}.${port}`, mode: 'unplugged' })?.plant
      const at = { what: port === 'light' ? ('lit' as const) : ('spins' as const), at: id }
      if (!plant || !['whole', 'normal'].includes(healthy.see(at) ?? '')) return false
      return ['dark', 'no'].includes(run(build, { plants: [plant], edits: [] }).see(at) ?? '')
    })
  })?.id
}

test('on builds drawn by chance too, whichever of the two the person came with', async () => {
  const plans = fc.sample(wiredPlan, { seed: 20260305, numRuns: 120 })
  const drawn = plans.flatMap((plan) => {
    const fan = bothShow(plan)
    return fan === undefined ? [] : [{ plan, fan }]
  })
  expect(drawn.length).toBeGreaterThan(1)
  for (const [i, { plan, fan }] of drawn.slice(0, 2).entries())
    expect(await leftWrong(plan, i % 2 === 0 ? 'lights-dark' : 'fan-still', fan)).toEqual([])
}, 120_000)
