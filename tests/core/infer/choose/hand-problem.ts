/** Small problems written down by hand, in few words: suspects by their shares, rows and cures by suspect. */
import type { Mode, Problem, Standing } from '../../../../src/core/infer/problem.ts'

export interface HandProblem {
  readonly priors: readonly number[]
  /** `rows[suspect]` = the chance of each outcome. */
  readonly checks?: readonly {
    minutes: number
    mode?: Mode
    rows: readonly (readonly number[])[]
    id?: string
  }[]
  /** `cures` = indices of suspects. */
  readonly repairs?: readonly { minutes: number; mode?: Mode; cures: readonly number[]; id?: string }[]
  readonly switchMinutes?: number
  readonly escalateMinutes?: number
  readonly verifyMode?: Mode
}

export function handProblem(written: HandProblem): Problem {
  return {
    suspects: written.priors.map((prior, s) => ({ id: `h${s}`, prior })),
    checks: (written.checks ?? []).map((c, i) => ({
      id: c.id ?? `c${i}`,
      minutes: c.minutes,
      mode: c.mode ?? 'on',
      outcomes: (c.rows[0] ?? []).map((_, o) => `o${o}`),
      table: c.rows.map((row) => Float64Array.from(row)),
    })),
    repairs: (written.repairs ?? []).map((r, i) => ({
      id: r.id ?? `r${i}`,
      minutes: r.minutes,
      mode: r.mode ?? 'on',
      fixes: Uint8Array.from(written.priors, (_, s) => (r.cures.includes(s) ? 1 : 0)),
    })),
    switchMinutes: written.switchMinutes ?? 2,
    escalateMinutes: written.escalateMinutes ?? 1000,
    verifyMode: written.verifyMode ?? 'on',
  }
}

/** At the start of the job, unless told otherwise. */
export function startOf(problem: Problem, change: Partial<Standing> = {}): Standing {
  return {
    belief: Float64Array.from(problem.suspects, (s) => s.prior),
    mode: 'on',
    checksLeft: [...problem.checks.keys()],
    repairsLeft: [...problem.repairs.keys()],
    ...change,
  }
}
