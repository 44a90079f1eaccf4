/**
 * How many LEDs a header, hub or controller is given to drive. Lights that get the same data in parallel count once,
 * by the longest of them; what follows one another, or hangs on ports with data of their own, adds up.
 */
import { modelOf } from '../bench/parts/models.ts'
import type { Part } from '../plan/part.ts'
import type { PortRef } from '../plan/plan.ts'
import { type Branch, branchesFrom, ledsOf, longest } from './channels.ts'
import { partsOf } from './light-channels.ts'
import type { LightAt, Wiring } from './wiring.ts'

export interface LimitedChain {
  readonly ref: string
  readonly limit: number
  /** Those that count. */
  readonly lights: Branch
  /** Parts wholly and partly beyond the limit. */
  readonly dark: readonly string[]
  readonly partly: readonly string[]
}

/** Only where the plan gives a limit. */
export function* limitedChains(w: Wiring): Generator<LimitedChain> {
  for (const { id, maxLeds } of w.plan.board.lightHeaders)
    if (maxLeds !== undefined) yield limited(w, `board.${id}`, maxLeds, [`board.${id}`], false)
  for (const part of w.plan.parts)
    if ((part.kind === 'light-hub' || part.kind === 'controller') && part.maxLeds !== undefined)
      yield limited(w, part.id, part.maxLeds, socketsOf(part), !isParallel(part))
}

const feeds = (part: Part) => {
  const role = modelOf(part).light?.(part)
  return role?.does === 'feeds' ? role : undefined
}
const socketsOf = (part: Part): PortRef[] => (feeds(part)?.sockets ?? []).map((s) => `${part.id}.${s}`)
const isParallel = (part: Part): boolean => feeds(part)?.order === 'parallel'

/** @param adds whether what hangs on one socket counts beside what hangs on the next */
function limited(w: Wiring, ref: string, limit: number, sockets: readonly PortRef[], adds: boolean) {
  const branches = sockets.map((socket) => branchesFrom(w, socket))
  const dark: LightAt[] = []
  const partly: LightAt[] = []
  const counted: LightAt[] = []
  for (const on of branches) {
    const before = adds ? ledsOf(counted) : 0
    for (const branch of on) {
      let last = before
      for (const at of branch) {
        const first = last
        last += at.light.leds
        if (last > limit) (first >= limit ? dark : partly).push(at)
      }
    }
    if (adds) counted.push(...longest(on))
  }
  const lights = adds ? counted : longest(branches.flat())
  const some = partsOf(partly)
  return { ref, limit, lights, dark: partsOf(dark).filter((id) => !some.includes(id)), partly: some }
}
