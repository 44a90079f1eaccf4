/**
 * Under which names the readings of other tools know a place, as a plan file says it: `readings: {SYS1: fan1, H1: "1209:0001"}`.
 * One name or several a place; the same name stands for one place only.
 */
import { listed, nearest } from './nearest.ts'
import type { Part } from './part.ts'
import type { Board, ReadingName } from './plan.ts'
import { portsOf } from './ports.ts'
import { type Notebook, report, shown } from './problem.ts'
import { settingPlaces } from './settings.ts'
import type { MapNode, Node } from './tree-node.ts'

/** Fan headers and fan ports of controllers, and what hangs on USB. */
function placesIn(board: Board, parts: readonly Part[]): readonly string[] {
  const onUsb = parts.filter((p) => portsOf(p).some((port) => port.ref.endsWith('.usb')))
  return [...settingPlaces(board, parts).headers, ...onUsb.map((p) => p.id)]
}

const EXPECTED = 'a name in the reading, such as fan1, or a list of names'

function namesIn(book: Notebook, node: Node): readonly { text: string; node: Node }[] {
  const items = node.is === 'list' ? node.items : [node]
  return items.flatMap((item) => {
    const text = item.is === 'scalar' && item.value !== null ? String(item.value).trim().toLowerCase() : ''
    if (text !== '' && !text.includes('=')) return [{ text, node: item }]
    const found = item.is === 'scalar' ? shown(item.value) : `a ${item.is}`
    report(book, item.place, found, EXPECTED, 'write the name as the tool prints it')
    return []
  })
}

/** @param failed parts of which nothing is known, and `board` */
export function readReadingNames(
  book: Notebook,
  { entries }: MapNode,
  board: Board,
  parts: readonly Part[],
  failed: ReadonlySet<string>,
): readonly ReadingName[] {
  const places = placesIn(board, parts)
  const headers = new Set(board.fanHeaders.map((h) => h.id))
  const read: ReadingName[] = []
  for (const [written, entry] of entries) {
    const place = written.replace(/^board\./, '')
    if (!places.includes(place)) {
      if (failed.has(place.split('.')[0] ?? '') || (failed.has('board') && !place.includes('.'))) continue
      const meant = nearest(place, places)
      const expected =
        places.length === 0 ? 'a fan header, a fan port of a controller, or a part on USB' : undefined
      report(
        book,
        entry.key,
        `${shown(written)}, of which there are no readings`,
        meant ?? expected ?? `one of ${listed(places)}`,
        meant ? `write ${meant}` : 'name a place of this plan',
      )
      continue
    }
    const ref = headers.has(place) ? `board.${place}` : place
    for (const { text, node } of namesIn(book, entry.value)) {
      const other = read.find((r) => r.name === text)
      if (other === undefined) read.push({ name: text, ref })
      else
        report(
          book,
          node.place,
          `${shown(text)} a second time`,
          `each name for one place (it is ${other.ref} already)`,
          'take one of them out; with two chips write CHIP/fan1',
        )
    }
  }
  return read
}
