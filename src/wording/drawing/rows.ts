/**
 * The wiring as a tree of rows, from supply leads and board headers down to each fan and light. A hub that has
 * several leads shows its sockets under one of them, the one that tells it what to do; the others point there.
 */

import type { Finding } from '../../core/audit/finding.ts'
import { type Line, lineOf } from '../../core/audit/plug-order.ts'
import { partOf, type Wiring, wire } from '../../core/audit/wiring.ts'
import { modelOf } from '../../core/bench/parts/models.ts'
import { SETTING_KEYS, settingRef } from '../../core/bench/setting.ts'
import type { Part } from '../../core/plan/part.ts'
import type { Plan, PortRef } from '../../core/plan/plan.ts'

export interface Row {
  readonly depth: number
  /** Whether more rows of the same depth and parent follow; one entry for each depth above. */
  readonly more: readonly boolean[]
  readonly is: 'source' | 'lead' | 'empty' | 'part'
  readonly line?: Line
  /** The socket, or the name of a source. */
  readonly name: string
  /** The plug in it. */
  readonly plug?: PortRef
  readonly part?: Part
  /** What is drawn elsewhere: the plug under which its sockets stand. */
  readonly under?: PortRef
  /** Numbers of the findings that touch it. */
  readonly findings: readonly number[]
}

interface Twig {
  readonly is: Row['is']
  readonly name: string
  readonly line?: Line
  readonly plug?: PortRef
  readonly part?: Part
  readonly under?: PortRef
  readonly refs: readonly string[]
  readonly twigs: readonly Twig[]
}

/** All rows of a plan, in its order. @param findings numbered from 1 in their order */
export function rowsOf(plan: Plan, findings: readonly Finding[]): Row[] {
  const w = wire(plan)
  const numbers = new Map<string, number[]>()
  findings.forEach((finding, i) => {
    const [first] = finding.refs
    if (first !== undefined) numbers.set(first, [...(numbers.get(first) ?? []), i + 1])
  })
  const drawn = new Set<string>()
  const sources = [...supplyTwigs(w, drawn), ...boardTwigs(w, drawn)]
  const loose = plan.parts
    .filter((part) => !drawn.has(part.id))
    .map((part): Twig => {
      const refs = [part.id, ...(w.portsOf.get(part.id) ?? []).map((port) => port.ref)]
      return { is: 'part', name: part.id, part, refs, twigs: [] }
    })
  const rows: Row[] = []
  const lay = (twigs: readonly Twig[], depth: number, more: readonly boolean[]): void => {
    for (const [i, { refs, twigs: below, ...row }] of twigs.entries()) {
      const follows = [...more, i < twigs.length - 1]
      const marks = [...new Set(refs.flatMap((ref) => numbers.get(ref) ?? []))]
      rows.push({ ...row, depth, more: follows, findings: marks })
      lay(below, depth + 1, follows)
    }
  }
  lay([...sources, ...loose], 0, [])
  return rows
}

function supplyTwigs(w: Wiring, drawn: Set<string>): Twig[] {
  return w.plan.supply.leads.map((lead) => ({
    is: 'source',
    name: `supply.${lead.id}`,
    line: 'supply',
    refs: [`supply.${lead.id}`],
    twigs: Array.from({ length: lead.plugs }, (_, i) => socketTwig(w, `supply.${lead.id}.${i + 1}`, drawn)),
  }))
}

function boardTwigs(w: Wiring, drawn: Set<string>): Twig[] {
  const { fanHeaders, lightHeaders, usbHeaders } = w.plan.board
  const header = (id: string): Twig => {
    const twig = socketTwig(w, `board.${id}`, drawn)
    const settings = (['headers', 'channels'] as const).flatMap((section) =>
      SETTING_KEYS[section].map((key) => settingRef(section, id, key)),
    )
    return {
      ...twig,
      is: twig.is === 'lead' ? 'lead' : 'empty',
      name: `board.${id}`,
      refs: [...twig.refs, ...settings],
    }
  }
  return [
    ...fanHeaders.map((h) => header(h.id)),
    ...lightHeaders.map((h) => header(h.id)),
    ...usbHeaders.flatMap((h) => {
      const rows = [...w.ports.values()].filter((p) => p.ref.startsWith(`board.${h.id}.`)).map((p) => p.ref)
      return w.plugIn(`board.${h.id}`) !== undefined
        ? [header(h.id)]
        : rows.map((ref) => ({ ...socketTwig(w, ref, drawn), name: ref }))
    }),
  ]
}

/** The plug of a part under which its sockets are drawn: the one that steers it, if that is plugged in. */
function mainPlug(w: Wiring, part: Part): PortRef | undefined {
  const order = ['usb', 'in', 'light_in', 'motor', 'power']
  const plugs = (w.portsOf.get(part.id) ?? []).filter((p) => p.gender === 'plug')
  const rank = (name: string): number => (order.indexOf(name) + order.length) % order.length
  return plugs.filter((p) => w.leadAt(p.ref)).sort((a, b) => rank(a.name) - rank(b.name))[0]?.ref
}

/** The sockets that are drawn under a plug. */
function socketsUnder(w: Wiring, part: Part, plug: PortRef): PortRef[] {
  const sockets = (w.portsOf.get(part.id) ?? []).filter((p) => p.gender === 'socket').map((p) => p.ref)
  if (part.kind === 'fan' || part.kind === 'pump' || part.kind === 'strip') {
    const fed = new Set(
      modelOf(part)
        .inside(part)
        .filter((i) => `${part.id}.${i.from}` === plug)
        .map((i) => `${part.id}.${i.socket}`),
    )
    return sockets.filter((s) => fed.has(s))
  }
  return mainPlug(w, part) === plug ? sockets : []
}

function socketTwig(w: Wiring, socket: PortRef, drawn: Set<string>): Twig {
  const name = socket.slice(socket.lastIndexOf('.') + 1)
  const plug = w.plugIn(socket)
  const line = lineOf(w.ports.get(plug ?? socket)?.connector)
  const part = plug === undefined ? undefined : w.parts.get(partOf(plug))
  if (plug === undefined || !part) return { is: 'empty', name, line, refs: [socket], twigs: [] }
  drawn.add(part.id)
  const below = socketsUnder(w, part, plug)
  const main = mainPlug(w, part)
  const elsewhere =
    main !== undefined &&
    main !== plug &&
    (w.portsOf.get(part.id) ?? []).some((p) => p.gender === 'socket') &&
    part.kind !== 'fan' &&
    part.kind !== 'pump' &&
    part.kind !== 'strip'
  return {
    is: 'lead',
    name,
    line,
    plug,
    part,
    ...(elsewhere ? { under: main } : {}),
    refs: [
      socket,
      plug,
      ...(main === plug ? [part.id, `channels/${part.id}/profile`, `channels/${part.id}/colours`] : []),
    ],
    twigs: below.map((s) => socketTwig(w, s, drawn)),
  }
}
