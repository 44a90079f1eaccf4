/**
 * What the closed jobs of a bench say about which faults turn up there: a factor on the catalogue's weight for each
 * class of fault. A class is a mode on a kind of thing (`loose` on a fan's plug, `dead` on a light hub), so what was
 * learnt on one build holds on the next.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { catalogue, faultsOf } from '../faults/catalogue.ts'
import type { Fault } from '../faults/fault.ts'

/** Factors by class; a class that is not in it keeps its weight. */
export type Learned = ReadonlyMap<string, number>

export const NOTHING_LEARNT: Learned = new Map()

const stems = catalogue.filter((e) => e.mode.endsWith('-')).map((e) => e.mode)

/** The family of a mode: `open-TACH` is `open-`, `swapped-with-F2.motor` is `swapped-with-`. */
export const stemOf = (mode: string): string => stems.find((s) => mode.startsWith(s)) ?? mode

/** The kind of thing at a place: of a part, or the board, the supply, a setting. */
function kindAt(build: Build, at: string): string {
  if (at.startsWith('supply.')) return 'supply'
  if (/^(?:headers|channels|ports|host)\//.test(at)) return 'setting'
  const index = build.partAt.get(at) ?? build.partOf[build.portAt.get(at) ?? NOWHERE] ?? NOWHERE
  return build.parts[index]?.part.kind ?? 'board'
}

/** `loose|fan`: mode and kind of thing. */
export const classOf = (build: Build, { at, mode }: Fault): string => `${stemOf(mode)}|${kindAt(build, at)}`

/** How much of the catalogue's weight each class has on a build; the shares sum to 1. */
export function sharesOf(build: Build): ReadonlyMap<string, number> {
  const all = faultsOf(build)
  const total = all.reduce((sum, f) => sum + f.weight, 0)
  const shares = new Map<string, number>()
  for (const f of all) {
    const key = classOf(build, f.fault)
    shares.set(key, (shares.get(key) ?? 0) + f.weight / total)
  }
  return shares
}
