/**
 * Questions in words, from what they look at. They ask for what is seen or read out, never for a judgement, and say
 * where and how to look.
 */

import type { Ask } from '../../core/checks/prompt.ts'
import type { QuestionText, Scene } from '../language.ts'
import { pastQuestion } from './past.ts'
import type { Look } from './questions/look.ts'
import { kindsIn, lookForMarks } from './questions/marks.ts'
import { lookAtSeveral } from './questions/one-answer.ts'
import { symptomText } from './symptoms.ts'
import { fullOnce } from './together.ts'

const AGAIN: Readonly<Record<NonNullable<Ask['again']>, string>> = {
  conflict: 'Asked again, because the answers so far do not fit together. Look afresh.',
  changed: 'Asked again, because something has been changed since.',
  undone: 'Asked again, because the answer was taken back.',
}

const PROOF = 'This is the proof: look again at what was wrong.'
const PROOF_OF_ALL = 'This is the proof: is all of this right now?'

/** A question as it is put: what to look at, how, and why it is asked again if it is. */
export function questionText(ask: Ask, scene: Scene): QuestionText {
  const off = ask.power === 'off'
  const seen: Look = ask.many
    ? lookForMarks(ask, scene)
    : 'about' in ask
      ? pastQuestion(ask, scene, (id) => symptomText(id).name)
      : lookAtSeveral(ask.observe, off, scene)
  const proof = ask.many && kindsIn(ask.marks).length > 1 ? PROOF_OF_ALL : PROOF
  const hints = ask.stage === 'proof' ? [proof, ...seen.hints] : seen.hints
  const [title = ''] = fullOnce([seen.ask], scene)
  return { title, hints, ...(ask.again ? { again: AGAIN[ask.again] } : {}) }
}
