/**
 * Which rows of a drawing the likely cause is about: where it sits, and the way there from its source. The rows are
 * found as those of a finding with the same reference would be.
 */
import type { Finding } from '../../core/audit/finding.ts'
import type { Suspect } from '../../core/checks/prompt.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { rowsOf } from './rows.ts'

/** Rows by their place in the drawing: `here` is where the cause sits, `path` the way there, itself included. */
export interface Marked {
  readonly here: ReadonlySet<number>
  readonly path: ReadonlySet<number>
}

export const UNMARKED: Marked = { here: new Set(), path: new Set() }

const SETTINGS = /^(headers|channels|ports)\/([^/]+)\//

/** A pin is drawn as its port, a setting as what it sets; `swapped-with-F2.motor` and `in-H1.3` name a second place. */
function refsOf(at: string, mode: string): string[] {
  const setting = SETTINGS.exec(at)?.[2]
  const other = /^(?:swapped-with|in)-(.+\..+)$/.exec(mode)?.[1]
  const own =
    setting === undefined
      ? [at.split('/')[0] ?? at]
      : [at, setting, setting.includes('.') ? setting : `board.${setting}`]
  return other === undefined ? own : [...own, other]
}

const probe = (ref: string): Finding => ({
  rule: '',
  severity: 'unknown',
  at: [],
  refs: [ref],
  source: '',
  facts: {},
  assumed: [],
})

export function markedRows(plan: Plan, suspect: Suspect | undefined): Marked {
  if (suspect === undefined) return UNMARKED
  const all = [suspect, ...suspect.alike].flatMap(({ faults }) => faults)
  const refs = [...new Set(all.flatMap(({ at, mode }) => refsOf(at, mode)))]
  const rows = rowsOf(plan, refs.map(probe))
  const here = new Set(rows.flatMap((row, i) => (row.findings.length > 0 ? [i] : [])))
  const path = new Set(here)
  for (const at of here) {
    let depth = rows[at]?.depth ?? 0
    for (let i = at - 1; i >= 0 && depth > 0; i--) {
      if ((rows[i]?.depth ?? 0) >= depth) continue
      path.add(i)
      depth = rows[i]?.depth ?? 0
    }
  }
  return { here, path }
}
