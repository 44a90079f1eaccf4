/** Parts that a bench keeps as a list of its own: `stock:` in a plan, or files that a plan names under `uses:`. */
import { expandNames } from './expand.ts'
import { type Notebook, report, shown, type Trouble } from './problem.ts'
import { unknownKey } from './section.ts'
import { readTree } from './tree.ts'
import type { MapNode, Node } from './tree-node.ts'

/** Gives the text of a file by the name that stands in the plan, or why it cannot; undefined where there is none. */
export type Include = (name: string) => { readonly text: string; readonly file: string } | Trouble | undefined

const STOCK_KEYS = ['stock', 'uses', 'note']
const MOST_FILES = 20

const listedNames = (book: Notebook, uses: Node): { name: string; node: Node }[] => {
  const items = uses.is === 'list' ? uses.items : [uses]
  return items.flatMap((node) => {
    if (node.is === 'scalar' && typeof node.value === 'string' && node.value !== '')
      return [{ name: node.value, node }]
    report(
      book,
      node.place,
      node.is === 'scalar' ? shown(node.value) : `a ${node.is}`,
      'the name of a file, such as bench.stock.yaml',
      'name the file',
    )
    return []
  })
}

const stockOf = (book: Notebook, root: MapNode): MapNode[] => {
  const stock = root.entries.get('stock')?.value
  if (!stock) return []
  if (stock.is === 'map') return [expandNames(book, stock, 'stock')]
  report(
    book,
    stock.place,
    stock.is === 'list' ? 'a list' : shown(stock.value),
    'a map of names to parts',
    'write NAME: {kind: …}',
  )
  return []
}

/** All stock lists that a plan can draw on, its own first, then included ones in the order named. */
export function readStock(
  book: Notebook,
  root: MapNode,
  include: Include | undefined,
  file: string,
): MapNode[] {
  const seen = new Set([file])
  const collect = (map: MapNode): MapNode[] => {
    const uses = map.entries.get('uses')?.value
    const lists = stockOf(book, map)
    if (!uses) return lists
    for (const { name, node } of listedNames(book, uses)) {
      const found = include?.(name)
      if (found && 'found' in found) {
        report(book, node.place, found.found, found.expected, found.todo)
        continue
      }
      if (!found) {
        report(
          book,
          node.place,
          `the file ${shown(name)}, which cannot be read`,
          'a stock file beside the plan',
          'check its name and place',
        )
        continue
      }
      if (seen.has(found.file)) continue
      if (seen.size > MOST_FILES) {
        report(book, node.place, `more than ${MOST_FILES} files`, 'fewer stock files', 'put them together')
        break
      }
      seen.add(found.file)
      const { root: tree, brokenAt } = readTree(found.text, found.file, book)
      if (!tree || brokenAt !== undefined) continue
      if (tree.is !== 'map') {
        const at = { file: found.file, line: 1, col: 1 }
        report(book, at, 'a file without stock', 'stock: and parts under it', 'start the file with stock:')
        continue
      }
      for (const [key, entry] of tree.entries)
        if (!STOCK_KEYS.includes(key)) unknownKey(book, entry.key, key, STOCK_KEYS)
      lists.push(...collect(tree))
    }
    return lists
  }
  return collect(root)
}
