/** Answers in words: what a line of a question's list says, in full and in a sentence of its own. */

import type { Observable } from '../../core/bench/observable.ts'
import type { Ask } from '../../core/checks/prompt.ts'
import { cleanName } from '../clean.ts'
import type { Scene } from '../language.ts'
import { pastAnswer } from './past.ts'
import { refNames } from './together.ts'
import { sentence, sightingWords, subject, valueWords } from './values.ts'

/** Several values at once, same ones together: "F1, F3: lit all over; F2: dark". */
function combined(
  observe: readonly Observable[],
  means: readonly (string | null)[],
  off: boolean,
  scene: Scene,
): string {
  const said = observe.flatMap((o, i) => {
    const value = means[i]
    return value === null || value === undefined
      ? []
      : [{ o, words: valueWords(o, value, off ? 'off' : 'on', scene), value }]
  })
  if (said.length === 0) return 'Something else'
  const [first] = said
  if (observe.length === 1 && first) return sentence(first.words, scene)
  const groups = new Map<string, { at: string[]; first: (typeof said)[number] }>()
  for (const s of said) {
    const group = groups.get(`${s.o.what} ${s.words}`)
    if (group) group.at.push(s.o.at)
    else groups.set(`${s.o.what} ${s.words}`, { at: [s.o.at], first: s })
  }
  const parts = [...groups.values()].map(
    ({ at, first: s }) => `${at.length === 1 ? subject(s.o, scene) : refNames(at, scene)}: ${s.words}`,
  )
  return sentence(parts.join('; '), scene)
}

/** The text of one answer, mark or choice of a question, by its id. */
export function answerText(ask: Ask, id: string, scene: Scene): string {
  const off = ask.power === 'off'
  if (ask.many) {
    const mark = ask.marks.find((m) => m.id === id)
    return mark ? sightingWords(mark.observe, mark.value, off ? 'off' : 'on', scene) : cleanName(id)
  }
  if ('about' in ask) return pastAnswer(ask, id, scene)
  const answer = ask.answers.find((a) => a.id === id)
  return answer ? combined(ask.observe, answer.means, off, scene) : cleanName(id)
}
