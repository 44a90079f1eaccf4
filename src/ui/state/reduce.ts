/**
 * What a key does: the next cursor, and what is to be said to the job if anything. Pure and synchronous, so that what is
 * acted on is always the cursor as the last key left it, whatever has been drawn meanwhile.
 */
import type { Reply } from '../../job/view.ts'
import type { Mode } from '../../wording/screen-mode.ts'
import type { Event } from '../keys/keymap.ts'
import type { Cursor, Message } from './cursor.ts'
import type { Kind, Row, Spot } from './rows.ts'

/** What the reducer must know of the job and of what is drawn. */
export interface Facts {
  readonly kind: Kind
  /** Rows as shown: filtered, top to bottom. */
  readonly rows: readonly Row[]
  /** Where each place is drawn on the map of the case, by row id; empty where a list is drawn. */
  readonly map: Readonly<Record<string, { readonly x: number; readonly y: number }>>
  /** Furthest scroll of what scrolls in this mode, 0 if all is seen, and the lines seen at once. */
  readonly scrollMax: number
  readonly page: number
  /** Steps of the path so far that can be taken back, oldest first, as listed. */
  readonly seqs: readonly number[]
  readonly canUndo: boolean
  /** Whether there is a picture of a connector for this question, and anything told. */
  readonly picture: boolean
  readonly told: boolean
}

export type Act =
  | { readonly act: 'reply'; readonly reply: Reply }
  | { readonly act: 'take-back'; readonly seq: number }
  | { readonly act: 'exit' }
  | { readonly act: 'interrupt' | 'suspend' | 'redraw' }

export interface Outcome {
  readonly cursor: Cursor
  readonly act?: Act
}

const stay = (cursor: Cursor): Outcome => ({ cursor })
const tell = (
  cursor: Cursor,
  say: Exclude<Message['say'], 'recorded' | 'taken-back' | 'refused'>,
): Outcome => ({
  cursor: { ...cursor, message: { say } },
})
const reply = (cursor: Cursor, said: Reply): Outcome => ({
  cursor: { ...cursor, busy: true, digits: '' },
  act: { act: 'reply', reply: said },
})

const open = (cursor: Cursor, mode: Mode, seq: number | null = cursor.seq): Cursor => ({
  ...cursor,
  mode,
  seq,
  scroll: 0,
  filter: '',
  filtering: false,
  digits: '',
})

/** One event. While a reply is being written only leaving and redrawing work. */
export function reduce(before: Cursor, event: Event, facts: Facts): Outcome {
  if (event.on === 'interrupt' || event.on === 'suspend' || event.on === 'redraw')
    return { cursor: before, act: { act: event.on } }
  if (before.busy) return stay(before)
  const cursor: Cursor = {
    ...before,
    message: null,
    digits: event.on === 'digit' ? before.digits : '',
  }
  if (cursor.filtering || cursor.mode === 'note') return typing(cursor, event, facts)
  switch (event.on) {
    case 'move':
      return move(cursor, event.to, facts)
    case 'page':
      return scrolled(cursor, event.by * Math.max(1, facts.page - 1), facts)
    case 'edge':
      return edge(cursor, event.to, facts)
    case 'digit':
      return digit(cursor, event.digit, facts)
    case 'take':
      return take(cursor, facts, before.message)
    case 'mark':
      return mark(cursor, facts)
    case 'back':
      return back(cursor)
    case 'open':
      return opened(cursor, event.mode, facts)
    case 'unsure':
    case 'cannot':
      return way(cursor, event.on, facts)
    case 'undo':
      return undo(cursor, facts)
    case 'filter':
      return stay({ ...cursor, filtering: true })
    case 'erase':
      return cursor.filter === '' ? stay(cursor) : filtered(cursor, '')
    case 'type':
      return stay(cursor)
  }
}

/** In a text field every letter is text; only Enter, Escape and the arrows keep their meaning. */
function typing(cursor: Cursor, event: Event, facts: Facts): Outcome {
  const note = cursor.mode === 'note'
  const text = note ? cursor.note : cursor.filter
  const put = (t: string): Outcome => (note ? stay({ ...cursor, note: t }) : filtered(cursor, t))
  switch (event.on) {
    case 'type':
      return text.length < (note ? 500 : 60) ? put(text + event.char) : stay(cursor)
    case 'erase':
      return put([...text].slice(0, -1).join(''))
    case 'back':
      return note ? stay(open(cursor, 'job')) : filtered({ ...cursor, filtering: false }, '')
    case 'take':
      if (!note) return stay({ ...cursor, filtering: false })
      return text.trim() === ''
        ? stay(open(cursor, 'job'))
        : reply({ ...open(cursor, 'job'), note: '' }, { say: 'note', text: text.trim() })
    case 'move':
      return note ? stay(cursor) : move(cursor, event.to, facts)
    default:
      return stay(cursor)
  }
}

const filtered = (cursor: Cursor, filter: string): Outcome => stay({ ...cursor, filter, scroll: 0 })

/**
 * The row that is highlighted now. A filter can hide the one chosen last; then the first shown counts, and is drawn so.
 */
export const highlighted = (cursor: Cursor, rows: readonly Row[]): Row | undefined =>
  rows.find((r) => r.id === cursor.row) ?? rows[0]

function move(cursor: Cursor, to: (Event & { on: 'move' })['to'], facts: Facts): Outcome {
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

const scrolled = (cursor: Cursor, by: number, facts: Facts): Outcome =>
  stay({ ...cursor, scroll: Math.min(facts.scrollMax, Math.max(0, cursor.scroll + by)) })

function edge(cursor: Cursor, to: 'first' | 'last', facts: Facts): Outcome {
  if (cursor.mode === 'trail') return stay({ ...cursor, seq: facts.seqs.at(to === 'first' ? 0 : -1) ?? null })
  if (cursor.mode !== 'job' || facts.scrollMax > 0)
    return stay({ ...cursor, scroll: to === 'first' ? 0 : facts.scrollMax })
  return stay({ ...cursor, row: facts.rows.at(to === 'first' ? 0 : -1)?.id ?? cursor.row })
}

/** A digit only highlights. A second one makes a number of two digits where there are as many rows. */
function digit(cursor: Cursor, char: string, facts: Facts): Outcome {
  for (const digits of [cursor.digits + char, char]) {
    const row = facts.rows[Number(digits) - 1]
    if (row) return stay({ ...cursor, digits, row: row.id })
  }
  return tell({ ...cursor, digits: '' }, 'no-such-row')
}

function take(cursor: Cursor, facts: Facts, lastMessage: Message | null): Outcome {
  switch (cursor.mode) {
    case 'leave':
      return reply(cursor, { say: 'leave' })
    case 'hand-over':
      return reply(open(cursor, 'job'), { say: 'hand-over' })
    case 'take-back':
      return cursor.seq === null
        ? stay(open(cursor, 'job'))
        : { cursor: { ...open(cursor, 'job'), busy: true }, act: { act: 'take-back', seq: cursor.seq } }
    case 'trail': {
      const seq = cursor.seq ?? facts.seqs.at(-1)
      return seq === undefined ? tell(cursor, 'nothing-to-undo') : stay(open(cursor, 'take-back', seq))
    }
    case 'told':
      return cursor.scroll < facts.scrollMax
        ? scrolled(cursor, Math.max(1, facts.page - 1), facts)
        : stay(open(cursor, 'job'))
    case 'job':
      return answer(cursor, facts, lastMessage)
    default:
      return stay(open(cursor, 'job'))
  }
}

/** One page on, and word of it while there is still more. */
function readOn(cursor: Cursor, facts: Facts): Outcome {
  const page = Math.max(1, facts.page - 1)
  const more = cursor.scroll + page < facts.scrollMax
  return scrolled(more ? { ...cursor, message: { say: 'read-on' } } : cursor, page, facts)
}

function answer(cursor: Cursor, facts: Facts, lastMessage: Message | null): Outcome {
  if (facts.kind === 'ended') return { cursor, act: { act: 'exit' } }
  if (facts.kind === 'gate' && !cursor.settled) return stay(cursor)
  const reads = facts.kind === 'step' || facts.kind === 'gate'
  if (reads && cursor.scroll < facts.scrollMax) return readOn(cursor, facts)
  if (facts.kind === 'many') return marksSaid(cursor, lastMessage)
  const row = highlighted(cursor, facts.rows)
  if (!row) return tell(cursor, 'no-such-row')
  if (row.row === 'answer') return reply(cursor, { say: 'answer', ids: [row.answer] })
  if (row.row === 'spot') return stay(cursor)
  if (row.id === 'not-yet') return tell(cursor, 'gate-not-yet')
  return reply(cursor, { say: row.id })
}

/** None marked is an answer, but one that is easily given by mistake: it takes Enter twice. */
function marksSaid(cursor: Cursor, lastMessage: Message | null): Outcome {
  const ids = Object.values(cursor.marked)
  if (ids.length === 0 && lastMessage?.say !== 'none-marked') return tell(cursor, 'none-marked')
  return reply(cursor, { say: 'answer', ids })
}

const nextMark = (spot: Spot, now: string | undefined): string | undefined =>
  spot.marks[now === undefined ? 0 : spot.marks.findIndex((m) => m.id === now) + 1]?.id

/** Space: on a place that can be marked the next of its marks, then none; in text the next page. */
function mark(cursor: Cursor, facts: Facts): Outcome {
  if (cursor.mode !== 'job') return scrolled(cursor, Math.max(1, facts.page - 1), facts)
  const row = highlighted(cursor, facts.rows)
  if (row?.row !== 'spot')
    return facts.scrollMax > 0 ? scrolled(cursor, Math.max(1, facts.page - 1), facts) : stay(cursor)
  const { [row.spot.at]: now, ...rest } = cursor.marked
  const next = nextMark(row.spot, now)
  return stay({
    ...cursor,
    row: row.id,
    marked: next === undefined ? rest : { ...cursor.marked, [row.spot.at]: next },
  })
}

function back(cursor: Cursor): Outcome {
  if (cursor.mode === 'take-back') return stay(open(cursor, 'trail'))
  if (cursor.mode !== 'job') return stay(open(cursor, 'job'))
  if (cursor.filter !== '') return filtered(cursor, '')
  return tell(cursor, 'at-top')
}

function opened(cursor: Cursor, mode: Exclude<Mode, 'job' | 'take-back'>, facts: Facts): Outcome {
  if (mode === 'picture' && !facts.picture) return tell(cursor, 'no-picture')
  if (mode === 'told' && !facts.told) return tell(cursor, 'not-here')
  if (facts.kind === 'ended' && (mode === 'hand-over' || mode === 'note' || mode === 'why'))
    return tell(cursor, 'not-here')
  if (facts.kind === 'ended' && mode === 'leave') return { cursor, act: { act: 'exit' } }
  if (mode === 'trail') return stay(open(cursor, mode, facts.seqs.at(-1) ?? null))
  return stay(open(cursor, mode))
}

function way(cursor: Cursor, say: 'unsure' | 'cannot', facts: Facts): Outcome {
  const step = facts.kind === 'step' || facts.kind === 'gate'
  if (facts.kind === 'gate' && !cursor.settled) return stay(cursor)
  if (say === 'unsure' && step) return tell(cursor, 'not-here')
  return reply(cursor, { say })
}

function undo(cursor: Cursor, facts: Facts): Outcome {
  if (!facts.canUndo) return tell(cursor, 'nothing-to-undo')
  if (cursor.mode !== 'trail') return reply(open(cursor, 'job'), { say: 'undo' })
  return cursor.seq === null ? tell(cursor, 'nothing-to-undo') : stay(open(cursor, 'take-back'))
}
