/**
 * Names of things in English, from references: `F1.motor` → "the motor plug of fan F1 (front-bottom)". A part is called
 * by its kind and its id, because the id is what stands in the plan and on the technician's sticky label; its place follows.
 */

import { settingParts } from '../../core/bench/setting.ts'
import type { Connector, Part } from '../../core/plan/part.ts'
import { headerKindOf, portsOf } from '../../core/plan/ports.ts'
import { clean, cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import type { Scene } from '../language.ts'
import { HEADER_KIND, PART_KIND, unlessNamed } from './kinds.ts'

export const partOf = (id: string, scene: Scene): Part | undefined =>
  scene.plan.parts.find((p) => p.id === id)

/** What kind of part it is; nothing where its id says so, or where the plan has no such part. */
export function kindOf(id: string, scene: Scene): string {
  const part = partOf(id, scene)
  return part ? unlessNamed(PART_KIND[part.kind], id) : ''
}

/** ` (front-top)`; nothing where the plan says none. */
export function placeOf(id: string, scene: Scene): string {
  const at = partOf(id, scene)?.at
  return at && clean(at) ? ` (${cleanName(at)})` : ''
}

/** `fan F2 (front-top)`. */
export function partName(id: string, scene: Scene): string {
  if (id === 'board' || id === 'supply' || id === 'build') return `the ${id}`
  return [kindOf(id, scene), cleanName(id)].filter(Boolean).join(' ') + placeOf(id, scene)
}

export const list = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`

/** A reference taken apart: its part and the rest, after the first point. */
export function splitRef(ref: string): { part: string; port: string } {
  const point = ref.indexOf('.')
  return point < 0 ? { part: ref, port: '' } : { part: ref.slice(0, point), port: ref.slice(point + 1) }
}

type PortKind = 'fan' | 'light' | 'supply' | 'usb'

const kindByConnector: Readonly<Record<Connector, PortKind>> = {
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

const WORD: Readonly<Record<PortKind, string>> = { fan: 'fan', light: 'light', supply: 'supply', usb: 'USB' }

/** What kind of things run through a port; undefined where the plan has no such port. */
function portKind(ref: string, scene: Scene): PortKind | undefined {
  const { part: id, port } = splitRef(ref)
  const { board, supply } = scene.plan
  if (id === 'supply')
    return supply.leads.some((l) => port === l.id || port.startsWith(`${l.id}.`)) ? 'supply' : undefined
  if (id === 'board') return headerKindOf(board, port)
  const part = partOf(id, scene)
  const found = part && portsOf(part).find((p) => p.name === port)
  return found && kindByConnector[found.connector]
}

function supplyName(port: string, scene: Scene): string {
  const lead = scene.plan.supply.leads.find((l) => port === l.id || port.startsWith(`${l.id}.`))
  if (!lead) return `the supply's ${cleanName(port)}`
  if (port === lead.id) return `supply lead ${cleanName(lead.id)}`
  return `plug ${cleanName(port.slice(lead.id.length + 1))} of supply lead ${cleanName(lead.id)}`
}

/** A lead of the supply by itself: what is meant is its end at the supply, where it can be pulled off. */
export const isSupplyEnd = (ref: string): boolean => /^supply\.[^.]+$/u.test(ref)

/** What kind of header of the board it is, or a row of one; nothing where the board has none of this name. */
export function headerKind(port: string, scene: Scene): string {
  const kind = headerKindOf(scene.plan.board, port)
  return kind ? HEADER_KIND[kind] : ''
}

function boardName(port: string, scene: Scene): string {
  const [header = '', row] = port.split('.')
  const name = `${headerKind(port, scene) || 'header'} ${cleanName(header)} on the board`
  return row ? `row ${cleanName(row)} of ${name}` : name
}

const PLUG: Readonly<Record<string, string>> = {
  motor: 'motor plug',
  light: 'light plug',
  power: 'supply plug',
  usb: 'USB plug',
  in: 'input plug',
  light_in: 'light input plug',
}

function socketWords(name: string, kind: PortKind, scene: Scene, id: string): string {
  if (name === 'motor_out') return 'onward motor socket'
  if (name.endsWith('_out')) return 'onward light socket'
  const numbered = /^(?:fan|light|out)?(\d+)$/.exec(name)
  const both = partOf(id, scene)?.kind === 'controller'
  if (numbered) return both ? `${WORD[kind]} socket ${numbered[1]}` : `socket ${numbered[1]}`
  return `socket ${cleanName(name)}`
}

function plugWords(name: string, kind: PortKind): string {
  const known = entry(PLUG, name)
  if (known) return known
  const which = name.replace(/^light_?/, '')
  return kind === 'light' && which
    ? `light plug ${cleanName(which)}`
    : `${WORD[kind]} plug ${cleanName(name)}`
}

/** A port without the part it belongs to: "motor plug", "socket 3". */
export function portWords(ref: string, scene: Scene): string {
  const { part: id, port } = splitRef(ref)
  const part = partOf(id, scene)
  const found = part && portsOf(part).find((p) => p.name === port)
  if (!found) return entry(PLUG, port) ?? `port ${cleanName(port)}`
  const kind = kindByConnector[found.connector]
  return found.gender === 'plug' ? plugWords(port, kind) : socketWords(port, kind, scene, id)
}

/** "the motor plug of F2 (front-top)", "header SYS1 on the board", "socket 3 of H1". */
export function portName(ref: string, scene: Scene): string {
  const { part, port } = splitRef(ref)
  if (!port) return partName(part, scene)
  if (part === 'supply') return supplyName(port, scene)
  if (part === 'board') return boardName(port, scene)
  const words = portWords(ref, scene)
  return `${/\d$/.test(words) ? '' : 'the '}${words} of ${partName(part, scene)}`
}

/** The lead that a plug ends: "the motor lead of F2 (front-top)". */
export function leadName(ref: string, scene: Scene): string {
  const { part, port } = splitRef(ref)
  if (part === 'supply') return supplyName(port.split('.')[0] ?? port, scene)
  return `the ${portWords(ref, scene)
    .replace(/ ?plug\b/, '')
    .trim()} lead of ${partName(part, scene)}`
}

const WIRE: Readonly<Record<string, string>> = {
  '12V': '12 V',
  '5V': '5 V',
  '3V3': '3.3 V',
  GND: 'ground',
  TACH: 'speed (tach)',
  CONTROL: 'control (PWM)',
  DATA: 'data',
  DATA_BACK: 'returned data',
  R: 'red',
  G: 'green',
  B: 'blue',
  USB: 'USB data',
}

/** "12 V", "speed (tach)": the wire or contact that carries it. */
export const wireName = (conductor: string): string => entry(WIRE, conductor) ?? cleanName(conductor)

function pinName(ref: string, scene: Scene): string {
  const slash = ref.lastIndexOf('/')
  return `the ${wireName(ref.slice(slash + 1))} contact of ${portName(ref.slice(0, slash), scene)}`
}

/** A header or channel by the name that settings use: `SYS1`, `C1.fan2`, `H1`, `L1`, `board.SYS1`. */
export function driverName(place: string, scene: Scene): string {
  const onBoard = portKind(`board.${place}`, scene)
  if (onBoard) return boardName(place, scene)
  return portName(place, scene)
}

const KEY: Readonly<Record<string, string>> = {
  drive: 'the drive mode',
  curve: 'the fan curve',
  delay: 'the step-up delay',
  pulses: 'the pulses per turn',
  alarm: 'the alarm limit',
  alarm_below: 'the alarm limit',
  profile: 'the LED counts',
  colours: 'the colour order',
  enabled: 'the switch in the firmware',
}

/** A setting: "the drive mode of header SYS1 on the board". */
export function settingName(ref: string, scene: Scene): string {
  if (ref === 'host/program') return "the vendor's lighting program"
  if (ref === 'host/global_effect') return 'the effect over all lights'
  const { place, key } = settingParts(ref)
  if (place === '') return `the setting ${cleanName(ref)}`
  return `${entry(KEY, key) ?? `the setting ${cleanName(key)}`} of ${driverName(place, scene)}`
}

const SECTIONS = new Set(['headers', 'channels', 'host', 'ports'])

/** Any reference of design and log: part, port, pin, setting, `build`. */
export function refName(ref: string, scene: Scene): string {
  const slash = ref.indexOf('/')
  if (slash < 0) return portName(ref, scene)
  return SECTIONS.has(ref.slice(0, slash)) ? settingName(ref, scene) : pinName(ref, scene)
}
