/** How the highlight and the scroll move; nothing here says anything to the job. */
import type { Event } from '../keys/keymap.ts'
import type { Cursor } from './cursor.ts'
import { type Facts, type Outcome, stay, tell } from './facts.ts'
import type { Row } from './rows.ts'

/**
 * The row that is highlighted now. A filter can hide the one chosen last; then the first shown counts, and is drawn so.
 */
export const highlighted = (cursor: Cursor, rows: readonly Row[]): Row | undefined =>
  rows.find((r) => r.id === cursor.row) ?? rows[0]

/** One step of the highlight, or of the scroll where the page is longer than the screen. */
export function move(cursor: Cursor, to: (Event & { on: 'move' })['to'], facts: Facts): Outcome {
  if (cursor.mode === 'trail') return moveInTrail(cursor, to, facts)
  const by = to === 'up' || to === 'left' || to === 'previous' ? -1 : 1
  if (cursor.mode !== 'job') return scrolled(cursor, by, facts)
  const reads = facts.kind === 'step' || facts.kind === 'gate'
  const current = highlighted(cursor, facts.rows)
  const index = current ? facts.rows.indexOf(current) : 0
  // A long step is read to its end before the rows below it are reached.
  if (reads && by > 0 && cursor.scroll < facts.scrollMax) return scrolled(cursor, 1, facts)
  if (reads && by < 0 && index === 0 && cursor.scroll > 0) return scrolled(cursor, -1, facts)
  const neighbour = to === 'next' || to === 'previous' ? undefined : onMap(current, to, facts)
  const next = neighbour ?? facts.rows[Math.min(facts.rows.length - 1, Math.max(0, index + by))]
  return stay({ ...cursor, row: next?.id ?? cursor.row })
}

/** The nearest place in that direction; sideways steps count double, so that a column is followed first. */
function onMap(
  current: Row | undefined,
  to: 'up' | 'down' | 'left' | 'right',
  facts: Facts,
): Row | undefined {
  const from = current && facts.map[current.id]
  if (!from) return undefined
  const along = (p: { x: number; y: number }) =>
    to === 'up' ? from.y - p.y : to === 'down' ? p.y - from.y : to === 'left' ? from.x - p.x : p.x - from.x
  const aside = (p: { x: number; y: number }) =>
    to === 'up' || to === 'down' ? Math.abs(p.x - from.x) : Math.abs(p.y - from.y)
  const reachable = facts.rows
    .flatMap((row) => {
      const p = facts.map[row.id]
      return p && along(p) > 0 ? [{ row, far: along(p) + 2 * aside(p) }] : []
    })
    .sort((a, b) => a.far - b.far)
  return reachable[0]?.row ?? current
}

function moveInTrail(cursor: Cursor, to: (Event & { on: 'move' })['to'], facts: Facts): Outcome {
  const by = to === 'up' || to === 'left' || to === 'previous' ? -1 : 1
  const last = facts.seqs.length - 1
  const now = cursor.seq === null ? last : facts.seqs.indexOf(cursor.seq)
  const next = facts.seqs[Math.min(last, Math.max(0, (now < 0 ? last : now) + by))]
  return stay({ ...cursor, seq: next ?? null })
}

export const scrolled = (cursor: Cursor, by: number, facts: Facts): Outcome =>
  stay({ ...cursor, scroll: Math.min(facts.scrollMax, Math.max(0, cursor.scroll + by)) })

/** To the first or the last, likewise. */
export function edge(cursor: Cursor, to: 'first' | 'last', facts: Facts): Outcome {
  if (cursor.mode === 'trail') return stay({ ...cursor, seq: facts.seqs.at(to === 'first' ? 0 : -1) ?? null })
  if (cursor.mode !== 'job' || facts.scrollMax > 0)
    return stay({ ...cursor, scroll: to === 'first' ? 0 : facts.scrollMax })
  return stay({ ...cursor, row: facts.rows.at(to === 'first' ? 0 : -1)?.id ?? cursor.row })
}

/** A digit only highlights. A second one makes a number of two digits where there are as many rows. */
export function digit(cursor: Cursor, char: string, facts: Facts): Outcome {
  for (const digits of [cursor.digits + char, char]) {
    const row = facts.rows[Number(digits) - 1]
    if (row) return stay({ ...cursor, digits, row: row.id })
  }
  return tell({ ...cursor, digits: '' }, 'no-such-row')
}
