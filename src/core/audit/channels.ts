/**
 * The light channels of a plan: who makes the data, and in which order it runs through which lights. A channel is
 * named as in the settings: `L1` for a board header, `H1` for a hub, `C1.light1` for one port of a controller.
 */
import { modelOf } from '../bench/parts/models.ts'
import type { LightRole } from '../bench/parts/part-model.ts'
import type { BeforeHost, Part, PortRef } from '../plan/plan.ts'
import { type LightAt, partOf, type Wiring } from './wiring.ts'

/** Lights that follow each other on one data wire. */
export type Branch = readonly LightAt[]

export interface Socketed {
  readonly socket: PortRef
  readonly branches: readonly Branch[]
}

export interface Channel {
  readonly key: string
  /** The part or header that makes the data: `H1`, `C1`, `board.L1`. */
  readonly maker: string
  readonly host: 'usb' | 'board' | 'none'
  readonly beforeHost: BeforeHost
  readonly order: 'series' | 'parallel'
  readonly sockets: readonly Socketed[]
  /** As the LEDs are told: in series everything after one another, else what each socket sees. */
  readonly branches: readonly Branch[]
  /** Figure and path of the limit of LEDs, where there is one. */
  readonly maxLeds?: number
}

export const ledsOf = (branch: Branch): number => branch.reduce((sum, { light }) => sum + light.leds, 0)

export const longest = (branches: readonly Branch[]): Branch =>
  branches.reduce<Branch>((best, branch) => (ledsOf(branch) > ledsOf(best) ? branch : best), [])

/** Every LED that hangs on a channel, whether or not it shares its data with another. */
export const litParts = (channel: Channel): readonly LightAt[] => [
  ...new Set(channel.sockets.flatMap((s) => s.branches.flat())),
]

/** The data branches that leave a socket; empty where nothing lit hangs on it. */
export function branchesFrom(w: Wiring, socket: PortRef, seen: ReadonlySet<PortRef> = new Set()): Branch[] {
  const plug = w.plugIn(socket)
  if (plug === undefined || seen.has(socket)) return []
  const part = w.parts.get(partOf(plug))
  if (!part) return []
  const on = new Set(seen).add(socket)
  const name = plug.slice(part.id.length + 1)
  const own = 'lights' in part ? part.lights.find((light) => light.port === name) : undefined
  if (own) {
    const here: LightAt = { part: part.id, light: own, plug }
    const after = own.passesOn ? branchesFrom(w, `${plug}_out`, on) : []
    return after.length > 0 ? after.map((branch) => [here, ...branch]) : [[here]]
  }
  const role = modelOf(part).light?.(part)
  if (!role || fedBy(role) !== name) return []
  return inOrder(
    role.does === 'feeds' && role.order === 'series',
    role.sockets.map((s) => branchesFrom(w, `${part.id}.${s}`, on)),
  )
}

const fedBy = (role: LightRole): string | undefined =>
  role.does === 'splits' ? role.from : typeof role.host === 'string' ? undefined : role.host.from

/** In series the sockets follow each other; the longest branch of each counts. */
const inOrder = (series: boolean, sockets: readonly (readonly Branch[])[]): Branch[] => {
  if (!series) return sockets.flat()
  const chain = sockets.flatMap((branches) => longest(branches))
  return chain.length > 0 ? [chain] : []
}

export function channelsOf(w: Wiring): Channel[] {
  const { board } = w.plan
  const found: Channel[] = board.lightHeaders.map((header) =>
    make(
      w,
      header.id,
      `board.${header.id}`,
      'board',
      board.beforeHost,
      'parallel',
      [`board.${header.id}`],
      header.maxLeds,
    ),
  )
  for (const part of w.plan.parts) {
    const role = modelOf(part).light?.(part)
    if (role?.does !== 'feeds' || typeof role.host !== 'string' || !('beforeHost' in part)) continue
    const sockets = role.sockets.map((s) => `${part.id}.${s}`)
    const max = maxLedsOf(part)
    if (role.order === 'separate')
      for (const socket of sockets)
        found.push(make(w, socket, part.id, role.host, part.beforeHost, 'parallel', [socket], max))
    else found.push(make(w, part.id, part.id, role.host, part.beforeHost, role.order, sockets, max))
  }
  return found.filter((channel) => channel.branches.length > 0)
}

const maxLedsOf = (part: Part): number | undefined => ('maxLeds' in part ? part.maxLeds : undefined)

function make(
  w: Wiring,
  key: string,
  maker: string,
  host: Channel['host'],
  beforeHost: BeforeHost,
  order: Channel['order'],
  refs: readonly PortRef[],
  maxLeds: number | undefined,
): Channel {
  const sockets = refs.map((socket) => ({ socket, branches: branchesFrom(w, socket) }))
  const branches = inOrder(
    order === 'series',
    sockets.map((s) => s.branches),
  )
  return {
    key,
    maker,
    host,
    beforeHost,
    order,
    sockets,
    branches,
    ...(maxLeds === undefined ? {} : { maxLeds }),
  }
}
