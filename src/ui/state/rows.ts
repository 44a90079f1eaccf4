/**
 * What can be highlighted for a prompt. Every row has an id of its own, and the id is what the cursor holds: a list that
 * is filtered, scrolled or redrawn cannot put another row under the cursor.
 */
import type { What } from '../../core/bench/observable.ts'
import type { Ask, Mark, Prompt } from '../../core/checks/prompt.ts'

export type Row =
  | { readonly id: string; readonly row: 'answer'; readonly answer: string }
  | { readonly id: string; readonly row: 'spot'; readonly spot: Spot }
  | { readonly id: 'unsure' | 'cannot' | 'done' | 'not-yet'; readonly row: 'way' }

/** What is looked at in a place; whether a plug is home and where it goes are seen in one look. */
export type Look = Exclude<What, 'seated' | 'goes'> | 'plug'

const lookOf = (what: What): Look => (what === 'seated' || what === 'goes' ? 'plug' : what)

/** One place that can be marked, with the marks that exist for it; of these one can hold. */
export interface Spot {
  /** What is marked: a part, port or setting, as the observable names it. */
  readonly at: string
  readonly look: Look
  readonly part: string
  readonly marks: readonly Mark[]
}

export type Kind = 'step' | 'gate' | 'one' | 'many' | 'ended'

export const kindOf = (prompt: Prompt | null): Kind =>
  prompt === null
    ? 'ended'
    : prompt.show === 'do'
      ? prompt.purpose === 'gate'
        ? 'gate'
        : 'step'
      : prompt.many
        ? 'many'
        : 'one'

const way = (id: 'unsure' | 'cannot' | 'done' | 'not-yet'): Row => ({ id, row: 'way' })

const answerIds = (ask: Exclude<Ask, { many: true }>): readonly string[] =>
  'about' in ask ? ask.choices : ask.answers.map((a) => a.id)

/** The part that a reference is about: `F1` of `F1.light`, `channels/H1/profile` and `H1.3/5V`. */
export function partOfRef(ref: string): string {
  const [section, name] = ref.split('/')
  const setting = section === 'headers' || section === 'channels' || section === 'ports'
  return ((setting ? name : section) ?? ref).split('.')[0] ?? ref
}

/**
 * The places of a question with several marks, in the order in which it names them. A fan that stands still may be dark
 * as well: where both are asked it has two rows.
 */
export function spotsOf(prompt: Prompt | null): Spot[] {
  if (prompt?.show !== 'ask' || !prompt.many) return []
  const spots = new Map<string, Spot & { readonly marks: Mark[] }>()
  for (const mark of prompt.marks) {
    const { what, at } = mark.observe
    const look = lookOf(what)
    const key = `${look} ${at}`
    const spot = spots.get(key)
    if (spot) spot.marks.push(mark)
    else spots.set(key, { at, look, part: partOfRef(at), marks: [mark] })
  }
  return [...spots.values()]
}

/** The mark that a place has, by the id of its row. */
export const markOn = (row: Row & { row: 'spot' }, marked: Readonly<Record<string, string>>): number =>
  row.spot.marks.findIndex((m) => m.id === marked[row.id])

/** The rows of a prompt, top to bottom. A gate begins with the row that changes nothing. */
export function rowsOf(prompt: Prompt | null): Row[] {
  switch (kindOf(prompt)) {
    case 'ended':
      return [way('done')]
    case 'gate':
      return [way('not-yet'), way('done')]
    case 'step':
      return [way('done'), way('cannot')]
    case 'many':
      return spotsOf(prompt).map((spot) => ({ id: `${spot.look}:${spot.at}`, row: 'spot', spot }))
    case 'one':
      return [
        ...answerIds(prompt as Exclude<Ask, { many: true }>).map(
          (answer): Row => ({ id: `is:${answer}`, row: 'answer', answer }),
        ),
        way('unsure'),
        way('cannot'),
      ]
  }
}
