/**
 * The states of a search, each once: the belief over classes, the power state and the checks that may not be asked
 * again. Two ways to the same state (answers in another order, say) meet in one record, so what is learnt on one
 * way counts on the other.
 */
import type { Bounds } from './bounds.ts'
import type { Guess } from './guess.ts'
import type { Reduced } from './reduce.ts'

/** A step that may be taken in a state, with what it costs from there on: at least, at most, probably, in minutes. */
export interface Action {
  readonly kind: 'check' | 'repair'
  /** Index in the reduced problem. */
  readonly index: number
  /** Of the step itself, switching included. */
  readonly minutes: number
  least: number
  most: number
  guess: number
  /** States it leads to while the job is not over, and the odds of each; filled when first followed. */
  children: State[] | undefined
  odds: number[] | undefined
}

export interface State {
  /** By class, summing to 1. */
  readonly weight: Float64Array
  readonly mode: number
  /** Bit `c % 32` of word `c / 32`: check `c` was asked. Only of checks that may err; others then tell nothing. */
  readonly asked: Int32Array
  least: number
  most: number
  guess: number
  /** Undefined until the state is opened. */
  actions: Action[] | undefined
}

export interface States {
  /** The state with this belief; `weight` (any positive scale, `mass` its sum) and `asked` are copied if new. */
  reach(weight: Float64Array, mass: number, mode: number, asked: Int32Array): State
  /** How many there are. */
  count(): number
}

/** A class with a smaller share is dropped: by more than `SAME`, so that no step leads back to where it came from. */
const NOTHING = 1e-10
/** Beliefs closer than this in every class are the same belief. */
const SAME = 1e-11

export function statesOf(t: Reduced, bounds: Bounds, guess: Guess): States {
  const byHash = new Map<number, State[]>()
  const share = new Float64Array(t.n)
  let count = 0

  return {
    reach(weight, mass, mode, asked) {
      let hash = mode
      for (let i = 0; i < asked.length; i++) hash = Math.imul(hash ^ asked[i]!, 0x01000193)
      for (let k = 0; k < t.n; k++) {
        const x = weight[k]! / mass
        share[k] = x < NOTHING ? 0 : x
        hash = Math.imul(hash ^ ((share[k]! * 1e7 + 0.5) | 0), 0x01000193)
      }
      const bucket = byHash.get(hash)
      const known = bucket?.find(
        (s) => s.mode === mode && sameWords(s.asked, asked) && sameShares(s.weight, share),
      )
      if (known) return known
      const least = bounds.least(share, mode)
      const most = bounds.most(share, mode)
      const state: State = {
        weight: share.slice(),
        mode,
        asked: asked.slice(),
        least,
        most,
        guess: guess(share, least, most),
        actions: undefined,
      }
      count++
      if (bucket) bucket.push(state)
      else byHash.set(hash, [state])
      return state
    },
    count: () => count,
  }
}

function sameWords(a: Int32Array, b: Int32Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false
  return true
}

function sameShares(a: Float64Array, b: Float64Array): boolean {
  for (let k = 0; k < a.length; k++) if (Math.abs(a[k]! - b[k]!) > SAME) return false
  return true
}
