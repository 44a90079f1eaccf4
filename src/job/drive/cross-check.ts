/**
 * Answers held against the plan, as the flow of the symptom orders it, and the audit's findings that bear on what was
 * seen to be wrong. All looks over a kind that were answered count together.
 */

import type { CrossCheck } from '../../../flows/shared/flow.ts'
import type { Finding } from '../../core/audit/finding.ts'
import type { Observable } from '../../core/bench/observable.ts'
import type { Note } from '../../core/checks/prompt.ts'
import { wantedAfter } from '../../core/infer/planned.ts'
import { against } from './against-plan.ts'
import { evidenceNow, type Job } from './job.ts'
import { partAt, routeOf, upstream } from './upstream.ts'

/** What was seen to be wrong, and what was looked at in the same way and is right. */
function marked(job: Job): { bad: Observable[]; good: Observable[] } {
  const { build } = job.ground
  const looks = evidenceNow(job).flatMap((e) => (e.kind === 'many' ? [e] : []))
  const bad = looks.flatMap((e) =>
    e.marks
      .filter((m) => e.chosen.includes(m.id) && m.value !== wantedAfter(build, m.observe, e.history))
      .map((m) => m.observe),
  )
  const wrong = new Set(bad.map((o) => `${routeOf(o.what)} ${o.at}`))
  const kinds = new Set(bad.map((o) => o.what))
  const seen = new Set<string>()
  const good = looks
    .flatMap((e) => e.marks.map((m) => m.observe))
    .filter((o) => {
      const key = `${routeOf(o.what)} ${o.at}`
      if (!kinds.has(o.what) || wrong.has(key) || seen.has(key)) return false
      seen.add(key)
      return true
    })
  return { bad, good }
}

const MOST_FINDINGS = 4

/** @param checks of another flow than the job's own, where one was opened on the way */
export function crossCheck(
  job: Job,
  checks: readonly CrossCheck[] = job.ground.flow.crossChecks,
): readonly Note[] {
  const { build, known } = job.ground
  const { bad, good } = marked(job)
  const facts = checks.flatMap((check) => against[check](build, bad, good))
  const near = new Set(bad.flatMap((o) => [o.at, ...upstream(build, partAt(build, o.at), o.what)]))
  const findings = known.findings
    .filter((f) => f.severity !== 'untidy' && f.severity !== 'unknown')
    .filter((f) =>
      f.refs.some(
        (ref) =>
          near.has(ref) || near.has(ref.split('/')[1] ?? '') || near.has(`board.${ref.split('/')[1] ?? ''}`),
      ),
    )
    .slice(0, MOST_FINDINGS)
  return [
    ...facts.filter((f) => f !== null).map((f): Note => ({ show: 'note', kind: 'cross-check', facts: f })),
    ...findings.map(findingNote),
  ]
}

/** A finding as something that is told. */
export const findingNote = (f: Finding): Note => ({
  show: 'note',
  kind: 'finding',
  facts: {
    rule: f.rule,
    severity: f.severity,
    refs: f.refs,
    source: f.source,
    ...(f.figure === undefined ? {} : { figure: f.figure }),
    ...(f.limit === undefined ? {} : { limit: f.limit }),
    ...(f.unit === undefined ? {} : { unit: f.unit }),
  },
})
