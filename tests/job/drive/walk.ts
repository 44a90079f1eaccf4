/**
 * A restless person at the bench: mostly does and says what the bench shows, but also errs, can't tell, can't do,
 * takes back, writes notes. Every choice comes from a list of numbers, so a walk can be made again.
 */
import type { Ask, Prompt } from '../../../src/core/checks/prompt.ts'
import type { Reply, View } from '../../../src/job/view.ts'
import type { Person } from '../../support/bench-person.ts'

function anyAnswer(ask: Ask, pick: number): Reply {
  if (ask.many) {
    const mark = ask.marks[pick % Math.max(1, ask.marks.length)]
    return { say: 'answer', ids: mark && pick % 3 > 0 ? [mark.id] : [] }
  }
  const ids = 'about' in ask ? ask.choices : ask.answers.map((a) => a.id)
  const id = ids[pick % Math.max(1, ids.length)]
  return id === undefined ? { say: 'unsure' } : { say: 'answer', ids: [id] }
}

const honest = (prompt: Prompt, person: Person): Reply =>
  prompt.show === 'do' ? { say: 'done' } : person.answer(prompt)

/** A person gives in at some point: so many answers are taken back at most, and as many notes written. */
export const MOST_WHIMS = 12

/**
 * What is said to this prompt.
 * @param roll 0 to 99 decides how, `pick` decides which @param whims answers taken back and notes so far
 */
export function restless(view: View, person: Person, roll: number, pick: number, whims: number): Reply {
  const { prompt } = view
  if (!prompt) throw new Error('nothing is asked')
  if (roll < 55 || (roll >= 86 && whims >= MOST_WHIMS)) return honest(prompt, person)
  if (roll < 68) return prompt.show === 'ask' ? anyAnswer(prompt, pick) : { say: 'done' }
  if (roll < 77) return prompt.show === 'ask' ? { say: 'unsure' } : { say: 'done' }
  if (roll < 86) return { say: 'cannot' }
  if (roll < 95) return view.canUndo ? { say: 'undo' } : honest(prompt, person)
  return { say: 'note', text: `mind ${pick}` }
}
