/**
 * Troubleshooting problems as they stand in a file or come in on a line: the schema, its sense (names that refer to
 * something, shares that sum to 1), and the numbers the engine works on. Ids are unique over checks and repairs.
 */
import * as z from 'zod/mini'
import type { Mode, Problem } from '../../core/infer/problem.ts'

const mode = z.enum(['on', 'off'])
const id = z.string().check(z.minLength(1))
const minutes = z.number().check(z.gte(0))
const share = z.number().check(z.gte(0), z.lte(1))

export const problemSchema = z.object({
  id: z.optional(z.string()),
  hypotheses: z.array(z.object({ id, prior: share })).check(z.minLength(1)),
  checks: z.array(z.object({ id, cost: minutes, mode, table: z.record(id, z.record(id, share)) })),
  repairs: z.array(z.object({ id, cost: minutes, mode, fixes: z.array(id) })),
  switch_cost: minutes,
  escalate_cost: minutes,
  start_mode: z._default(mode, 'on'),
  verify_mode: z._default(mode, 'on'),
})

export type WrittenProblem = z.infer<typeof problemSchema>

/** Shares written with six digits may miss 1 by their rounding. */
const ROUNDING = 1e-4

export interface ReadProblem {
  readonly problem: Problem
  readonly startMode: Mode
}

/** What is wrong with a written problem beyond its form, each as path and text; empty when it makes sense. */
export function problemFaults(written: WrittenProblem): { path: string; expected: string }[] {
  const faults: { path: string; expected: string }[] = []
  const suspects = written.hypotheses.map((h) => h.id)
  const known = new Set(suspects)
  if (known.size < suspects.length) faults.push({ path: 'hypotheses', expected: 'every id once' })
  const actions = [...written.checks, ...written.repairs].map((a) => a.id)
  if (new Set([...actions, 'escalate']).size < actions.length + 1)
    faults.push({ path: 'checks, repairs', expected: 'every id once over both, and none called "escalate"' })
  const prior = written.hypotheses.reduce((sum, h) => sum + h.prior, 0)
  if (Math.abs(prior - 1) > ROUNDING)
    faults.push({ path: 'hypotheses', expected: `priors that sum to 1, not ${prior}` })
  for (const c of written.checks) {
    for (const h of suspects) {
      const row = c.table[h]
      const sum = row === undefined ? 0 : Object.values(row).reduce((a, b) => a + b, 0)
      if (Math.abs(sum - 1) > ROUNDING)
        faults.push({
          path: `checks.${c.id}.table.${h}`,
          expected: `probabilities that sum to 1, not ${sum}`,
        })
    }
    for (const h of Object.keys(c.table))
      if (!known.has(h))
        faults.push({ path: `checks.${c.id}.table.${h}`, expected: 'the id of a hypothesis' })
  }
  for (const r of written.repairs)
    for (const h of r.fixes)
      if (!known.has(h))
        faults.push({ path: `repairs.${r.id}.fixes.${h}`, expected: 'the id of a hypothesis' })
  return faults
}

/** The numbers of a written problem that has no faults. Outcomes are in the order of their first mention. */
export function readProblem(written: WrittenProblem): ReadProblem {
  const suspects = written.hypotheses
  const checks = written.checks.map((c) => {
    const outcomes = [...new Set(suspects.flatMap((h) => Object.keys(c.table[h.id] ?? {})))]
    return {
      id: c.id,
      minutes: c.cost,
      mode: c.mode,
      outcomes,
      table: suspects.map((h) => Float64Array.from(outcomes, (o) => c.table[h.id]?.[o] ?? 0)),
    }
  })
  const repairs = written.repairs.map((r) => ({
    id: r.id,
    minutes: r.cost,
    mode: r.mode,
    fixes: Uint8Array.from(suspects, (h) => (r.fixes.includes(h.id) ? 1 : 0)),
  }))
  return {
    problem: {
      suspects: suspects.map((h) => ({ id: h.id, prior: h.prior })),
      checks,
      repairs,
      switchMinutes: written.switch_cost,
      escalateMinutes: written.escalate_cost,
      verifyMode: written.verify_mode,
    },
    startMode: written.start_mode,
  }
}
