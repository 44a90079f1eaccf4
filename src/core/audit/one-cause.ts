/** Findings with one cause: where the graver or more exact one is told, its remedy cures the other too. */
import type { Finding } from './finding.ts'

/** What is told, and what then goes without saying where it is about the same header or plug. */
const SAYS_IT: readonly (readonly [told: string, covered: string])[] = [
  ['cpu-header-no-tach', 'tach-none'],
  ['cpu-header-no-tach', 'tach-missing'],
  ['tach-way-empty', 'tach-missing'],
  ['sata-plug-over-current', 'supply-lead-over-current'],
  ['peripheral-plug-over-current', 'supply-lead-over-current'],
  ['usb-bus-hub-over-budget', 'usb-header-over-current'],
]

/** About the same place, where the other allows no less: what it asks for is done by the same remedy. */
const covers = (told: Finding, other: Finding): boolean =>
  told.facts.at === other.facts.at &&
  told.facts.rail === other.facts.rail &&
  (told.limit ?? 0) <= (other.limit ?? 0)

/** The findings without those that another one about the same place stands for. */
export const oncePerCause = (found: readonly Finding[]): Finding[] =>
  found.filter(
    (other) =>
      !SAYS_IT.some(
        ([rule, covered]) =>
          covered === other.rule && found.some((told) => told.rule === rule && covers(told, other)),
      ),
  )
