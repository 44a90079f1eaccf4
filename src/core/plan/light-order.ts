/** The order in which an effect should run over the lit parts, as a plan file lists it. */
import { listed, nearest } from './nearest.ts'
import type { Part, PartId } from './part.ts'
import { type Notebook, report, shown } from './problem.ts'
import { expandRange } from './ranges.ts'
import type { Node } from './tree-node.ts'

/** Lit parts in written order; `failed` are parts of which nothing is known. */
export function readLightOrder(
  book: Notebook,
  nodes: readonly Node[],
  parts: readonly Part[],
  failed: ReadonlySet<string>,
): PartId[] {
  const byId = new Map(parts.map((part) => [part.id, part]))
  const order: PartId[] = []
  for (const node of nodes) {
    const name = node.is === 'scalar' && node.value !== null ? String(node.value) : undefined
    const ids = name === undefined ? undefined : expandRange(name)
    if (!ids) {
      report(
        book,
        node.place,
        node.is === 'scalar' ? shown(node.value) : `a ${node.is}`,
        'the name of a lit part, or a range',
        'name a part',
      )
      continue
    }
    for (const id of ids) {
      const part = byId.get(id)
      const lit = part && 'lights' in part && part.lights.length > 0
      if (lit && !order.includes(id)) order.push(id)
      else if (lit) report(book, node.place, `${id} a second time`, 'each part once', 'take one of them out')
      else if (!failed.has(id)) {
        const known = parts.filter((p) => 'lights' in p && p.lights.length > 0).map((p) => p.id)
        const meant = part ? undefined : nearest(id, known)
        const found = part ? `${id}, which has no lights` : `the part ${shown(id)}, which is not in the plan`
        report(
          book,
          node.place,
          found,
          meant ?? `a lit part: ${listed(known)}`,
          meant ? `write ${meant}` : 'take it out',
        )
      }
    }
  }
  return order
}
