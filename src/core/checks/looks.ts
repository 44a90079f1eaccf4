/**
 * What each kind of look costs and how far its answer can be trusted. Minutes are for a machine with its side
 * off; hands-in work is multiplied by how hard the place is to reach. Times and error rates are bench practice
 * (common practice, no source), to be replaced by counts.
 */
import type { What } from '../bench/observable.ts'
import type { Hands, Power } from './prompt.ts'

export interface LookCost {
  readonly minutes: number
  /** Chance that an unaided answer is wrong. */
  readonly error: number
  readonly power: Power
  readonly hands: Hands
  readonly tools: readonly string[]
}

const outside = (minutes: number, error: number): LookCost => ({
  minutes,
  error,
  power: 'on',
  hands: 'out',
  tools: [],
})
const inside = (minutes: number, error: number): LookCost => ({
  minutes,
  error,
  power: 'off',
  hands: 'in',
  tools: [],
})

export const lookCost: Readonly<Record<What, LookCost>> = {
  spins: outside(0.5, 0.04),
  steady: outside(1.2, 0.05),
  lit: outside(0.5, 0.04),
  flickers: outside(1.2, 0.05),
  shows: outside(0.5, 0.05),
  alarm: outside(1, 0.04),
  rpm: outside(1.5, 0.06),
  setting: outside(2, 0.05),
  effect: outside(1.5, 0.07),
  answers: outside(2, 0.05),
  listed: outside(2, 0.05),
  follows: outside(3, 0.06),
  seated: inside(1, 0.12),
  goes: inside(1, 0.06),
  // A cord is laid round the lead with the mains off; it is moved by the cord's end, with hands out.
  'when-moved': outside(3, 0.1),
  // Probes are clipped on with the mains off and read with hands out.
  volts: { ...outside(5, 0.08), tools: ['meter'] },
}

/** Turning a blade by a finger, with the mains off. */
export const BLADE: LookCost = inside(1, 0.06)

/** Hands-in minutes are multiplied by this. */
export const REACH = { open: 1, tight: 1.5, 'behind-cover': 2 } as const

/** One change of power, with the waiting that belongs to it. */
export const SWITCH_MINUTES = 2
/** What handing the job over stands for. */
export const HAND_OVER_MINUTES = 60
