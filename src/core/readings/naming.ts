/**
 * Which name in a reading stands for which header or part of the build. A person says it (`fan1=SYS1`,
 * `1209:0001=H1`, `1-9.1=H1`); nothing is ever matched by likeness, since a wrong match makes a wrong diagnosis.
 */
import type { Build } from '../bench/build.ts'
import { nearest } from '../plan/nearest.ts'

export interface Named {
  /** As in the reading, in small letters: `fan1`, `nct6798/fan1`, `1209:0001`, `1-9.1`. */
  readonly name: string
  /** A port (`board.SYS1`) or a part (`H1`). */
  readonly ref: string
}

export type NamedRead =
  | { readonly ok: true; readonly named: readonly Named[] }
  | {
      readonly ok: false
      readonly given: string
      readonly why: 'form' | 'no-such-place' | 'twice'
      readonly near: readonly string[]
    }

/**
 * What was said, and what the plan says where nothing else was: neither of that name nor of that place. So a plan that is
 * right for one machine can be overruled at another.
 */
export const withPlanned = (build: Build, said: readonly Named[]): readonly Named[] => [
  ...said,
  ...build.plan.readings.filter((p) => !said.some((n) => n.name === p.name || n.ref === p.ref)),
]

/** What a place may be called: `SYS1`, `board.SYS1`, `C1.fan2`, `H1`. */
function placeOf(build: Build, text: string): string | undefined {
  const sockets = (ref: string): boolean => {
    const port = build.portAt.get(ref)
    return port !== undefined && build.ports[port]?.gender === 'socket'
  }
  const board = `board.${text}`
  return sockets(board) ? board : sockets(text) || build.partAt.has(text) ? text : undefined
}

/** Places that a reading can be about: fan headers, a controller's fan ports, parts on USB. */
export function places(build: Build): string[] {
  const headers = [...build.fanHeaders.keys()].map((port) =>
    (build.ports[port]?.ref ?? '').replace(/^board\./, ''),
  )
  const ports = build.ports.flatMap(({ ref, name }) =>
    /^fan\d+$/.test(name) && !ref.startsWith('board.') ? [ref] : [],
  )
  const devices = build.parts.flatMap(({ part, usbPlug }) => (usbPlug >= 0 ? [part.id] : []))
  return [...headers, ...ports, ...devices]
}

/** Reads `NAME=PLACE` texts; the first mistake is told with what would have done. */
export function readNames(build: Build, texts: readonly string[]): NamedRead {
  const named: Named[] = []
  for (const given of texts) {
    const split = given.lastIndexOf('=')
    const name = given.slice(0, Math.max(split, 0)).trim().toLowerCase()
    const place = given.slice(split + 1).trim()
    if (split < 1 || name === '' || place === '') return { ok: false, given, why: 'form', near: [] }
    const ref = placeOf(build, place)
    if (ref === undefined) {
      const all = places(build)
      const near = nearest(place, all)
      return { ok: false, given, why: 'no-such-place', near: near === undefined ? all : [near] }
    }
    if (named.some((n) => n.name === name && n.ref !== ref))
      return { ok: false, given, why: 'twice', near: [] }
    named.push({ name, ref })
  }
  return { ok: true, named }
}

/** The place for any of these names; the longer name (`nct6798/fan1`) goes before the shorter. */
export function placeFor(named: readonly Named[], names: readonly string[]): string | undefined {
  const sorted = names.map((n) => n.toLowerCase()).sort((a, b) => b.length - a.length)
  for (const name of sorted) {
    const found = named.find((n) => n.name === name)
    if (found) return found.ref
  }
  return undefined
}
