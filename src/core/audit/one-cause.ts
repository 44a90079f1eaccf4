/** Findings with one cause: where the graver or more exact one is told, its remedy cures the other too. */
import type { Finding } from './finding.ts'

/** What is told, and what then goes without saying where it is about the same header or plug. */
const SAYS_IT: readonly (readonly [told: string, covered: string])[] = [
  ['cpu-header-no-tach', 'tach-none'],
  ['cpu-header-no-tach', 'tach-missing'],
  ['tach-way-empty', 'tach-missing'],
  ['sata-plug-over-current', 'supply-lead-over-current'],
  ['peripheral-plug-over-current', 'supply-lead-over-current'],
]

const same = (a: Finding, b: Finding): boolean => a.facts.at === b.facts.at && a.facts.rail === b.facts.rail

/** The findings without those that another one about the same place stands for. */
export const oncePerCause = (found: readonly Finding[]): Finding[] =>
  found.filter(
    (other) =>
      !SAYS_IT.some(
        ([rule, covered]) =>
          covered === other.rule && found.some((told) => told.rule === rule && same(told, other)),
      ),
  )
