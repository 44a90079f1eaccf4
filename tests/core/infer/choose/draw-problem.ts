/**
 * Random troubleshooting problems from a seed, small enough to be solved exactly: `plain` as drawn, `deep` with more
 * suspects and dearer repairs, `trap` with a cluster of cheap checks behind the power switch. No chance but the seed.
 */
import type { Mode, Problem } from '../../../../src/core/infer/problem.ts'

export type Shape = 'plain' | 'deep' | 'trap'

export interface DrawnProblem {
  readonly id: string
  readonly shape: Shape
  readonly noiseFree: boolean
  readonly problem: Problem
}

/** Uniform numbers in [0, 1) from a 32-bit seed (the mulberry32 mixing step). */
export function draws(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let x = Math.imul(state ^ (state >>> 15), state | 1)
    x ^= x + Math.imul(x ^ (x >>> 7), x | 61)
    return ((x ^ (x >>> 14)) >>> 0) / 4294967296
  }
}

export function drawProblem(seed: number, shape: Shape, noiseFree: boolean): DrawnProblem {
  const chance = draws(seed)
  const whole = (low: number, high: number): number => low + Math.floor(chance() * (high - low + 1))
  /** Between the two, evenly on a log scale, to a tenth of a minute. */
  const minutes = (low: number, high: number): number =>
    Math.round(low * Math.exp(chance() * Math.log(high / low)) * 10) / 10
  const pick = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!
  const n = noiseFree ? (shape === 'plain' ? whole(6, 12) : whole(10, 14)) : whole(6, 9)
  const raw = Array.from({ length: n }, () => (-Math.log(1 - chance())) ** 1.3 + 0.02)
  const total = raw.reduce((a, b) => a + b, 0)
  const suspects = raw.map((x, s) => ({ id: `h${s + 1}`, prior: x / total }))

  const checkCount = noiseFree ? whole(5, 12) : whole(5, 8)
  const checks = Array.from({ length: checkCount }, (_, c) => drawCheck(c))
  const repairs = drawRepairs()
  return {
    id: `${noiseFree ? 'exact' : 'noisy'}-${shape}-${seed}`,
    shape,
    noiseFree,
    problem: {
      suspects,
      checks,
      repairs,
      switchMinutes: 2,
      escalateMinutes: pick([30, 45, 60]),
      verifyMode: 'on',
    },
  }

  function drawCheck(c: number): Problem['checks'][number] {
    const cheapBehindSwitch = shape === 'trap' && c >= 2 && c <= 4
    const kind = cheapBehindSwitch ? pick(['one', 'any']) : pick(['half', 'half', 'one', 'any', 'three'])
    const mode: Mode =
      shape === 'trap' && c < 5
        ? c < 2
          ? 'on'
          : 'off'
        : kind === 'one' || kind === 'three'
          ? 'off'
          : pick(['on', 'off'])
    const cut = whole(1, n - 1)
    const only = whole(0, n - 1)
    const answer = suspects.map((_, s) => {
      if (kind === 'half') return s < cut ? 0 : 1
      if (kind === 'one') return s === only ? 1 : 0
      return kind === 'any' ? whole(0, 1) : whole(0, 2)
    })
    const width = kind === 'three' ? 3 : 2
    const error = noiseFree ? 0 : pick([0.02, 0.02, 0.05, 0.1, 0.15])
    const unsure = !noiseFree && chance() < 0.3 ? 0.08 : 0
    const outcomes = ['a', 'b', 'c'].slice(0, width)
    if (unsure > 0) outcomes.push('unsure')
    return {
      id: `c${c + 1}`,
      minutes: cheapBehindSwitch ? minutes(0.2, 0.7) : kind === 'three' ? minutes(2, 8) : minutes(0.2, 6),
      mode,
      outcomes,
      table: answer.map((a) => {
        const row = new Float64Array(outcomes.length)
        for (let o = 0; o < width; o++) row[o] = (1 - unsure) * (o === a ? 1 - error : error / (width - 1))
        if (unsure > 0) row[width] = unsure
        return row
      }),
    }
  }

  function drawRepairs(): Problem['repairs'] {
    const list: { minutes: number; mode: Mode; cures: number[] }[] = []
    for (let s = 0; s < n; s++) {
      if (chance() < 0.08) continue
      const last = list.at(-1)
      if (last && chance() < 0.15) last.cures.push(s)
      else
        list.push({
          minutes: shape === 'deep' ? minutes(2.5, 10) : minutes(0.4, 9),
          mode: chance() < (shape === 'deep' ? 0.8 : 0.5) ? 'off' : 'on',
          cures: [s],
        })
    }
    if (chance() < 0.3) list.push({ minutes: minutes(4, 10), mode: 'off', cures: [0, 1, n - 1] })
    return list.map((r, i) => ({
      id: `r${i + 1}`,
      minutes: r.minutes,
      mode: r.mode,
      fixes: Uint8Array.from(suspects, (_, s) => (r.cures.includes(s) ? 1 : 0)),
    }))
  }
}

/**
 * A problem of the size of a real build: places in a tree, several faults at each, looks that see whole branches,
 * measurements at one place, swaps, and repairs from reseating to replacing. Too large to be solved exactly.
 */
export function drawBuild(seed: number, places: number, faultsEach: number): Problem {
  const chance = draws(seed)
  const whole = (low: number, high: number): number => low + Math.floor(chance() * (high - low + 1))
  const minutes = (low: number, high: number): number =>
    Math.round(low * Math.exp(chance() * Math.log(high / low)) * 10) / 10
  const parent = Array.from({ length: places }, (_, p) => (p === 0 ? -1 : whole(Math.max(0, p - 12), p - 1)))
  const under = (place: number, branch: number): boolean => {
    for (let p = place; p >= 0; p = parent[p]!) if (p === branch) return true
    return false
  }
  const faults = Array.from({ length: places * faultsEach }, (_, i) => ({
    place: Math.floor(i / faultsEach),
    sort: i % faultsEach,
  }))
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
  const raw = faults.map(() => Math.exp(1.5 * normal()))
  const none = 0.03 * raw.reduce((a, b) => a + b, 0)
  const total = none + raw.reduce((a, b) => a + b, 0)
  const suspects = [...raw, none].map((x, s) => ({ id: `h${s}`, prior: x / total }))
  const n = suspects.length
  const checks: Problem['checks'][number][] = []
  const addCheck = (
    time: number,
    mode: Mode,
    width: number,
    error: number,
    answer: (f: { place: number; sort: number }) => number,
  ): void => {
    checks.push({
      id: `c${checks.length}`,
      minutes: time,
      mode,
      outcomes: Array.from({ length: width }, (_, o) => `o${o}`),
      table: suspects.map((_, s) => {
        const row = new Float64Array(width).fill(error / (width - 1))
        if (s === n - 1) return row.fill(1 / width)
        row[answer(faults[s]!)] = 1 - error
        return row
      }),
    })
  }
  const repairs: Problem['repairs'][number][] = []
  const addRepair = (
    time: number,
    mode: Mode,
    cures: (f: { place: number; sort: number }) => boolean,
  ): void => {
    const fixes = Uint8Array.from(suspects, (_, s) => (s < n - 1 && cures(faults[s]!) ? 1 : 0))
    if (fixes.some((x) => x === 1)) repairs.push({ id: `r${repairs.length}`, minutes: time, mode, fixes })
  }
  for (let p = 0; p < places; p++) {
    const shownBy = whole(1, 2 ** faultsEach - 1)
    const measuredBy = whole(1, 2 ** faultsEach - 1)
    addCheck(minutes(0.3, 1), 'on', 2, 0.05, (f) =>
      under(f.place, p) && (shownBy >> f.sort) % 2 === 1 ? 1 : 0,
    )
    addCheck(minutes(1, 4), chance() < 0.5 ? 'on' : 'off', 2, 0.02, (f) =>
      f.place === p && (measuredBy >> f.sort) % 2 === 1 ? 1 : 0,
    )
    addCheck(minutes(2, 6), 'off', 3, 0.03, (f) => (under(f.place, p) ? (f.sort % 2 === 0 ? 1 : 2) : 0))
    const seats = Math.ceil(faultsEach / 3)
    addRepair(minutes(0.7, 2), 'off', (f) => f.place === p && f.sort < seats)
    addRepair(minutes(4, 15), 'off', (f) => f.place === p && f.sort < 2 * seats)
    for (let k = 2 * seats; k < faultsEach; k++)
      addRepair(minutes(0.5, 3), 'on', (f) => f.place === p && f.sort === k)
  }
  return { suspects, checks, repairs, switchMinutes: 2, escalateMinutes: 60, verifyMode: 'on' }
}
