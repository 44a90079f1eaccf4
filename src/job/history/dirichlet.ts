/**
 * How much oftener something turned up than was expected, believed no farther than the counts carry. Shares under a
 * Dirichlet prior around the expected ones: worth A jobs, with n of N jobs, a share q is (A q + n) / (A + N) in the jobs to
 * come. How far a bench is from what is expected of all, A, nobody knows beforehand: several are held, each weighed
 * by how likely it makes the counts (the Dirichlet-multinomial's evidence). So a bench that is like all others stays
 * as expected, and one that is not is soon believed. (Any textbook on Bayesian statistics; Minka, Estimating a Dirichlet
 * distribution, has both formulas; from memory.)
 */

export interface Tally {
  readonly counted: number
  readonly expected: number
}

/** In jobs: from a bench of its own kind to one as expected. */
const STRENGTHS = [10, 30, 100, 300, 1000]

/** ln Γ(x) for x > 0: Stirling's series above 8, and Γ(x) = Γ(x + 1) / x below. Good to 1e-9. */
export function lnGamma(x: number): number {
  if (x < 8) return lnGamma(x + 1) - Math.log(x)
  const series = 1 / (12 * x) - 1 / (360 * x ** 3) + 1 / (1260 * x ** 5)
  return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + series
}

/** @returns by name the share to come over the expected one; what was not expected at all is left out. */
export function factorsOf(
  tallies: ReadonlyMap<string, Tally>,
  strengths: readonly number[] = STRENGTHS,
): ReadonlyMap<string, number> {
  const rows = [...tallies].filter(([, { expected }]) => expected > 0).sort(([a], [b]) => (a < b ? -1 : 1))
  const sum = (of: (tally: Tally) => number): number => rows.reduce((all, [, tally]) => all + of(tally), 0)
  const [jobs, expected] = [sum((t) => t.counted), sum((t) => t.expected)]
  const shares = rows.map(([name, t]) => ({ name, q: t.expected / expected, n: t.counted }))
  const evidence = strengths.map((a) =>
    shares.reduce(
      (all, { q, n }) => all + lnGamma(a * q + n) - lnGamma(a * q),
      lnGamma(a) - lnGamma(a + jobs),
    ),
  )
  const most = Math.max(...evidence)
  const weights = evidence.map((e) => Math.exp(e - most))
  const total = weights.reduce((all, w) => all + w, 0)
  const toCome = (q: number, n: number): number =>
    strengths.reduce((all, a, i) => all + ((weights[i] ?? 0) / total) * ((a * q + n) / (a + jobs)), 0)
  return new Map(shares.map(({ name, q, n }) => [name, toCome(q, n) / q]))
}
