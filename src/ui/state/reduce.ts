/**
 * What a key does: the next cursor, and what is to be said to the job if anything. Pure and synchronous, so that what is
 * acted on is always the cursor as the last key left it, whatever has been drawn meanwhile.
 */
import type { Mode } from '../../wording/screen-mode.ts'
import { type Event, FIELDS } from '../keys/keymap.ts'
import type { Cursor, Message } from './cursor.ts'
import { type Facts, type Outcome, open, reply, stay, tell } from './facts.ts'
import { written } from './fields.ts'
import { allMarked, marked } from './marks.ts'
import { digit, edge, highlighted, move, scrolled } from './moves.ts'

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
  if (FIELDS.includes(cursor.mode)) return written(cursor, event)
  if (cursor.filtering) return typing(cursor, event, facts)
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
    case 'mark-all':
      return stay(allMarked(cursor, facts.rows))
    case 'back':
      return back(cursor)
    case 'open':
      return opened(cursor, event.mode, facts)
    case 'unsure':
    case 'cannot':
      return way(cursor, event.on, facts)
    case 'undo':
      return undo(cursor, facts)
    case 'fold':
      return facts.folded === null
        ? tell(cursor, 'not-here')
        : reply(cursor, { say: 'fold', folded: !facts.folded })
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
  const { filter } = cursor
  switch (event.on) {
    case 'type':
      return filter.length < 60 ? filtered(cursor, filter + event.char) : stay(cursor)
    case 'erase':
      return filtered(cursor, [...filter].slice(0, -1).join(''))
    case 'back':
      return filtered({ ...cursor, filtering: false }, '')
    case 'take':
      return stay({ ...cursor, filtering: false })
    case 'move':
      return move(cursor, event.to, facts)
    default:
      return stay(cursor)
  }
}

const filtered = (cursor: Cursor, filter: string): Outcome => stay({ ...cursor, filter, scroll: 0 })

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
  if (row.id === 'done' && facts.signs !== null) return stay({ ...open(cursor, 'sign'), note: facts.signs })
  return reply(cursor, { say: row.id })
}

/** None marked is an answer, but one that is easily given by mistake: it takes Enter twice. */
function marksSaid(cursor: Cursor, lastMessage: Message | null): Outcome {
  const ids = Object.values(cursor.marked)
  if (ids.length === 0 && lastMessage?.say !== 'none-marked') return tell(cursor, 'none-marked')
  return reply(cursor, { say: 'answer', ids })
}

/** Space: on a place that can be marked the next of its marks; in text the next page. */
function mark(cursor: Cursor, facts: Facts): Outcome {
  const text = (): Outcome => scrolled(cursor, Math.max(1, facts.page - 1), facts)
  if (cursor.mode !== 'job') return text()
  const row = highlighted(cursor, facts.rows)
  if (row?.row !== 'spot') return facts.scrollMax > 0 ? text() : stay(cursor)
  return stay(marked(cursor, row))
}

function back(cursor: Cursor): Outcome {
  if (cursor.mode === 'take-back') return stay(open(cursor, 'trail'))
  if (cursor.mode !== 'job') return stay(open(cursor, 'job'))
  if (cursor.filter !== '') return filtered(cursor, '')
  return tell(cursor, 'at-top')
}

const NOT_AT_END: readonly Mode[] = ['hand-over', 'note', 'reading', 'why']

function opened(cursor: Cursor, mode: Exclude<Mode, 'job' | 'take-back' | 'sign'>, facts: Facts): Outcome {
  if (mode === 'picture' && !facts.picture) return tell(cursor, 'no-picture')
  if (mode === 'told' && !facts.told) return tell(cursor, 'not-here')
  if (facts.kind === 'ended' && NOT_AT_END.includes(mode)) return tell(cursor, 'not-here')
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
