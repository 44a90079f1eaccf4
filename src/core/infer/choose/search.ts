/**
 * The search behind the next step: an and/or graph of states (belief over classes, checks left, power state), each
 * with a value it costs at least and one it costs at most. The most promising unexplored state is opened, values
 * are carried back, until nothing is left between the two or the budget of nodes is spent. Bounded by nodes, not by
 * time, so the same standing gives the same step on every machine.
 * After AO* and bounded real-time dynamic programming (McMahan, Likhachev & Gordon 2005), on a graph.
 */
import { type Bounds, boundsFor, repairMinutesFrom } from './bounds.ts'
import type { Reduced } from './reduce.ts'

/** A first step with its expected minutes to a verified fix: not less than `least`, not more than `most`. */
export interface Step {
  readonly kind: 'check' | 'repair' | 'escalate'
  /** Index in the reduced problem; 0 for handing over. */
  readonly index: number
  readonly least: number
  readonly most: number
}

export interface Searched {
  readonly steps: readonly Step[]
  /** Values of leaves worked out: the work done. */
  readonly nodes: number
  readonly least: number
  readonly most: number
}

export interface SearchOptions {
  readonly nodes: number
  /** How far to trust the lower value when choosing where to look: 0 never, 1 only it. */
  readonly hope: number
}

const CLOSED = 1e-9
const NEVER = 1e-12

interface Action {
  readonly kind: 0 | 1
  readonly index: number
  readonly minutes: number
  least: number
  most: number
  children: number[] | undefined
  odds: number[] | undefined
}

interface State {
  readonly at: number
  readonly mode: number
  /** Checks used, as two words of 30 bits. */
  readonly usedLow: number
  readonly usedHigh: number
  least: number
  most: number
  actions: Action[] | undefined
}

export function search(t: Reduced, options: SearchOptions): Searched {
  const bounds: Bounds = boundsFor(t)
  const { n, rows, rowStart } = t
  const checkCount = t.checkOf.length
  const repairCount = t.repairOf.length
  let pool = new Float64Array(n * 256)
  let poolUsed = 0
  let nodes = 0
  const states: State[] = []
  const byHash = new Map<number, number[]>()
  const scratch = new Float64Array(n)

  function stateFor(w: Float64Array, mass: number, mode: number, usedLow: number, usedHigh: number): number {
    let h = (mode * 31 + usedLow) ^ Math.imul(usedHigh, 0x9e3779b1)
    for (let k = 0; k < n; k++) {
      w[k] = w[k]! / mass
      h = Math.imul(h ^ Math.round(w[k]! * 1e7), 0x01000193)
    }
    const bucket = byHash.get(h)
    if (bucket) {
      for (const id of bucket) {
        const s = states[id]!
        if (s.mode !== mode || s.usedLow !== usedLow || s.usedHigh !== usedHigh) continue
        let same = true
        for (let k = 0; k < n && same; k++) same = Math.abs(pool[s.at + k]! - w[k]!) < 1e-10
        if (same) return id
      }
    }
    if (poolUsed + n > pool.length) {
      const bigger = new Float64Array(pool.length * 2)
      bigger.set(pool)
      pool = bigger
    }
    pool.set(w, poolUsed)
    const id = states.length
    states.push({
      at: poolUsed,
      mode,
      usedLow,
      usedHigh,
      least: bounds.least(w, 0, mode),
      most: bounds.most(w, 0, mode),
      actions: undefined,
    })
    poolUsed += n
    nodes++
    if (bucket) bucket.push(id)
    else byHash.set(h, [id])
    return id
  }

  const isUsed = (s: State, c: number): boolean =>
    ((c < 30 ? s.usedLow >> c : s.usedHigh >> (c - 30)) & 1) === 1

  function open(s: State): void {
    const actions: Action[] = []
    for (let c = 0; c < checkCount; c++) {
      if (isUsed(s, c)) continue
      const mode = t.checkMode[c]!
      const minutes = t.checkMinutes[c]! + (mode === s.mode ? 0 : t.switchMinutes)
      const first = rowStart[c]! * n
      const end = rowStart[c + 1]! * n
      if (!tellsHere(s.at, first, end)) continue
      const least = minutes + bounds.least(pool, s.at, mode)
      if (least >= s.most - CLOSED) continue
      let most = minutes
      for (let row = first; row < end; row += n) {
        let mass = 0
        for (let k = 0; k < n; k++) {
          const x = pool[s.at + k]! * rows[row + k]!
          scratch[k] = x
          mass += x
        }
        if (mass < NEVER) continue
        most += bounds.most(scratch, 0, mode)
        nodes++
      }
      actions.push({ kind: 0, index: c, minutes, least, most, children: undefined, odds: undefined })
    }
    for (let r = 0; r < repairCount; r++) {
      let cured = 0
      for (let k = 0; k < n; k++) scratch[k] = pool[s.at + k]!
      for (let f = t.fixedStart[r]!; f < t.fixedStart[r + 1]!; f++) {
        cured += scratch[t.fixed[f]!]!
        scratch[t.fixed[f]!] = 0
      }
      if (cured <= NEVER) continue
      const minutes = repairMinutesFrom(t, r, s.mode)
      const least = minutes + bounds.least(scratch, 0, 0)
      if (least >= s.most + CLOSED) continue
      const most = minutes + bounds.most(scratch, 0, 0)
      nodes++
      actions.push({ kind: 1, index: r, minutes, least, most, children: undefined, odds: undefined })
    }
    s.actions = actions
    settle(s)
  }

  function tellsHere(at: number, first: number, end: number): boolean {
    for (let row = first; row < end; row += n) {
      let seen = -1
      for (let k = 0; k < n; k++) {
        if (pool[at + k]! <= NEVER) continue
        const x = rows[row + k]!
        if (seen < 0) seen = x
        else if (Math.abs(x - seen) > CLOSED) return true
      }
    }
    return false
  }

  function settle(s: State): void {
    let least = t.escalateMinutes
    let most = Math.min(s.most, t.escalateMinutes)
    for (const a of s.actions!) {
      if (a.least < least) least = a.least
      if (a.most < most) most = a.most
    }
    s.least = Math.max(s.least, Math.min(least, most))
    s.most = most
  }

  function unfold(s: State, a: Action): void {
    const children: number[] = []
    const odds: number[] = []
    const w = new Float64Array(n)
    if (a.kind === 0) {
      const low = a.index < 30 ? s.usedLow | (1 << a.index) : s.usedLow
      const high = a.index < 30 ? s.usedHigh : s.usedHigh | (1 << (a.index - 30))
      for (let row = rowStart[a.index]! * n; row < rowStart[a.index + 1]! * n; row += n) {
        let mass = 0
        for (let k = 0; k < n; k++) {
          w[k] = pool[s.at + k]! * rows[row + k]!
          mass += w[k]!
        }
        if (mass < NEVER) continue
        children.push(stateFor(w, mass, t.checkMode[a.index]!, low, high))
        odds.push(mass)
      }
    } else {
      for (let k = 0; k < n; k++) w[k] = pool[s.at + k]!
      for (let f = t.fixedStart[a.index]!; f < t.fixedStart[a.index + 1]!; f++) w[t.fixed[f]!] = 0
      let mass = 0
      for (let k = 0; k < n; k++) mass += w[k]!
      if (mass >= NEVER) {
        children.push(stateFor(w, mass, 0, s.usedLow, s.usedHigh))
        odds.push(mass)
      }
    }
    a.children = children
    a.odds = odds
  }

  function carry(a: Action): void {
    let least = a.minutes
    let most = a.minutes
    const children = a.children!
    for (let i = 0; i < children.length; i++) {
      const child = states[children[i]!]!
      least += a.odds![i]! * child.least
      most += a.odds![i]! * child.most
    }
    a.least = Math.max(a.least, least)
    a.most = Math.min(a.most, most)
  }

  function promising(s: State): Action | undefined {
    let best: Action | undefined
    let bestValue = Number.POSITIVE_INFINITY
    for (const hope of [options.hope, 1]) {
      for (const a of s.actions!) {
        if (a.least >= s.most - CLOSED) continue
        const value = hope * a.least + (1 - hope) * a.most
        if (value < bestValue - CLOSED) {
          best = a
          bestValue = value
        }
      }
      if (best && best.most - best.least > CLOSED) return best
      best = undefined
      bestValue = Number.POSITIVE_INFINITY
    }
    return undefined
  }

  scratch.set(t.weight)
  const root = states[stateFor(scratch, 1, t.mode, 0, 0)]!
  const pathStates: State[] = []
  const pathActions: Action[] = []
  while (nodes < options.nodes && root.most - root.least > CLOSED) {
    pathStates.length = 0
    pathActions.length = 0
    let s = root
    for (;;) {
      if (!s.actions) {
        open(s)
        break
      }
      const a = promising(s)
      if (!a) {
        s.least = s.most
        break
      }
      if (!a.children) unfold(s, a)
      carry(a)
      pathStates.push(s)
      pathActions.push(a)
      let widest: State | undefined
      let widestGap = 0
      for (let i = 0; i < a.children!.length; i++) {
        const child = states[a.children![i]!]!
        const gap = a.odds![i]! * (child.most - child.least)
        if (gap > widestGap) {
          widest = child
          widestGap = gap
        }
      }
      if (!widest || widestGap <= CLOSED) break
      s = widest
    }
    for (let i = pathStates.length - 1; i >= 0; i--) {
      carry(pathActions[i]!)
      settle(pathStates[i]!)
    }
  }
  if (!root.actions) open(root)
  const steps: Step[] = root.actions!.map((a) => ({
    kind: a.kind === 0 ? ('check' as const) : ('repair' as const),
    index: a.index,
    least: a.least,
    most: a.most,
  }))
  steps.push({ kind: 'escalate', index: 0, least: t.escalateMinutes, most: t.escalateMinutes })
  return { steps, nodes, least: root.least, most: root.most }
}
