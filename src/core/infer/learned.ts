/**
 * What the closed jobs of a bench say about which faults turn up there: a factor on the catalogue's weight for each
 * class of fault. A class is a mode on a kind of thing and, where it sits at a plug, socket or setting, the kind of that
 * (`loose|fan|light`: the light plug of a fan), so what was learnt in one place of one build holds in others like it.
 * The wider class leaves the last out (`loose|fan`): it speaks for what was never seen there.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { catalogue, faultsOf } from '../faults/catalogue.ts'
import type { Fault } from '../faults/fault.ts'
import type { Connector } from '../plan/part.ts'

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

/** What a connector is for. These words are kept with what was learnt. */
const LEAD: Readonly<Record<Connector, string>> = {
  fan3: 'fan',
  fan4: 'fan',
  light5: 'light',
  light12: 'light',
  sata: 'supply',
  peripheral: 'supply',
  usb2: 'usb',
  'usb2-pair': 'usb',
  usb3: 'usb',
}

/** The kind of plug, socket or setting at a place; undefined where the whole thing is meant. */
function spotAt(build: Build, at: string): string | undefined {
  if (at.includes('/')) return at.slice(at.lastIndexOf('/') + 1)
  const port = build.ports[build.portAt.get(at) ?? NOWHERE]
  return port && LEAD[port.connector]
}

export function classOf(build: Build, { at, mode }: Fault): string {
  const spot = spotAt(build, at)
  return `${stemOf(mode)}|${kindAt(build, at)}${spot === undefined ? '' : `|${spot}`}`
}

/** `loose|fan` of `loose|fan|light`; a class that is as wide already is its own. */
export const widerOf = (key: string): string => key.split('|', 2).join('|')

/** What was learnt of a fault's class, or of the wider one, or else nothing: 1. */
export function factorOf(learned: Learned, build: Build, fault: Fault): number {
  if (learned.size === 0) return 1
  const key = classOf(build, fault)
  return learned.get(key) ?? learned.get(widerOf(key)) ?? 1
}

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
