/**
 * From the text of a plan file to a typed plan, or to every problem in it. Each section is read on its own, so a
 * slip in one does not hide the slips in the others, and parts that could not be read cause no second complaint
 * where leads and settings name them.
 */
import { expandNames, resolveLikes } from './expand.ts'
import { text } from './fields.ts'
import { readLightOrder } from './light-order.ts'
import { reportLoops } from './loops.ts'
import { readParts } from './part-list.ts'
import type { Plan } from './plan.ts'
import { allPorts } from './ports.ts'
import type { Place, Problem, Read } from './problem.ts'
import { type Notebook, notebook, report, shown, tidy } from './problem.ts'
import { readReadingNames } from './reading-names.ts'
import { portBook } from './reference.ts'
import { markPlaces, section, unknownKey } from './section.ts'
import { settingPlaces, settingsOf, settingsSchema } from './settings.ts'
import { type Include, readStock } from './stock.ts'
import { boardOf, boardSchema, supplyOf, supplySchema } from './surroundings.ts'
import { checkHeaderNames, HEADERS, listSection, mapSection, withNames } from './top-level.ts'
import { readTree } from './tree.ts'
import type { MapNode, Node } from './tree-node.ts'
import { readLeads } from './wiring.ts'

export const TOP_KEYS = [
  'build',
  'note',
  'uses',
  'stock',
  'supply',
  'board',
  'parts',
  'leads',
  'settings',
  'light_order',
  'readings',
  'spares',
] as const

const freeText = text('free text')

/** Whether what had to be left out of a section took ports with it. */
const lostPorts = (dropped: readonly string[]): boolean =>
  dropped.some((path) => path.split('.').length <= 2 || /\.(plugs|ports|kind)$/.test(path))

function readTexts(book: Notebook, nodes: readonly Node[]): string[] {
  return nodes.flatMap((node) => section(book, node, freeText).value ?? [])
}

function readBuildName(book: Notebook, root: MapNode): string {
  const node = root.entries.get('build')?.value
  if (!node) book.assumed.add('build')
  return (node && section(book, node, freeText).value) || 'unnamed build'
}

function readRoot(book: Notebook, root: MapNode, file: string, include: Include | undefined): Plan {
  for (const [key, entry] of root.entries)
    if (!(TOP_KEYS as readonly string[]).includes(key)) unknownKey(book, entry.key, key, TOP_KEYS)
  for (const key of [
    'build',
    'note',
    'uses',
    'light_order',
    'readings',
    'spares',
    'leads',
    'parts',
    'board',
    'supply',
  ]) {
    const entry = root.entries.get(key)
    if (entry) book.places.set(key, entry.key)
  }
  const build = readBuildName(book, root)
  const note = root.entries.get('note')?.value
  if (note) section(book, note, text('anything worth knowing', 2000))

  const supplyNode = mapSection(book, root, 'supply')
  const supplyMap = withNames(book, supplyNode.node, ['leads'], 'supply lead')
  const supplyInput = section(book, supplyMap, supplySchema, supplyNode.key)
  const supply = supplyOf(supplyInput.value ?? {}, book)
  markPlaces(book, supplyMap, 'supply', supplyNode.key)

  const boardNode = mapSection(book, root, 'board')
  const boardMap = withNames(book, boardNode.node, HEADERS, 'header')
  checkHeaderNames(book, boardMap)
  const boardInput = section(book, boardMap, boardSchema, boardNode.key)
  const board = boardOf(boardInput.value ?? {}, book)
  markPlaces(book, boardMap, 'board', boardNode.key)
  const pumps = boardMap.entries.get('pump_headers')?.value
  if (pumps?.is === 'map')
    for (const [id, entry] of pumps.entries)
      markPlaces(book, entry.value, `board.fan_headers.${id}`, entry.key)

  const beforeParts = book.problems.length
  const written = mapSection(book, root, 'parts')
  const stock = readStock(book, root, include, file)
  const named = expandNames(book, written.node, 'part')
  const resolved = resolveLikes(book, { parts: named, stock })
  const { failed } = resolved
  const parts = readParts(book, resolved.parts, failed)
  if (named.entries.size === 0 && book.problems.length === beforeParts)
    report(
      book,
      root.entries.get('parts')?.key ?? root.place,
      'no parts',
      'parts: and at least one part under it',
      'add the fans, hubs and splitters of the build',
    )
  const names = [...named.entries.keys()]

  if (lostPorts(boardInput.dropped)) failed.add('board')
  if (lostPorts(supplyInput.dropped)) failed.add('supply')
  const ports = portBook(allPorts({ supply, board, parts }))
  const leadNodes = listSection(book, root, 'leads', '[F1.motor -> board.SYS1]')
  const leads = readLeads(book, leadNodes, { ports, parts: names, board, failed })
  reportLoops(book, leads, ports)

  const settingsNode = mapSection(book, root, 'settings')
  markPlaces(book, settingsNode.node, 'settings', settingsNode.key)
  const settingsInput = section(book, settingsNode.node, settingsSchema, settingsNode.key).value ?? {}
  const places = settingPlaces(board, parts)
  const settings = settingsOf(book, settingsInput, settingsNode.node, places, failed)

  return {
    build,
    supply,
    board,
    parts,
    leads,
    settings,
    lightOrder: readLightOrder(book, listSection(book, root, 'light_order', '[F1, F2, F3]'), parts, failed),
    readings: readReadingNames(book, mapSection(book, root, 'readings').node, board, parts, failed),
    spares: readTexts(book, listSection(book, root, 'spares', '[fan, fan-splitter]')),
    places: book.places,
    assumed: book.assumed,
  }
}

/**
 * In a broken file, what is wrong with single keys and values above the break. Of names nothing can be said: what
 * they stand for may be in the part that cannot be read.
 */
function problemsAbove(line: number, root: MapNode, file: string): Problem[] {
  const aside = notebook()
  readRoot(aside, root, file, undefined)
  return [...aside.local].filter((problem) => problem.at.line < line)
}

/**
 * Reads a wiring plan.
 * @param text the YAML text   @param file its name, for places   @param include gives included stock files
 */
export function readPlan(text: string, file: string, include?: Include): Read<Plan> {
  const book = notebook()
  const top: Place = { file, line: 1, col: 1 }
  book.places.set('', top)
  const { root, brokenAt } = readTree(text, file, book)
  if (brokenAt !== undefined) {
    if (root?.is === 'map') book.problems.push(...problemsAbove(brokenAt, root, file))
  } else if (root?.is === 'map') {
    const plan = readRoot(book, root, file, include)
    if (book.problems.length === 0) return { ok: true, value: plan }
  } else if (root) {
    const empty = root.is === 'scalar' && root.value === null
    const found = empty
      ? 'an empty file'
      : root.is === 'list'
        ? 'a list'
        : `only ${shown(root.is === 'scalar' ? root.value : '')}`
    report(
      book,
      empty ? top : root.place,
      found,
      'a wiring plan: build, board, parts, leads',
      'start with parts: and leads:',
    )
  }
  return { ok: false, problems: tidy(book.problems, file) }
}

export type { Include } from './stock.ts'
