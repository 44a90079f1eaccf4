/** How a job ends when what is seen stays and no known cause fits: it is declined, soon, and never told that nothing is wrong. */
import { describe, expect, test } from 'vitest'
import { type Observable, observableKey, type Value } from '../../src/core/bench/observable.ts'
import { faultText } from '../../src/core/faults/fault.ts'
import { example } from '../support/examples.ts'
import { runJob } from '../support/run-job.ts'

const plan = example('small-three-fans')

/** Everything as on a healthy build, but for some things that show the same whatever is done. */
const stuckAt =
  (stuck: Readonly<Record<string, Value>>) =>
  (o: Observable, shown: Value | null): Value | null =>
    shown === null ? null : (stuck[observableKey(o)] ?? shown)

describe('what stays as it is whatever is done', () => {
  test('in three ways at once is declined, and before an hour is over', async () => {
    const sees = stuckAt({ 'spins F1': 'no', 'spins F2': 'slow', 'spins F3': 'full' })
    const { end } = await runJob(plan, 'fan-still', [], { sees, past: { spare: 'yes', tool: 'yes' } })
    expect(end.outcome).toBe('declined')
    expect(end.suspects[0]?.faults.map(faultText)).toEqual(['build:none-of-these'])
    expect(end.minutes).toBeLessThan(60)
  })

  test('is not told to be nothing: a light that flickers each time has a cause, if an unknown one', async () => {
    const sees = stuckAt({ 'flickers F2': 'yes' })
    const { end } = await runJob(plan, 'lights-flicker', [], { sees })
    expect(end.outcome).toBe('declined')
    expect(end.suspects.flatMap((s) => s.faults.map(faultText))).not.toContain('build:nothing-wrong')
  })
})
