/** Texts that are typed over the job: a note for the log, where a reading is to be had, and a name to sign with. */
import { handInOf } from '../../job/hand-in.ts'
import type { Event } from '../keys/keymap.ts'
import type { Cursor } from './cursor.ts'
import { type Outcome, open, reply, stay, tell } from './facts.ts'

const LONGEST = 500

/** Every letter is text; Enter hands it in, Escape goes back and drops a note, but keeps what was typed of a reading. */
export function written(cursor: Cursor, event: Event): Outcome {
  const field = cursor.mode === 'reading' ? 'reading' : 'note'
  const text = cursor[field]
  switch (event.on) {
    case 'type':
      return text.length < LONGEST ? stay({ ...cursor, [field]: text + event.char }) : stay(cursor)
    case 'erase':
      return stay({ ...cursor, [field]: [...text].slice(0, -1).join('') })
    case 'back':
      return stay({ ...open(cursor, 'job'), unread: '' })
    case 'take':
      if (cursor.mode === 'sign') return signed(cursor, text.trim())
      return field === 'note' ? noted(cursor, text.trim()) : handedIn(cursor, text)
    default:
      return stay(cursor)
  }
}

const noted = (cursor: Cursor, text: string): Outcome =>
  text === '' ? stay(open(cursor, 'job')) : reply({ ...open(cursor, 'job'), note: '' }, { say: 'note', text })

const signed = (cursor: Cursor, by: string): Outcome =>
  reply({ ...open(cursor, 'job'), note: '' }, { say: 'done', ...(by === '' ? {} : { by }) })

/** Stays open until it is taken, so that what is wrong with it can be put right. */
function handedIn(cursor: Cursor, text: string): Outcome {
  const handIn = handInOf(text)
  return handIn === undefined
    ? tell(cursor, 'no-reading')
    : { cursor: { ...cursor, busy: true }, act: { act: 'read', handIn } }
}
