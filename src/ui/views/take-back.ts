/** Before an answer is taken back: which one, what goes with it, and what it does to the suspects. */
import { takeBackText } from '../../wording/take-back.ts'
import { BLANK, type Line } from '../text/line.ts'
import { type Model, sayLines } from './model.ts'

export function takeBackLines(model: Model, columns: number): Line[] {
  const { view, without, words, language, cursor } = model
  const takes = without?.takes ?? (cursor.seq === null ? [] : [cursor.seq])
  const { head, entries, shares } = takeBackText(view, takes, without, language)
  return [
    ...sayLines(model, head, columns, 'strong'),
    BLANK,
    ...entries.flatMap((entry) => sayLines(model, entry, columns)),
    ...(shares.length === 0 ? [] : [BLANK, ...sayLines(model, words.shareHead, columns, 'strong')]),
    ...shares.flatMap((share) => sayLines(model, share, columns, 'plain', '  ')),
  ]
}
