/** The parts of a plan from their branches of the tree: by kind, with what must fit together inside one part. */

import { emptyAsMap, nameLights } from './expand.ts'
import { nameTrouble } from './names.ts'
import { listed, nearest } from './nearest.ts'
import type { Part, PartId, PartKindName } from './part.ts'
import { partForms, partKinds } from './parts/every.ts'
import { NONE_KEYS } from './parts/fans.ts'
import type { PartForm, Use } from './parts/form.ts'
import { portsOf } from './ports.ts'
import type { Place } from './problem.ts'
import { type Notebook, report, reportLocal, shown, usual } from './problem.ts'
import { markPlaces, section } from './section.ts'
import { type Entry, type MapNode, mapNode, type Node, scalarNode } from './tree-node.ts'

function formFor(book: Notebook, node: MapNode, id: PartId, key: Place): PartForm | undefined {
  const kind = node.entries.get('kind')?.value
  const expected = `one of ${listed(partKinds)}`
  if (!kind) {
    const meant = [...node.entries].find(([name]) => nearest(name, ['kind']) !== undefined)
    if (meant) reportLocal(book, meant[1].key, `the key ${shown(meant[0])}`, 'kind', 'write kind')
    else report(book, key, `${id} without a kind`, expected, 'add kind, or like and the name of a part')
    return undefined
  }
  const name = kind.is === 'scalar' ? kind.value : undefined
  if (typeof name === 'string' && Object.hasOwn(partForms, name))
    return partForms[name as PartKindName] as unknown as PartForm
  const meant = typeof name === 'string' ? (nearest(name, partKinds) as PartKindName | undefined) : undefined
  const found = `the kind ${kind.is === 'scalar' ? shown(kind.value) : `that is a ${kind.is}`}`
  reportLocal(
    book,
    kind.place,
    found,
    meant ?? expected,
    meant === undefined ? 'choose one of these' : `write ${meant}`,
  )
  // What was meant is clear enough to look at the rest of the part.
  return meant && (partForms[meant] as unknown as PartForm)
}

const place = (book: Notebook, path: string, fallback: Place): Place => book.places.get(path) ?? fallback

/** What must fit together inside one part although each key is right in itself. */
function checkPart(book: Notebook, part: Part, key: Place): void {
  const at = (path: string): Place => place(book, `parts.${part.id}.${path}`, key)
  if ('motor' in part && part.motor && part.motor.startAmps < part.motor.amps)
    report(
      book,
      at('motor.start_amps'),
      `${part.motor.startAmps} A at start, less than ${part.motor.amps} A in use`,
      'at least the steady current',
      'check both figures on the label, or write start_amps: unknown',
    )
  if ('tachFrom' in part && typeof part.tachFrom === 'number') {
    const most =
      part.kind === 'fan-splitter' ? part.ways : part.kind === 'fan-hub' ? part.ports : part.fanPorts
    if (most > 0 && part.tachFrom > most)
      report(book, at('tach_from'), `${part.tachFrom}`, `a number from 1 to ${most}`, 'count the sockets')
  }
  if (part.kind === 'controller' && part.fanPorts + part.lightPorts === 0)
    report(book, key, `${part.id} without any port`, 'fan_ports, light_ports or both', 'say how many it has')
  const names = new Set<string>()
  for (const port of portsOf(part)) {
    if (names.has(port.name))
      report(
        book,
        at(port.name),
        `two ports named ${port.ref}`,
        'a name for each port',
        'choose another name for that light',
      )
    names.add(port.name)
  }
}

/** The branch with the kind that was meant, should it have been mistyped. */
function ofKind(node: MapNode, kind: PartKindName): MapNode {
  const entry = node.entries.get('kind')
  if (!entry || (entry.value.is === 'scalar' && entry.value.value === kind)) return node
  const meant = { key: entry.key, value: scalarNode(entry.value.place, kind) }
  return mapNode(node.place, new Map([...node.entries, ['kind', meant]]))
}

const isNone = (entry: Entry | undefined): boolean =>
  entry?.value.is === 'scalar' && entry.value.value === 'none'

/** `motor: none` and `light: none` say of a fan (`light: none` of a pump too) what leaving the key out may not. */
function withoutNone(book: Notebook, node: MapNode, kind: PartKindName, id: PartId): MapNode {
  const may = NONE_KEYS[kind] ?? []
  const kept = new Map([...node.entries].filter(([key, entry]) => !may.includes(key) || !isNone(entry)))
  const motor = node.entries.get('motor')
  if (kind === 'fan' && motor && isNone(motor) && !kept.has('light') && !kept.has('lights')) {
    const found = `${id} with motor: none and without lights`
    reportLocal(
      book,
      motor.key,
      found,
      'a motor, lights or both',
      'leave motor out for the usual motor, or take the part out',
    )
  }
  return mapNode(node.place, kept)
}

/** Ports that a part may have beside its lights. */
const OTHER_PORTS = ['motor', 'motor_out', 'power', 'usb', 'in']

/** Light names are port names, so they follow the rules for names. */
function checkLightNames(book: Notebook, node: MapNode): void {
  const lights = node.entries.get('lights')?.value
  if (lights?.is !== 'map') return
  for (const [name, entry] of lights.entries) {
    const trouble = nameTrouble(name)
    const found = `the light name ${shown(name)}`
    if (trouble) reportLocal(book, entry.key, found, trouble.expected, trouble.todo)
    else if (OTHER_PORTS.includes(name))
      reportLocal(book, entry.key, found, 'a name that no other port has', 'choose another, such as ring')
  }
}

/** Marks `parts.F1.ring.amps` beside `parts.F1.lights.ring.amps`: findings know a light by its port. */
function markLights(book: Notebook, node: MapNode, id: PartId): void {
  const lights = node.entries.get('lights')?.value
  if (lights?.is !== 'map') return
  for (const [port, entry] of lights.entries) markPlaces(book, entry.value, `parts.${id}.${port}`, entry.key)
}

/** Keys that decide which ports a part has; where one of them is wrong nothing is said of its ports. */
const DECIDES_PORTS =
  /^(|kind|light|lights|lights\.[^.]+|motor|ports|ways|fan_ports|light_ports|power|host|fan_control|from|to|outs)$|(feed|passes_on)$/

/** What stands under a part's name, read. */
interface Body {
  readonly form: PartForm
  readonly node: MapNode
  readonly input: unknown
  readonly portsKnown: boolean
}

/** Reads what stands under a name; of which part, only a problem tells. */
function readBody(book: Notebook, id: PartId, entry: Entry): Body | undefined {
  if (entry.value.is !== 'map') {
    const found = entry.value.is === 'list' ? 'a list' : shown(entry.value.value)
    report(book, entry.value.place, `${id}: ${found}`, 'a map such as {kind: fan}', 'say of what kind it is')
    return undefined
  }
  const asWritten = nameLights(entry.value)
  const form = formFor(book, asWritten, id, entry.key)
  if (!form) return undefined
  const node = withoutNone(book, ofKind(asWritten, form.kind), form.kind, id)
  checkLightNames(book, node)
  const { value: input, dropped } = section(book, node, form.schema, entry.key)
  return { form, node, input, portsKnown: !dropped.some((path) => DECIDES_PORTS.test(path)) }
}

function partOf(book: Notebook, id: PartId, key: Place, { form, node, input }: Body): Part | undefined {
  markPlaces(book, node, `parts.${id}`, key)
  markLights(book, node, id)
  if (input === undefined) return undefined
  const use: Use = (path, given, common) => usual(book, `parts.${id}.${path}`, given, common)
  const part = form.make(id, input as never, use)
  checkPart(book, part, key)
  return part
}

/** Every part that can be read; the names of those whose ports are not known are added to `unsure`. */
export function readParts(book: Notebook, map: MapNode, unsure: Set<PartId>): Part[] {
  const parts: Part[] = []
  // Parts that were written as one range have one body, which is read once; unless something has to be said of each of them.
  const bodies = new Map<Node, Body>()
  for (const [id, entry] of emptyAsMap(map).entries) {
    const before = book.problems.length
    const body = bodies.get(entry.value) ?? readBody(book, id, entry)
    if (body && book.problems.length === before) bodies.set(entry.value, body)
    const part = body && partOf(book, id, entry.key, body)
    if (part) parts.push(part)
    if (!body?.portsKnown) unsure.add(id)
  }
  return parts
}
