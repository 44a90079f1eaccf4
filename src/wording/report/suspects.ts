/** Suspects in a report: by name, the likeliest, and how they changed from step to step. */
import type { Suspect } from '../../core/checks/prompt.ts'
import { NONE_OF_THESE } from '../../core/faults/fault.ts'
import type { Language, Scene } from '../language.ts'
import type { Block, Cell, PageMatter } from './block.ts'
import { upper } from './steps.ts'

/** Suspects under this are counted together. */
export const WORTH_NAMING = 0.02
const NAMED = 5

export const isNone = (suspect: Suspect): boolean =>
  suspect.faults.length === 1 &&
  suspect.faults[0]?.at === NONE_OF_THESE.at &&
  suspect.faults[0].mode === NONE_OF_THESE.mode

export const names = (suspect: Pick<Suspect, 'faults'>, language: Language, scene: Scene): string =>
  upper(language.list(suspect.faults.map((fault) => language.fault(fault, scene).name)))

/** The likeliest by name, and what the others have together. */
export function ranked(suspects: readonly Suspect[]): { named: readonly Suspect[]; rest: number } {
  const named = suspects.filter((s) => s.p >= WORTH_NAMING).slice(0, NAMED)
  const rest = suspects.reduce((sum, s) => sum + s.p, 0) - named.reduce((sum, s) => sum + s.p, 0)
  return { named, rest: rest < 0.005 ? 0 : rest }
}

/** One row a ranking. */
export function suspectsOverTime({ report, language, words, scene }: PageMatter): Block[] {
  // While a first boot is as expected nothing is suspected.
  const rankings = report.rankings.filter(({ suspects }) => suspects.length > 0)
  if (rankings.length === 0) return []
  const rows = rankings.map(({ step, minutes, suspects }): Cell[] => [
    { text: step === 0 ? words.start : String(step), right: true },
    { text: words.figure(minutes), right: true },
    {
      text: ranked(suspects)
        .named.slice(0, 3)
        .map((s) => `${language.labels.percent(s.p)} ${names(s, language, scene)}`)
        .join('; '),
    },
  ])
  const head: Cell[] = [
    { text: words.table.after, right: true },
    { text: words.table.minutes, right: true },
    { text: words.table.likeliest },
  ]
  return [
    { is: 'chart', rankings: report.rankings },
    { is: 'table', head, rows },
    { is: 'text', text: words.judgement },
  ]
}
