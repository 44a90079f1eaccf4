/** With which plugs one may have been exchanged, against going over all sockets for each plug. */
import { expect, test } from 'vitest'
import { type Build, compile } from '../../../src/core/bench/build.ts'
import { faultsOf } from '../../../src/core/faults/catalogue.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { example } from '../../support/examples.ts'
import { widePlan } from '../../support/wide-plan.ts'

function wide(fans: number): Plan {
  const read = readPlan(widePlan(fans), 'wide')
  return read.ok ? read.value : expect.fail('does not read')
}

/** The four nearest of the fan plugs that do not hang on one another, sockets of the same part first; each pair once. */
function exchanged(build: Build): readonly string[] {
  const at = (plug: number): number => build.socketOf[plug] ?? -1
  const partAbove = (plug: number): number => build.partOf[at(plug)] ?? -1
  const fans = build.plugs.filter((p) => at(p) >= 0 && /^fan[34]$/u.test(build.ports[p]?.connector ?? ''))
  const near = fans.flatMap((plug) => {
    const far = (other: number): number =>
      Math.abs(at(other) - at(plug)) + (partAbove(other) === partAbove(plug) ? 0 : 1000)
    return fans
      .filter((o) => o !== plug && partAbove(o) !== build.partOf[plug] && partAbove(plug) !== build.partOf[o])
      .sort((a, b) => far(a) - far(b) || at(a) - at(b))
      .slice(0, 4)
      .map((other) =>
        [plug, other]
          .sort((a, b) => a - b)
          .map((p) => build.ports[p]?.ref)
          .join(' '),
      )
  })
  return [...new Set(near)].sort()
}

test.each([
  ['ten fans', example('archive-ten-fans')],
  ['three fans', example('small-three-fans')],
  ['130 fans on hubs', wide(130)],
])('exchanges are between near neighbours: %s', (_, plan) => {
  const build = compile(plan)
  const listed = faultsOf(build).flatMap(({ fault: { at, mode } }) => {
    const other = mode.startsWith('swapped-with-') ? mode.slice('swapped-with-'.length) : undefined
    const kind = build.ports[build.portAt.get(at) ?? -1]?.connector ?? ''
    return other && /^fan[34]$/u.test(kind) ? [`${at} ${other}`] : []
  })
  expect([...new Set(listed)].sort()).toEqual(exchanged(build))
})
