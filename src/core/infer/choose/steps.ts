/**
 * Opening a state: which checks and repairs are worth following from it, each with its first two values. In a small
 * problem these are all that can matter. In a large one only a few are looked at below the first step: the checks that
 * split the belief most a minute and the repairs that cure most a minute.
 */
import { type Bounds, repairMinutesFrom } from './bounds.ts'
import type { Guess } from './guess.ts'
import type { Reduced } from './reduce.ts'
import type { Action, State, States } from './states.ts'

/** How many steps of each sort are followed from a state. */
export interface Width {
  readonly checks: number
  readonly repairs: number
}

export interface Opener {
  /**
   * Fills the actions of a state and settles its values; returns how many leaf values that took.
   * What cannot be best is left out, but with `all`, for the first step, where the others are reported too.
   */
  open(state: State, width: Width, all: boolean): number
  /** Fills where an action of the state leads to. */
  unfold(state: State, action: Action): void
}

/** Differences in minutes below this are rounding. */
export const ROUNDING = 1e-9
/** Steps that take less count as taking this, in minutes, where a rate is wanted. */
const FREE = 0.05
/** Outcomes less likely than this are not followed. */
const NEVER = 1e-12

export function openerFor(t: Reduced, bounds: Bounds, guessed: Guess, states: States): Opener {
  const { n, rows, rowStart, fixedStart, fixed } = t
  const checkCount = t.checkOf.length
  const repairCount = t.repairOf.length
  const scratch = new Float64Array(n)
  const score = new Float64Array(Math.max(checkCount, repairCount))
  const mayErr = Uint8Array.from(t.checkOf, (_, c) => {
    for (let at = rowStart[c]! * n; at < rowStart[c + 1]! * n; at++)
      if (rows[at] !== 0 && rows[at] !== 1) return 1
    return 0
  })

  /** The share that the outcome in `row` would leave, in `scratch`; returns its odds. */
  function after(weight: Float64Array, row: number): number {
    let mass = 0
    for (let k = 0; k < n; k++) {
      const x = weight[k]! * rows[row + k]!
      scratch[k] = x
      mass += x
    }
    return mass
  }

  /** The share that repair `r` would leave, in `scratch`; returns its mass. */
  function afterRepair(weight: Float64Array, r: number): number {
    scratch.set(weight)
    for (let f = fixedStart[r]!; f < fixedStart[r + 1]!; f++) scratch[fixed[f]!] = 0
    let mass = 0
    for (let k = 0; k < n; k++) mass += scratch[k]!
    return mass
  }

  function tells(weight: Float64Array, c: number): boolean {
    for (let row = rowStart[c]! * n; row < rowStart[c + 1]! * n; row += n) {
      let seen = -1
      for (let k = 0; k < n; k++) {
        if (weight[k]! === 0) continue
        const x = rows[row + k]!
        if (seen < 0) seen = x
        else if (Math.abs(x - seen) > ROUNDING) return true
      }
    }
    return false
  }

  /** How far asking brings the belief together: the expected sum of squares after it, less that before. */
  function gathers(weight: Float64Array, c: number): number {
    let sum = 0
    for (let k = 0; k < n; k++) sum -= weight[k]! * weight[k]!
    for (let row = rowStart[c]! * n; row < rowStart[c + 1]! * n; row += n) {
      let mass = 0
      let squares = 0
      for (let k = 0; k < n; k++) {
        const x = weight[k]! * rows[row + k]!
        mass += x
        squares += x * x
      }
      if (mass > NEVER) sum += squares / mass
    }
    return sum
  }

  /** The `most` best-scored of the list, in their first order; all of them where there are no more. */
  function best(list: number[], most: number): number[] {
    if (list.length <= most) return list
    return list
      .sort((a, b) => score[b]! - score[a]!)
      .slice(0, most)
      .sort((a, b) => a - b)
  }

  const checkMinutes = (s: State, c: number): number =>
    t.checkMinutes[c]! + (t.checkMode[c] === s.mode ? 0 : t.switchMinutes)

  function checksFrom(s: State, width: Width): number[] {
    const list: number[] = []
    for (let c = 0; c < checkCount; c++) {
      if (((s.asked[c >> 5]! >> (c & 31)) & 1) === 1) continue
      if (!tells(s.weight, c)) continue
      list.push(c)
    }
    if (list.length > width.checks)
      for (const c of list) score[c] = gathers(s.weight, c) / Math.max(checkMinutes(s, c), FREE)
    return best(list, width.checks)
  }

  function repairsFrom(s: State, width: Width): number[] {
    const list: number[] = []
    for (let r = 0; r < repairCount; r++) {
      let cured = 0
      for (let f = fixedStart[r]!; f < fixedStart[r + 1]!; f++) cured += s.weight[fixed[f]!]!
      if (cured === 0) continue
      score[r] = cured / Math.max(repairMinutesFrom(t, r, s.mode), FREE)
      list.push(r)
    }
    return best(list, width.repairs)
  }

  return {
    open(s, width, all) {
      let leaves = 0
      const actions: Action[] = []
      const add = (
        kind: Action['kind'],
        index: number,
        minutes: number,
        least: number,
        most: number,
        guess: number,
      ): void => {
        actions.push({ kind, index, minutes, least, most, guess, children: undefined, odds: undefined })
      }
      for (const c of checksFrom(s, width)) {
        const mode = t.checkMode[c]!
        const minutes = checkMinutes(s, c)
        const least = minutes + bounds.least(s.weight, mode)
        if (!all && least >= s.most - ROUNDING) continue
        let most = minutes
        let guess = minutes
        for (let row = rowStart[c]! * n; row < rowStart[c + 1]! * n; row += n) {
          if (after(s.weight, row) < NEVER) continue
          const leaf = bounds.most(scratch, mode)
          most += leaf
          guess += guessed(scratch, bounds.least(scratch, mode), leaf)
          leaves++
        }
        add('check', c, minutes, least, most, guess)
      }
      for (const r of repairsFrom(s, width)) {
        const minutes = repairMinutesFrom(t, r, s.mode)
        afterRepair(s.weight, r)
        const least = minutes + bounds.least(scratch, 0)
        if (!all && least >= s.most + ROUNDING) continue
        const leaf = bounds.most(scratch, 0)
        add('repair', r, minutes, least, minutes + leaf, minutes + guessed(scratch, least - minutes, leaf))
        leaves++
      }
      s.actions = actions
      settle(s, t.escalateMinutes)
      return leaves
    },
    unfold(s, action) {
      const children: State[] = []
      const odds: number[] = []
      if (action.kind === 'repair') {
        const mass = afterRepair(s.weight, action.index)
        if (mass >= NEVER) {
          children.push(states.reach(scratch, mass, 0, s.asked))
          odds.push(mass)
        }
      } else {
        const c = action.index
        const asked = s.asked.slice()
        if (mayErr[c] === 1) asked[c >> 5] = asked[c >> 5]! | (1 << (c & 31))
        for (let row = rowStart[c]! * n; row < rowStart[c + 1]! * n; row += n) {
          const mass = after(s.weight, row)
          if (mass < NEVER) continue
          children.push(states.reach(scratch, mass, t.checkMode[c]!, asked))
          odds.push(mass)
        }
      }
      action.children = children
      action.odds = odds
    },
  }
}

/** Carries the values of the states it leads to into an action. */
export function carry(action: Action): void {
  const { children, odds } = action
  if (!children || !odds) return
  let least = action.minutes
  let most = action.minutes
  let guess = action.minutes
  for (let i = 0; i < children.length; i++) {
    least += odds[i]! * children[i]!.least
    most += odds[i]! * children[i]!.most
    guess += odds[i]! * children[i]!.guess
  }
  action.least = Math.max(action.least, least)
  action.most = Math.min(action.most, most)
  action.guess = Math.min(action.most, Math.max(action.least, guess))
}

/** Carries the values of its actions, and of handing over, into an opened state. */
export function settle(s: State, escalateMinutes: number): void {
  let least = escalateMinutes
  let most = Math.min(s.most, escalateMinutes)
  let guess = escalateMinutes
  for (const a of s.actions ?? []) {
    least = Math.min(least, a.least)
    most = Math.min(most, a.most)
    guess = Math.min(guess, a.guess)
  }
  s.most = most
  s.least = Math.max(s.least, Math.min(least, most))
  s.guess = Math.min(most, Math.max(s.least, guess))
}
