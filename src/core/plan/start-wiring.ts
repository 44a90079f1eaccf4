/**
 * The parts and leads of a plan that is begun from answers. Sockets are given out in order until none is left; what
 * finds none is kept apart.
 */
import type { StartAnswers } from './start-questions.ts'

/** What is being written, and the sockets that are still free. */
export interface Draft {
  readonly so: StartAnswers
  readonly parts: string[]
  readonly leads: string[]
  /** Plugs without a socket. */
  readonly unplaced: string[]
  /** Headers and controller ports that set a fan. */
  readonly driven: string[]
  readonly channels: string[]
  readonly headers: string[]
  readonly lightHeaders: string[]
  readonly usb: string[]
  readonly sata: string[]
}

export const numbers = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1)
export const orUnknown = (value: number | undefined, unit: string): string =>
  value === undefined ? 'unknown' : `${value}${unit}`

function draft(so: StartAnswers): Draft {
  return {
    so,
    parts: [],
    leads: [],
    unplaced: [],
    driven: [],
    channels: [],
    headers: ['board.CPU', ...numbers(so.fanHeaders).map((n) => `board.SYS${n}`)],
    lightHeaders: numbers(so.lightHeaders).map((n) => `board.L${n}`),
    usb: numbers(so.usbHeaders).flatMap((n) => [`board.U${n}.a`, `board.U${n}.b`]),
    // One plug of each lead first: what hangs on one lead shares its current.
    sata: numbers(3).flatMap((plug) => numbers(so.sataLeads).map((n) => `supply.S${n}.${plug}`)),
  }
}

/** Puts a plug into the next free socket, or among those that found none. */
function join(d: Draft, plug: string, sockets: string[]): string | undefined {
  const socket = sockets.shift()
  if (socket === undefined) d.unplaced.push(plug)
  else d.leads.push(`${plug} -> ${socket}`)
  return socket
}

const intoHeader = (d: Draft, plug: string): void => {
  const socket = join(d, plug, d.headers)
  if (socket) d.driven.push(socket.replace('board.', ''))
}

/** Cuts a list into pieces of at most `size`. */
const pieces = <T>(list: readonly T[], size: number): T[][] =>
  numbers(Math.ceil(list.length / size)).map((n) => list.slice((n - 1) * size, n * size))

/** No splitter has more ways than this. */
const MOST_WAYS = 8

/** As many equal pieces as there are sockets; more of them where a splitter would have too many ways. */
const shared = <T>(list: readonly T[], among: number): T[][] =>
  pieces(list, Math.max(1, Math.min(MOST_WAYS, Math.ceil(list.length / Math.max(among, 1)))))

const fanIds = (d: Draft): string[] => numbers(d.so.fans).map((n) => `F${n}`)

function writePump(d: Draft): void {
  const { pump, pumpHeader } = d.so
  if (pump === 'none') return
  const light = pump === 'lit' ? ', light: { volts: 5 V, leds: unknown, amps: unknown }' : ''
  d.parts.push(`P1: { kind: pump, motor: { pins: 4, amps: unknown, rpm: unknown }${light} }`)
  if (pumpHeader === 'yes') {
    d.leads.push('P1.motor -> board.PUMP')
    d.driven.push('PUMP')
  } else intoHeader(d, 'P1.motor')
  if (pump === 'lit' && !litIds(d).includes('P1')) d.unplaced.push('P1.light')
}

function writeFans(d: Draft): void {
  const { fans, fanPins, fanAmps, lights, leds } = d.so
  const range = fans === 1 ? 'F1' : `F1..F${fans}`
  d.parts.push(`${range}:`, '  kind: fan')
  d.parts.push(`  motor: { pins: ${fanPins}, amps: ${orUnknown(fanAmps, ' A')}, rpm: unknown }`)
  if (lights !== 'none')
    d.parts.push(`  light: { volts: ${lights}, leds: ${orUnknown(leds, '')}, amps: unknown }`)
}

function writeMotors(d: Draft): void {
  const { motorsOn, hubPorts } = d.so
  if (motorsOn === 'controller') return
  const fans = fanIds(d)
  if (motorsOn === 'headers') {
    for (const fan of fans) intoHeader(d, `${fan}.motor`)
    return
  }
  const splitters = motorsOn === 'splitters'
  const groups = splitters ? shared(fans, d.headers.length) : pieces(fans, hubPorts)
  for (const [i, group] of groups.entries()) {
    if (splitters && group.length === 1) {
      intoHeader(d, `${group[0]}.motor`)
      continue
    }
    const id = `${splitters ? 'Y' : 'K'}${i + 1}`
    d.parts.push(
      splitters
        ? `${id}: { kind: fan-splitter, ways: ${group.length}, tach_from: 1 }`
        : `${id}: { kind: fan-hub, ports: ${hubPorts}, power: sata, tach_from: 1, amps: unknown }`,
    )
    for (const [n, fan] of group.entries()) d.leads.push(`${fan}.motor -> ${id}.${n + 1}`)
    intoHeader(d, `${id}.in`)
    if (!splitters) join(d, `${id}.power`, d.sata)
  }
}

/** Lit things that hang on what was answered: the fans, and the pump if it fits their voltage. */
export function litIds(d: Draft): string[] {
  const { lights, pump } = d.so
  return [...(lights === 'none' ? [] : fanIds(d)), ...(pump === 'lit' && lights !== '12 V' ? ['P1'] : [])]
}

/** LEDs told to a channel; left out as long as they are not known. */
const profile = (d: Draft, ids: readonly string[]): string | undefined => {
  const { leds } = d.so
  return leds === undefined || ids.includes('P1') ? undefined : `[${ids.map(() => leds).join(', ')}]`
}

function channel(d: Draft, place: string, ids: readonly string[]): void {
  const told = profile(d, ids)
  if (told) d.channels.push(`${place}: { profile: ${told} }`)
}

/** Controllers that take motors, lights or both; one port number for one fan. */
function writeControllers(d: Draft): void {
  const { motorsOn, lightsOn, hubPorts, lights } = d.so
  const motors = motorsOn === 'controller' ? fanIds(d) : []
  const lit = lightsOn === 'controller' ? litIds(d) : []
  const ids = [...new Set([...motors, ...lit])]
  for (const [i, group] of pieces(ids, hubPorts).entries()) {
    const id = `C${i + 1}`
    const ports = `fan_ports: ${motors.length > 0 ? hubPorts : 0}, light_ports: ${lit.length > 0 ? hubPorts : 0}`
    d.parts.push(
      `${id}: { kind: controller, ${ports}, volts: ${lights === '12 V' ? '12 V' : '5 V'}, power: sata, host: usb }`,
    )
    for (const [k, part] of group.entries()) {
      if (motors.includes(part)) {
        d.leads.push(`${part}.motor -> ${id}.fan${k + 1}`)
        d.driven.push(`${id}.fan${k + 1}`)
      }
      if (!lit.includes(part)) continue
      d.leads.push(`${part}.light -> ${id}.light${k + 1}`)
      channel(d, `${id}.light${k + 1}`, [part])
    }
    join(d, `${id}.power`, d.sata)
    join(d, `${id}.usb`, d.usb)
  }
}

function writeLights(d: Draft): void {
  const { lightsOn, hubPorts, hubChain, hubHost, lights } = d.so
  const lit = litIds(d)
  const volts = lights === '12 V' ? '12 V' : '5 V'
  const place = (socket: string | undefined): string => (socket ?? '').replace('board.', '')
  if (lightsOn === 'headers')
    for (const id of lit) {
      const socket = join(d, `${id}.light`, d.lightHeaders)
      if (socket) channel(d, place(socket), [id])
    }
  if (lightsOn === 'splitter')
    for (const [i, group] of shared(lit, d.lightHeaders.length).entries()) {
      const id = `LS${i + 1}`
      d.parts.push(`${id}: { kind: light-splitter, ways: ${group.length}, volts: ${volts} }`)
      for (const [n, part] of group.entries()) d.leads.push(`${part}.light -> ${id}.${n + 1}`)
      const socket = join(d, `${id}.in`, d.lightHeaders)
      if (socket) channel(d, place(socket), group.slice(0, 1))
    }
  if (lightsOn !== 'light-hub') return
  for (const [i, group] of pieces(lit, hubPorts).entries()) {
    const id = `H${i + 1}`
    d.parts.push(
      `${id}: { kind: light-hub, ports: ${hubPorts}, volts: ${volts}, chain: ${hubChain}, power: sata, host: ${hubHost}, amps: unknown }`,
    )
    for (const [n, part] of group.entries()) d.leads.push(`${part}.light -> ${id}.${n + 1}`)
    join(d, `${id}.power`, d.sata)
    if (hubHost === 'usb') {
      join(d, `${id}.usb`, d.usb)
      channel(d, id, group)
    } else {
      const socket = join(d, `${id}.in`, d.lightHeaders)
      const told = hubChain === 'series' ? group : group.slice(0, 1)
      if (socket) channel(d, place(socket), told)
    }
  }
}

/** All parts and leads that the answers tell of. */
export function drafted(so: StartAnswers): Draft {
  const d = draft(so)
  writePump(d)
  writeFans(d)
  writeMotors(d)
  writeControllers(d)
  writeLights(d)
  return d
}
