/**
 * What auditing a plan brings up, as records: which rule, how bad, where in the file, which things it touches in
 * the references of the bench, the figure and its limit. Sentences are made of it in the wording.
 */
import type { Place } from '../plan/problem.ts'
import type { Wiring } from './wiring.ts'

/** From the worst to the mildest; `unknown` is something that cannot be checked. */
export const SEVERITIES = ['will-damage', 'will-not-work', 'may-not-work', 'untidy', 'unknown'] as const
export type Severity = (typeof SEVERITIES)[number]

export type Fact = string | number | readonly string[]
export type Facts = Readonly<Record<string, Fact>>

export interface Finding {
  readonly rule: string
  readonly severity: Severity
  /** Never empty; the first is the place to look at first. */
  readonly at: readonly Place[]
  /** Parts, ports and settings it touches: `F1`, `F1.motor`, `board.SYS1`, `headers/SYS1/curve`. */
  readonly refs: readonly string[]
  readonly figure?: number
  readonly limit?: number
  readonly unit?: string
  readonly source: string
  readonly facts: Facts
  /** Places of the plan whose assumed value the finding rests on. */
  readonly assumed: readonly string[]
}

/** What a rule finds, before places are looked up. */
export interface Hit {
  readonly refs: readonly string[]
  /** Where it differs from the rule's own. */
  readonly severity?: Severity
  readonly figure?: number
  readonly limit?: number
  readonly facts?: Facts
  /** Paths such as `parts.F1.motor.amps` that the figure or the limit rests on. */
  readonly rests?: readonly string[]
}

export interface Rule {
  readonly id: string
  readonly severity: Severity
  /** Of figure and limit, where there are any. */
  readonly unit?: string
  readonly source: string
  readonly find: (wiring: Wiring) => Iterable<Hit>
}

export interface Family {
  readonly family: string
  readonly rules: readonly Rule[]
}

export const COMMON = 'common practice, no source'
