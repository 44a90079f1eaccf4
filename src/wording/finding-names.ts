/**
 * Names in a finding: what kind of part each stands for is said where it is met first, "fans F1 and F2", "header SYS1".
 * While a sentence is made a name is a token; how it is said is known once the sentence stands, since the order in which
 * facts were asked for is not the order in which they are read.
 */
import type { Finding } from '../core/audit/finding.ts'
import type { Part } from '../core/plan/part.ts'
import type { Plan } from '../core/plan/plan.ts'
import { headerKindOf } from '../core/plan/ports.ts'
import { cleanName } from './clean.ts'

export interface KindWords {
  /** Nothing where the name says so itself. */
  readonly part: (kind: Part['kind'], id: string) => string
  readonly header: Readonly<Record<'fan' | 'light' | 'usb', string>>
  readonly several: (kind: string) => string
  /** What stands before a name and says already what it is. */
  readonly said: RegExp
}

/** No name has it: they are cleaned of control characters. */
const TOKEN = '\u0000'

interface Name {
  readonly text: string
  readonly kind: string
  /** What it is a port of. */
  readonly of: string
}

export interface Names {
  /** A token for things of the plan, the text itself for anything else. */
  readonly token: (fact: string, things: readonly string[], text: string) => string
  /** The sentence with its tokens said; later sentences know what earlier ones named. */
  readonly spoken: (sentence: string) => string
}

/** Facts that name parts beside those that a finding is about. */
const OTHERS: ReadonlySet<string> = new Set(['seen'])

/** What a fact names. A word of the sentence may read like the name of a part that the finding is not about. */
function nameOf(
  fact: string,
  text: string,
  finding: Finding,
  plan: Plan,
  words: KindWords,
): Name | undefined {
  const about = (thing: string): boolean =>
    OTHERS.has(fact) ||
    finding.refs.some((ref) => ref === thing || ref.startsWith(`${thing}.`) || ref.startsWith(`${thing}/`))
  const id = text.replace(/^board\./, '')
  const [of = ''] = id.split('.')
  const set = about(`headers/${of}`) || about(`channels/${of}`)
  const header = id !== text || set || about(`board.${of}`) ? headerKindOf(plan.board, of) : undefined
  if (header) return { text: cleanName(id), kind: words.header[header], of: `board.${of}` }
  const part = id === text && (set || about(of)) ? plan.parts.find((p) => p.id === of) : undefined
  return part && { text: cleanName(id), kind: words.part(part.kind, of), of }
}

/** @param list joins several names: "F1, F2 and F3" */
export function namesIn(
  finding: Finding,
  plan: Plan,
  words: KindWords,
  list: (items: readonly string[]) => string,
): Names {
  const tokens: (readonly (Name | string)[])[] = []
  const met = new Set<string>()
  const said = (items: readonly (Name | string)[], before: string): string => {
    const runs: { kind: string; items: (Name | string)[] }[] = []
    for (const item of items) {
      const last = runs.at(-1)
      if (last && (typeof item === 'string' || item.kind === last.kind)) last.items.push(item)
      else runs.push({ kind: typeof item === 'string' ? '' : item.kind, items: [item] })
    }
    return list(
      runs.map(({ kind, items }, nth) => {
        const fresh = items.some((i) => typeof i !== 'string' && !met.has(i.of))
        for (const i of items) if (typeof i !== 'string') met.add(i.of)
        const texts = items.map((i) => (typeof i === 'string' ? i : i.text))
        const known = nth === 0 && (words.said.test(before) || before.endsWith(`${kind} `))
        if (kind === '' || !fresh || known) return list(texts)
        const [first = '', ...others] = texts
        return list([`${others.length > 0 ? words.several(kind) : kind} ${first}`, ...others])
      }),
    )
  }
  return {
    token(fact, things, text) {
      const items = things.map((thing) => nameOf(fact, thing, finding, plan, words) ?? thing)
      if (items.every((item) => typeof item === 'string')) return text
      tokens.push(items)
      return `${TOKEN}${tokens.length - 1}${TOKEN}`
    },
    spoken: (sentence) =>
      // Every other piece is a token's number.
      sentence
        .split(TOKEN)
        .reduce(
          (before, piece, i) => before + (i % 2 === 0 ? piece : said(tokens[Number(piece)] ?? [], before)),
          '',
        ),
  }
}
