/**
 * The next step: the one with the fewest expected minutes to a verified fix or to handing over, where repairs count
 * as checks and every change of power is paid. A small problem is searched to the end, or nearly; in a large one the
 * search looks at a few steps from each state and guesses what it cannot reach.
 */
import { type InParts, whole } from '../parts.ts'
import type { Choice, Decision, Problem, Standing } from '../problem.ts'
import { ALWAYS_KEPT } from './classes.ts'
import { cautious, guessFor } from './guess.ts'
import { type Reduced, reduce } from './reduce.ts'
import { type SearchOptions, type Step, searching } from './search.ts'

/** How many other steps are reported beside the best. */
const OTHERS = 5
/** Most checks of a problem that counts as small. Where no answer errs, its most classes are those that are always kept, and the tail. */
const SMALL_CHECKS = 16
/** Its most classes where answers may err: any may still follow then, and of more only a small part can be searched. */
const SMALL_CLASSES = 10

/** Measured in tests/bench/sequencing.mjs: on small problems more nodes still help a little, on large ones no more. */
const SMALL = {
  nodes: 4_000,
  hope: 0.7,
  width: { checks: Number.POSITIVE_INFINITY, repairs: Number.POSITIVE_INFINITY },
}
const LARGE = { nodes: 1_000, hope: 0.3, width: { checks: 12, repairs: 8 } }

export interface ChooseOptions {
  /** Bound on the work: leaf values, states and turns of the search together. The first step is always opened. */
  readonly nodes?: number
}

/** A decision with what it took. */
export interface Chosen extends Decision {
  readonly nodes: number
  /** No policy over the steps that were looked at takes fewer expected minutes; for a small problem, none at all. */
  readonly atLeast: number
}

/**
 * The best step at this standing, with the next best, each with its expected minutes if it is taken.
 * Handing over where nothing is believed or nothing is left. Deterministic: no clock, no chance; ties (to 1e-9 minutes)
 * go to handing over last, otherwise by id.
 */
export const chooseStep = (problem: Problem, standing: Standing, options: ChooseOptions = {}): Chosen =>
  whole(choosing(problem, standing, options))

/** The same in parts. */
export function* choosing(
  problem: Problem,
  standing: Standing,
  options: ChooseOptions = {},
): InParts<Chosen> {
  const reduced = reduce(problem, standing)
  const handingOver: Choice = { do: 'escalate', minutes: problem.escalateMinutes }
  if (reduced.n === 0) return { best: handingOver, others: [], nodes: 0, atLeast: problem.escalateMinutes }
  const found = yield* searching(reduced, searchOptions(reduced, options))
  const ranked = found.steps
    .map((step) => choiceOf(step, reduced))
    .filter((choice) => choice !== undefined)
    .map((choice) => ({ choice, value: Math.round(choice.minutes * 1e9), id: idOf(choice, problem) }))
    .sort((a, b) => a.value - b.value || (a.id < b.id ? -1 : 1))
    .map(({ choice }) => choice)
  return { best: ranked[0]!, others: ranked.slice(1, 1 + OTHERS), nodes: found.nodes, atLeast: found.least }
}

function searchOptions(reduced: Reduced, { nodes }: ChooseOptions): SearchOptions {
  const most = reduced.rows.every((p) => p === 0 || p === 1) ? ALWAYS_KEPT + 1 : SMALL_CLASSES
  const small = reduced.n <= most && reduced.checkOf.length <= SMALL_CHECKS
  const size = small ? SMALL : LARGE
  return { ...size, nodes: nodes ?? size.nodes, guess: small ? cautious : guessFor(reduced) }
}

/** The step in the problem's own indices; none for the stand-in that cures the tail. */
function choiceOf({ kind, index, guess }: Step, reduced: Reduced): Choice | undefined {
  if (kind === 'escalate') return { do: 'escalate', minutes: guess }
  const own = kind === 'check' ? reduced.checkOf[index]! : reduced.repairOf[index]!
  return own < 0 ? undefined : { do: kind, index: own, minutes: guess }
}

/** For ties: handing over after any id. */
function idOf(choice: Choice, problem: Problem): string {
  if (choice.do === 'escalate') return '\u{10ffff}'
  return (choice.do === 'check' ? problem.checks : problem.repairs)[choice.index]!.id
}
