/** Finding a port by what a person wrote, and saying what was probably meant where there is none of that name. */
import { listed, nearest } from './nearest.ts'
import type { PartId } from './part.ts'
import type { PortRef } from './plan.ts'
import type { Port } from './ports.ts'
import { shown, type Trouble } from './problem.ts'

export interface PortBook {
  readonly byRef: ReadonlyMap<PortRef, Port>
  readonly byPart: ReadonlyMap<PartId, readonly Port[]>
}

/** Ports by reference and by part, with what was probably meant by a reference that names none. */
export function portBook(ports: readonly Port[]): PortBook {
  const byRef = new Map<PortRef, Port>()
  const byPart = new Map<PartId, Port[]>()
  for (const port of ports) {
    byRef.set(port.ref, port)
    const list = byPart.get(port.part)
    if (list) list.push(port)
    else byPart.set(port.part, [port])
  }
  return { byRef, byPart }
}

const LIT_FRAME = 'choose one of these; a fan that has a motor beside its lights needs motor: {} too'

const firstOf = (ref: string): string => ref.split('.')[0] ?? ''

/** Why a reference names no port, with the nearest that exists. `parts` are all part names of the plan. */
export function noSuchPort(ref: string, book: PortBook, parts: readonly PartId[]): Trouble {
  const found = `the port ${shown(ref)}`
  for (const home of ['board', 'supply'])
    if (book.byRef.has(`${home}.${ref}`))
      return { found, expected: `${home}.${ref}`, todo: `write ${home}.${ref}` }
  const part = firstOf(ref)
  const own = book.byPart.get(part)
  if (own) {
    const names = own.map((port) => port.ref)
    const meant = nearest(ref, names)
    const lit = ref === `${part}.motor` && own.every(({ connector }) => connector.startsWith('light'))
    return {
      found,
      expected: `${part === 'board' || part === 'supply' ? `a port of the ${part}` : `a port of ${part}`}: ${listed(names)}`,
      todo: lit ? LIT_FRAME : meant === undefined ? 'choose one of these' : `write ${meant}`,
    }
  }
  if (parts.includes(part) || part === 'board' || part === 'supply')
    return { found, expected: `a part with ports (${part} has none)`, todo: `say in ${part} what it has` }
  const meant = nearest(part, [...parts, 'board', 'supply'])
  return {
    found: `the part ${shown(part)} in ${shown(ref)}`,
    expected: meant ?? `board, supply or one of ${listed(parts)}`,
    todo: meant === undefined ? 'add that part under parts, or name another' : `write ${meant}`,
  }
}
