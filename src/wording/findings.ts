/**
 * What a language must be able to say of a finding: one line with the figure and the limit, what to do, and under
 * which heading of doing it belongs. Also a title and a limit for each rule, for lists and the page of rules.
 */
import type { Finding, Severity } from '../core/audit/finding.ts'
import type { Plan } from '../core/plan/plan.ts'
import { cleanName } from './clean.ts'
import { figures } from './figures.ts'
import { type KindWords, type Names, namesIn } from './finding-names.ts'

/** Kinds of doing, in the order in which a list shows them; `stop` takes all that would damage. */
export const DOINGS = ['stop', 'rewire', 'part', 'setting', 'write', 'know'] as const
export type Doing = (typeof DOINGS)[number]

type PlainDoing = Exclude<Doing, 'stop'>

export interface RuleWords {
  /** A few words, for lists and editors: "Header over its current". */
  readonly title: string
  /** What the figure is held against, for the page of rules. */
  readonly limit: string
  /** Depends on the finding where the same thing is a slip in one plan and a choice in another. */
  readonly doing: PlainDoing | ((f: Said) => PlainDoing)
  readonly says: (f: Said) => string
  readonly todo: (f: Said) => string
}

/** A finding with its facts made ready for a sentence. */
export interface Said {
  readonly finding: Finding
  /** Figure and limit with their unit. */
  readonly figure: string
  readonly limit: string
  /** By how much the figure is over or under the limit. */
  readonly by: string
  /** A fact as text; lists as "F1, F2 and F3". */
  of(name: string): string
  /** How many a list has. */
  count(name: string): number
  /** The form of a verb that fits a list: one name or several. */
  verb(name: string, one: string, several: string): string
}

export interface FindingWords {
  readonly rules: Readonly<Record<string, RuleWords>>
  readonly severity: Readonly<Record<Severity, string>>
  readonly doing: Readonly<Record<Doing, string>>
  readonly families: Readonly<Record<string, string>>
  readonly kinds: KindWords
  readonly list: (items: readonly string[]) => string
  readonly assumed: (paths: readonly string[]) => string
  readonly clean: string
  readonly counted: (counts: Readonly<Record<Severity, number>>) => string
  readonly heads: Readonly<Record<'todo' | 'rule' | 'source' | 'severity' | 'limit' | 'at', string>>
  readonly page: { readonly title: string; readonly about: readonly string[] }
}

export interface FindingText {
  readonly rule: string
  readonly title: string
  readonly says: string
  readonly todo: string
  readonly doing: Doing
  readonly severity: string
}

/** The rule's words; a rule without any is a mistake of ours. */
export function wordsOf(words: FindingWords, rule: string): RuleWords {
  const found = words.rules[rule]
  if (!found) throw new Error(`the rule ${rule} has no sentence`)
  return found
}

/** A finding in words; where its plan is at hand, what kind of part a name stands for is said. */
export function findingText(words: FindingWords, finding: Finding, plan?: Plan): FindingText {
  const rule = wordsOf(words, finding.rule)
  const names = plan && namesIn(finding, plan, words.kinds, words.list)
  const said = saidOf(words, finding, names)
  const spoken = names?.spoken ?? ((text: string): string => text)
  const assumed = finding.assumed.length > 0 && finding.severity !== 'unknown'
  return {
    rule: finding.rule,
    title: rule.title,
    says: spoken(rule.says(said)) + (assumed ? ` ${words.assumed(finding.assumed)}` : ''),
    todo: spoken(rule.todo(said)),
    doing:
      finding.severity === 'will-damage'
        ? 'stop'
        : typeof rule.doing === 'string'
          ? rule.doing
          : rule.doing(said),
    severity: words.severity[finding.severity],
  }
}

/** At most three decimals, no trailing noughts; a thousand rpm stay whole. */
const numeral = (n: number): string => figures().number(n, Math.abs(n) >= 100 ? 0 : 3)

function saidOf(words: FindingWords, finding: Finding, names?: Names): Said {
  const { figure = 0, limit = 0, unit } = finding
  const with_ = (n: number): string => (unit === undefined ? numeral(n) : `${numeral(n)} ${unit}`)
  const text = (name: string): string => {
    const fact = finding.facts[name]
    if (fact === undefined) return ''
    if (typeof fact === 'number') return numeral(fact)
    const things = typeof fact === 'object' ? shortened(fact) : [fact]
    const plainly = words.list(things.map(cleanName))
    return names?.token(name, things, plainly) ?? plainly
  }
  const count = (name: string): number => {
    const fact = finding.facts[name]
    return typeof fact === 'object' ? new Set(fact).size : 1
  }
  return {
    finding,
    figure: with_(figure),
    limit: with_(limit),
    by: with_(Math.abs(figure - limit)),
    of: text,
    count,
    verb: (name, one, several) => (count(name) === 1 ? one : several),
  }
}

/** More than this many names make a sentence nobody reads. */
const MOST_NAMES = 6
const shortened = (names: readonly string[]): readonly string[] => {
  const unique = [...new Set(names)]
  return unique.length <= MOST_NAMES
    ? unique
    : [...unique.slice(0, MOST_NAMES - 1), `${unique.length - MOST_NAMES + 1} more`]
}
