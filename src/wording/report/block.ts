/** What a report's page is made of: headings, facts, lists, tables, commands. */
import type { Ranking, Report } from '../../job/report/record.ts'
import type { Language, Scene } from '../language.ts'
import type { LogWords, ReportWords } from './words.ts'

export interface Cell {
  readonly text: string
  readonly struck?: true
  /** Said in brackets after a struck text, itself not struck. */
  readonly after?: string
  /** Figures stand to the right. */
  readonly right?: true
  /** Broken at its line ends and nowhere else. */
  readonly fixed?: true
}

export type Block =
  | { readonly is: 'title'; readonly text: string }
  | { readonly is: 'section'; readonly id: keyof ReportWords['section']; readonly text: string }
  | { readonly is: 'facts'; readonly facts: readonly (readonly [label: string, value: string])[] }
  | { readonly is: 'text'; readonly text: string; readonly strong?: true }
  | { readonly is: 'list'; readonly items: readonly string[]; readonly numbered?: true }
  | { readonly is: 'table'; readonly head: readonly Cell[]; readonly rows: readonly (readonly Cell[])[] }
  | { readonly is: 'command'; readonly text: string }
  /** A drawing beside which the same stands in words. */
  | { readonly is: 'chart'; readonly rankings: readonly Ranking[] }
  | { readonly is: 'wiring' }

export interface PageMatter {
  readonly report: Report
  readonly log: string
  readonly language: Language
  readonly words: ReportWords
  readonly logWords: LogWords
  readonly scene: Scene
  /** For a customer: result, what was seen, repair and proof. */
  readonly short?: boolean
}
