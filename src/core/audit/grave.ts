/** Findings that nobody may miss before a job begins: what would damage parts, and what cannot work as planned. */
import type { Finding, Severity } from './finding.ts'

const GRAVE: ReadonlySet<Severity> = new Set(['will-damage', 'will-not-work'])

export const graveFindings = (findings: readonly Finding[]): Finding[] =>
  findings.filter((f) => GRAVE.has(f.severity))
