/**
 * The search behind the next step: an and/or graph of states, each with a value it costs at least and one it costs at
 * most. Again and again the most promising way is followed to a state not yet opened, that is opened, and the values are
 * carried back, until nothing is left between the two at the root or the budget is spent. Bounded by a count of leaf
 * values, not by time, so the same standing gives the same step on every machine.
 * After AO* and bounded real-time dynamic programming (McMahan, Likhachev & Gordon 2005), on a graph.
 */
import type { InParts } from '../parts.ts'
import { boundsFor } from './bounds.ts'
import type { Guess } from './guess.ts'
import type { Reduced } from './reduce.ts'
import { type Action, type State, statesOf } from './states.ts'
import { carry, openerFor, ROUNDING, settle, type Width } from './steps.ts'

/** A first step with its expected minutes to a verified fix: not less than `least`, not more than `most`. */
export interface Step {
  readonly kind: 'check' | 'repair' | 'escalate'
  /** Index in the reduced problem; 0 for handing over. */
  readonly index: number
  readonly least: number
  readonly most: number
  readonly guess: number
}

export interface Searched {
  readonly steps: readonly Step[]
  /** Leaf values worked out: the work done. */
  readonly nodes: number
  readonly least: number
  readonly most: number
}

export interface SearchOptions {
  readonly nodes: number
  /** How far to trust the lower value when choosing where to look: 0 not at all, 1 only it. */
  readonly hope: number
  /** What an unopened state probably costs. */
  readonly guess: Guess
  /** Steps followed from a state below the root. */
  readonly width: Width
}

/** Turns of the search in one part. */
const TURNS_IN_A_PART = 40

const ALL: Width = { checks: Number.POSITIVE_INFINITY, repairs: Number.POSITIVE_INFINITY }

/** In parts of about the same length. */
export function* searching(t: Reduced, options: SearchOptions): InParts<Searched> {
  const bounds = boundsFor(t)
  const states = statesOf(t, bounds, options.guess)
  const opener = openerFor(t, bounds, options.guess, states)
  const root = states.reach(t.weight, 1, t.mode, new Int32Array(Math.ceil(t.checkOf.length / 32)))
  let leaves = opener.open(root, ALL, true)
  const way: { state: State; action: Action }[] = []
  let turns = 0
  while (
    leaves + states.count() + turns < options.nodes &&
    root.most - root.least > ROUNDING &&
    !isProven(root, t.escalateMinutes)
  ) {
    turns++
    if (turns % TURNS_IN_A_PART === 0) yield
    way.length = 0
    let state: State | undefined = root
    while (state) {
      if (!state.actions) {
        leaves += opener.open(state, options.width, false)
        break
      }
      const action = promising(state, options.hope)
      if (!action) {
        state.least = state.most
        state.guess = state.most
        break
      }
      if (!action.children) opener.unfold(state, action)
      way.push({ state, action })
      state = widest(action)
    }
    for (let i = way.length - 1; i >= 0; i--) {
      carry(way[i]!.action)
      settle(way[i]!.state, t.escalateMinutes)
    }
  }
  const steps: Step[] = root.actions!.map(({ kind, index, least, most, guess }) => ({
    kind,
    index,
    least,
    most,
    guess,
  }))
  steps.push({
    kind: 'escalate',
    index: 0,
    least: t.escalateMinutes,
    most: t.escalateMinutes,
    guess: t.escalateMinutes,
  })
  return { steps, nodes: leaves + states.count(), least: root.least, most: root.most }
}

/** Minutes within which the value of a step is told. */
const TOLD_WITHIN = 1

/** One action costs no more at most than everything else costs at least: more search would change no choice. */
function isProven({ actions = [] }: State, escalateMinutes: number): boolean {
  const [first, ...others] = actions
  if (!first) return true
  const best = others.reduce((b, a) => (a.most < b.most ? a : b), first)
  if (best.most - best.least > TOLD_WITHIN || best.most > escalateMinutes - ROUNDING) return false
  return actions.every((a) => a === best || a.least > best.most + ROUNDING)
}

/** The action to look into: the best by a value between its two, or by the lower where that one holds no surprise. */
function promising(s: State, hope: number): Action | undefined {
  for (const trust of [hope, 1]) {
    let best: Action | undefined
    let bestValue = Number.POSITIVE_INFINITY
    for (const a of s.actions!) {
      const value = trust * a.least + (1 - trust) * a.guess
      if (value < bestValue) {
        best = a
        bestValue = value
      }
    }
    if (best && best.most - best.least > ROUNDING) return best
  }
  return undefined
}

/** The state behind an action that leaves most open, by its odds; none where nothing is open. */
function widest(a: Action): State | undefined {
  let best: State | undefined
  let bestGap = 0
  for (let i = 0; i < a.children!.length; i++) {
    const child = a.children![i]!
    const gap = a.odds![i]! * (child.most - child.least)
    if (gap > bestGap) {
      best = child
      bestGap = gap
    }
  }
  return best
}
