/**
 * The light channels of a plan: who makes the data, and in which order it runs through which lights. A channel is
 * named as in the settings: `L1` for a board header, `H1` for a hub, `C1.light1` for one port of a controller.
 */
import { modelOf } from '../bench/parts/models.ts'
import type { LightRole } from '../bench/parts/part-model.ts'
import type { BeforeHost, Pump } from '../plan/part.ts'
import type { PortRef } from '../plan/plan.ts'
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

/** All that anything lit hangs on: headers first, then parts, in the order of the plan. */
export function channelsOf(w: Wiring): Channel[] {
  const { board } = w.plan
  const found: Channel[] = board.lightHeaders.map((header) =>
    made(w, {
      key: header.id,
      maker: `board.${header.id}`,
      host: 'board',
      beforeHost: board.beforeHost,
      order: 'parallel',
      refs: [`board.${header.id}`],
    }),
  )
  for (const part of w.plan.parts) {
    if (part.kind === 'pump' && part.host === 'usb') found.push(ownLights(part))
    const role = modelOf(part).light?.(part)
    if (role?.does !== 'feeds' || typeof role.host !== 'string' || !('beforeHost' in part)) continue
    const refs = role.sockets.map((s) => `${part.id}.${s}`)
    const same = { maker: part.id, host: role.host, beforeHost: part.beforeHost }
    if (role.order === 'separate')
      for (const ref of refs) found.push(made(w, { ...same, key: ref, order: 'parallel', refs: [ref] }))
    else found.push(made(w, { ...same, key: part.id, order: role.order, refs }))
  }
  return found.filter((channel) => channel.branches.length > 0)
}

export type Series = Pick<Channel, 'key' | 'maker' | 'sockets'>

/** Hubs and controllers in series that hang on a light header: the channel is the header's, the chain is theirs. */
export function fedInSeries(w: Wiring): Series[] {
  return w.plan.parts.flatMap((part) => {
    const role = modelOf(part).light?.(part)
    if (role?.does !== 'feeds' || role.order !== 'series' || typeof role.host === 'string') return []
    const refs = role.sockets.map((s) => `${part.id}.${s}`)
    const sockets = refs.map((socket) => ({ socket, branches: branchesFrom(w, socket) }))
    return [{ key: part.id, maker: part.id, sockets }]
  })
}

/** A pump that drives its own lights, one after the other, over no lead of the plan. */
function ownLights(part: Pump): Channel {
  const chain = part.lights.map((light) => ({ part: part.id, light, plug: `${part.id}.${light.port}` }))
  const branches = chain.length > 0 ? [chain] : []
  const sockets = [{ socket: `${part.id}.usb`, branches }]
  return {
    key: part.id,
    maker: part.id,
    host: 'usb',
    beforeHost: part.beforeHost,
    order: 'series',
    sockets,
    branches,
  }
}

interface Made extends Omit<Channel, 'sockets' | 'branches'> {
  readonly refs: readonly PortRef[]
}

function made(w: Wiring, { refs, ...channel }: Made): Channel {
  const sockets = refs.map((socket) => ({ socket, branches: branchesFrom(w, socket) }))
  const branches = inOrder(
    channel.order === 'series',
    sockets.map((s) => s.branches),
  )
  return { ...channel, sockets, branches }
}
