/** The one line about the last key, cut to the screen: what was recorded, taken back, refused, or not taken. */
import type { Message } from '../state/cursor.ts'
import { BLANK, type Line, line, span } from '../text/line.ts'
import { inAscii } from '../text/marks.ts'
import { shortenedAtWord, width } from '../text/width.ts'
import { type Model, marksOf, say } from './model.ts'

/** What was recorded, with how it is taken back. */
function recorded(model: Model, { say: how, what }: Message & { what: string }, held: string): string {
  const { words, view, size } = model
  const [before, back] = how === 'did' ? words.did : words.taken
  const all = say(model, what)
  const room = size.columns - width(before) - width(held)
  // Beside the word of a second Enter the way back gives way first: it stands among the keys as well.
  const after = view.canUndo && (held === '' || width(all) + width(back) <= room) ? back : ''
  return before + shortenedAtWord(all, room - width(after), marksOf(model).cut) + after
}

export function messageLine(model: Model): Line {
  const { cursor, words, size } = model
  if (cursor.busy) return line(span(say(model, words.writing), 'dim'))
  if (cursor.message === null) return BLANK
  const held = cursor.message.say === 'held-after' ? words.heldAfter : ''
  const message = cursor.message.say === 'held-after' ? cursor.message.first : cursor.message
  const text =
    'what' in message
      ? recorded(model, message, held)
      : shortenedAtWord(
          message.say === 'taken-back'
            ? words.takenBack(message.count)
            : message.say === 'refused'
              ? message.text
              : words.said[message.say],
          size.columns - width(held),
          marksOf(model).cut,
        )
  return line(span(model.ascii ? inAscii(text + held) : text + held, 'strong'))
}
