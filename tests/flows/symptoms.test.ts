/**
 * Each symptom on the example builds with the bench as the person: a fault that shows in what the symptom is about
 * ends with its cause named and the build mended. The faults are drawn evenly from all that show there.
 */
import { expect, test } from 'vitest'
import { flows } from '../../flows/all.ts'
import type { Flow } from '../../flows/shared/flow.ts'
import type { Build } from '../../src/core/bench/build.ts'
import { run } from '../../src/core/bench/run.ts'
import { mapped } from '../../src/core/checks/maps.ts'
import type { Suspect } from '../../src/core/checks/prompt.ts'
import { faultsOf, type KnownFault } from '../../src/core/faults/catalogue.ts'
import { type Fault, faultText } from '../../src/core/faults/fault.ts'
import { wanted } from '../../src/core/infer/planned.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { example } from '../support/examples.ts'
import { groundFor, runJob, sameFaults } from '../support/run-job.ts'

/** Single faults that the first look of the flow shows, or its second where the first has nothing to show here. */
function showing(build: Build, flow: Flow): readonly KnownFault[] {
  const kinds = flow.scoping.flatMap((t) => ('map' in t ? [t.map] : []))
  const by = kinds.map((kind) => {
    const things = mapped(build, kind)
    return faultsOf(build).filter((known) => {
      const sight = run(build, { plants: [known.plant], edits: [] })
      return things.some((o) => sight.see(o) !== wanted(build, o))
    })
  })
  return by.find((found) => found.length > 0) ?? []
}

const spread = <T>(list: readonly T[], most: number): readonly T[] =>
  list.filter((_, i) => Math.floor((i * most) / list.length) !== Math.floor(((i - 1) * most) / list.length))

/** What nothing at this bench can mend is handed over, with its cause among the first three. */
const among = (suspects: readonly Suspect[], fault: Fault): boolean =>
  suspects.some((s) => [s, ...s.alike].some((one) => sameFaults(one.faults, [fault])))

async function failures(plan: Plan, symptom: string, most: number): Promise<readonly string[]> {
  const ground = groundFor(plan, symptom)
  const failed: string[] = []
  const drawn = spread(showing(ground.build, ground.flow), most)
  expect(drawn.length).toBeGreaterThan(0)
  for (const { fault, intermittent } of drawn) {
    const past = { 'comes-and-goes': intermittent ? 'yes' : 'no', since: 'new' }
    const { named, end } = await runJob(plan, symptom, [fault], { past }, ground)
    if (!named && !(end.outcome === 'handed-over' && among(end.suspects.slice(0, 3), fault)))
      failed.push(
        `${faultText(fault)}: ${end.outcome}, ${end.suspects.map((s) => s.faults.map(faultText).join(' + ')).join('; ')}`,
      )
  }
  return failed
}

const named = flows.filter((flow) => !flow.walk).map((flow) => [flow.id] as const)

test.each(named)('%s finds the cause on a desk with three fans', async (symptom) => {
  expect(await failures(example('small-three-fans'), symptom, 1)).toEqual([])
})

/** Every second one: what differs between flows is asked for on the small build too. */
test.each(named.filter((_, i) => i % 2 === 0))(
  '%s finds the cause among ten fans, a hub and a controller',
  async (symptom) => {
    expect(await failures(example('archive-ten-fans'), symptom, 1)).toEqual([])
  },
)

test.each([
  'fan-still',
  'zero-rpm',
  'fans-full',
  'odd-reading',
  'fans-hunting',
  'alarm',
  'all-dead',
  'works-then-stops',
  'survey',
])('%s works on a build without any lights', async (symptom) => {
  expect(await failures(example('plain-no-lights'), symptom, 1)).toEqual([])
})
