/** One choice from a numbered list, line by line: before a job begins there is no question of its own yet. */
import type { Language } from '../wording/language.ts'
import { plainly } from './said.ts'
import type { Talk } from './talk.ts'
import { wrap } from './wrap.ts'

export interface Choice {
  readonly id: string
  readonly name: string
  readonly hint: string
}

/** The choice meant by a line: by number, id or name, or an unambiguous beginning of either. */
export function chosen(line: string, choices: readonly Choice[]): readonly Choice[] {
  const text = plainly(line)
  if (text === '') return []
  if (/^\d{1,3}$/.test(text))
    return choices.slice(Number(text) - 1, Number(text)).filter(() => Number(text) > 0)
  const exact = choices.filter((c) => plainly(c.id) === text || plainly(c.name) === text)
  if (exact.length > 0) return exact.slice(0, 1)
  return choices.filter((c) => plainly(c.id).startsWith(text) || plainly(c.name).startsWith(text))
}

export interface Several {
  /** The one that an empty line takes; without it, an empty line says the list again. */
  readonly usual?: string
  /** How several are chosen, said under the list; where it is missing, only one is. */
  readonly many?: string
}

/** Choices named one after the other, with commas or blanks between: numbers and ids, each of which must be clear by itself. */
function severalIn(line: string, choices: readonly Choice[]): readonly Choice[] | undefined {
  const words = plainly(line)
    .split(/[\s,;]+/u)
    .filter(Boolean)
  const found = words.map((word) =>
    chosen(
      word,
      choices.map((c) => ({ ...c, name: c.id })),
    ),
  )
  const all = found.flatMap((one) => (one.length === 1 ? one : []))
  return words.length > 1 && all.length === words.length
    ? choices.filter((c) => all.some((one) => one.id === c.id))
    : undefined
}

/** Asks until something is chosen; null when the input ends or the person leaves. */
export async function runChoices(
  title: string,
  choices: readonly Choice[],
  talk: Talk,
  language: Language,
  { usual, many }: Several = {},
): Promise<readonly string[] | null> {
  const { dialogue } = language
  const tell = (line: string) => talk.write(`${wrap(line, talk.columns)}\n`)
  const list = () => {
    tell(title)
    for (const [i, c] of choices.entries()) {
      tell(`  ${i + 1}. ${c.name}${c.id === usual ? ` [${dialogue.enter}]` : ''}`)
      if (c.hint !== '') tell(`     ${c.hint}`)
    }
    if (many !== undefined) tell(many)
  }
  list()
  talk.write(dialogue.prompt)
  for await (const line of talk.lines) {
    const text = 'text' in line ? line.text : ''
    if (text.trim() === '' && usual !== undefined && 'text' in line) return [usual]
    const found = chosen(text, choices)
    const [only] = found
    if (found.length === 1 && only) return [only.id]
    const several = many === undefined ? undefined : severalIn(text, choices)
    if (several !== undefined) return several.map((c) => c.id)
    if (dialogue.words.leave.includes(plainly(text))) return null
    if (text.trim() === '' || dialogue.words.help.includes(plainly(text))) list()
    else if (found.length > 1)
      tell(
        dialogue.whichOf(
          text,
          found.map((c) => c.name),
        ),
      )
    else if (/^\s*\d+\s*$/.test(text)) tell(dialogue.outOfRange(Number(text), choices.length))
    else tell(dialogue.notUnderstood(text))
    talk.write(dialogue.prompt)
  }
  return null
}

/** Asks until one is chosen. */
export async function runChoice(
  title: string,
  choices: readonly Choice[],
  talk: Talk,
  language: Language,
): Promise<string | null> {
  const taken = await runChoices(title, choices, talk, language)
  return taken?.[0] ?? null
}
