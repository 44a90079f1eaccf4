/**
 * Repairs one after the other with a look after each: by probability over cost, which is the best order when one thing
 * is wrong, repairs are sure and none cures what another does.
 * @source Kadane & Simon, Ann. Statist. 5(2), 1977; Heckerman, Breese & Rommelse, Comm. ACM 38(3), 1995
 */

export interface Try {
  /** Probability that this repair cures it, 0 to 1. */
  readonly cures: number
  /** With the look after it, ≥ 0. */
  readonly minutes: number
}

/** Indices by probability over minutes, highest first; ties keep their order. Free ones come first. */
export function repairOrder(tries: readonly Try[]): number[] {
  return tries
    .map((_, i) => i)
    .sort((a, b) => tries[b]!.cures * tries[a]!.minutes - tries[a]!.cures * tries[b]!.minutes)
}

/**
 * Expected minutes of trying in this order until one cures.
 * @param otherwise minutes that are added where none does (handing over)
 */
export function orderMinutes(tries: readonly Try[], order: readonly number[], otherwise = 0): number {
  let left = 1
  let minutes = 0
  for (const i of order) {
    minutes += left * tries[i]!.minutes
    left = Math.max(0, left - tries[i]!.cures)
  }
  return minutes + left * otherwise
}
