/** Before an answer is taken back: which answers go, and what that does to the suspects. Every front end says the same. */
import type { Suspect } from '../core/checks/prompt.ts'
import type { TrailEntry, View, Without } from '../job/view.ts'
import type { Language } from './language.ts'

/** So many suspects on either side are compared. */
const COMPARED = 4

export interface TakeBackText {
  readonly head: string
  readonly entries: readonly string[]
  /** Empty while nobody is suspected. */
  readonly shares: readonly string[]
}

const keyOf = (faults: Suspect['faults']): string => faults.map((f) => `${f.at}:${f.mode}`).join()

const keysOf = (s: Suspect): readonly string[] => [s, ...s.alike].map((one) => keyOf(one.faults))

/** Where one suspect stands among others: itself, or the group that it is told in. */
const shareOf = (s: Suspect, among: readonly Suspect[]): number =>
  among.find((o) => keysOf(o).includes(keyOf(s.faults)))?.p ?? 0

function shares(view: View, after: readonly Suspect[], language: Language): readonly string[] {
  const before = view.suspects
  if (before.length === 0) return []
  const named = new Set<string>()
  return [...after.slice(0, COMPARED), ...before.slice(0, COMPARED)].flatMap((s) => {
    const keys = keysOf(s)
    if (keys.some((key) => named.has(key))) return []
    for (const key of keys) named.add(key)
    const [was = '', is = ''] = [shareOf(s, before), shareOf(s, after)].map(language.labels.percent)
    return [language.screen.shareChange(language.suspect(s, view), was, is)]
  })
}

/** The entries that go, in the order of the path so far. */
const entriesOf = (view: View, { takes }: Pick<Without, 'takes'>): readonly TrailEntry[] =>
  view.trail.filter((e) => takes.includes(e.seq))

/** @param without null where only the answers themselves are known */
export function takeBackText(
  view: View,
  takes: readonly number[],
  without: Without | null,
  language: Language,
): TakeBackText {
  const words = language.screen
  return {
    head: takes.length > 1 ? words.takesBack : words.takesBackOne,
    entries: entriesOf(view, { takes }).map((e) => language.trail(e, view)),
    shares: without ? shares(view, without.suspects, language) : [],
  }
}
