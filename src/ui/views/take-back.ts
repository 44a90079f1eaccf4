/** Before an answer is taken back: which one, what goes with it, and what it does to the suspects. */
import type { Suspect } from '../../core/checks/prompt.ts'
import { BLANK, type Line } from '../text/line.ts'
import { type Model, sayLines } from './model.ts'

/** So many suspects on either side are compared. */
const COMPARED = 4

const keyOf = (s: Suspect): string => s.faults.map((f) => `${f.at}:${f.mode}`).join()

/** Where one suspect stands among others: itself, or the group that it is told in. */
const shareOf = (s: Suspect, among: readonly Suspect[]): number =>
  among.find((o) => [o, ...o.alike].some((a) => keyOf({ ...s, faults: a.faults }) === keyOf(s)))?.p ?? 0

function changes(model: Model, after: readonly Suspect[], columns: number): Line[] {
  const { view, words, language } = model
  const before = view.suspects
  if (before.length === 0) return []
  const shown = [...after.slice(0, COMPARED), ...before.slice(0, COMPARED)]
  const named = new Set<string>()
  const lines = shown.flatMap((s) => {
    const keys = [s, ...s.alike].map((a) => keyOf({ ...s, faults: a.faults }))
    if (keys.some((key) => named.has(key))) return []
    for (const key of keys) named.add(key)
    const [was, is] = [shareOf(s, before), shareOf(s, after)].map(language.labels.percent)
    return sayLines(
      model,
      words.shareChange(language.suspect(s, view), was ?? '', is ?? ''),
      columns,
      'plain',
      '  ',
    )
  })
  return [BLANK, ...sayLines(model, words.shareHead, columns, 'strong'), ...lines]
}

export function takeBackLines(model: Model, columns: number): Line[] {
  const { view, without, words, language, cursor } = model
  const takes = without?.takes ?? (cursor.seq === null ? [] : [cursor.seq])
  const entries = view.trail.filter((e) => takes.includes(e.seq))
  return [
    ...sayLines(model, takes.length > 1 ? words.takesBack : words.takesBackOne, columns, 'strong'),
    BLANK,
    ...entries.flatMap((e) => sayLines(model, language.trail(e, view), columns)),
    ...(without ? changes(model, without.suspects, columns) : []),
  ]
}
