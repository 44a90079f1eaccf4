/**
 * The troubleshooting problem in numbers: which suspects there are, what each check would tell, what each
 * repair would cure, and what everything costs in minutes. Nothing here knows about fans: the bench fills the
 * tables, and a problem from a file has the same form, so both are decided by the very same functions.
 */

/** The power state that an action needs. */
export type Mode = 'on' | 'off'

/** Something to look at, read, measure or try; its answer changes the belief. */
export interface ProblemCheck {
  readonly id: string
  /** At the bench, without switching power, ≥ 0. */
  readonly minutes: number
  readonly mode: Mode
  readonly outcomes: readonly string[]
  /** `table[suspect][outcome]` = P(outcome | suspect); each row sums to 1. */
  readonly table: readonly Float64Array[]
}

/** Something to change; straight after it the symptom is looked at again, so it is a test as well. */
export interface ProblemRepair {
  readonly id: string
  /** Includes the look at the symptom, not the switching of power. */
  readonly minutes: number
  readonly mode: Mode
  /** `fixes[suspect]` is 1 where the symptom would be gone, else 0. */
  readonly fixes: Uint8Array
}

export interface Problem {
  readonly suspects: readonly { readonly id: string; readonly prior: number }[]
  readonly checks: readonly ProblemCheck[]
  readonly repairs: readonly ProblemRepair[]
  /** Minutes for one change of power, on to off or off to on. */
  readonly switchMinutes: number
  /** Minutes that handing over stands for. */
  readonly escalateMinutes: number
  /** The power state in which a repair is proven; reaching it is paid, also when it was the right repair. */
  readonly verifyMode: Mode
}

/** Where a job stands: what is believed now, what may still be done, and whether power is on. */
export interface Standing {
  /** Posterior by suspect, summing to 1. */
  readonly belief: Float64Array
  readonly mode: Mode
  /** Indices into `checks` and `repairs` that may still be used. */
  readonly checksLeft: readonly number[]
  readonly repairsLeft: readonly number[]
}

export type Choice =
  | { readonly do: 'check'; readonly index: number; readonly minutes: number }
  | { readonly do: 'repair'; readonly index: number; readonly minutes: number }
  | { readonly do: 'escalate'; readonly minutes: number }

/** The step to take and the best few others, each with the expected minutes to a verified fix if it is taken. */
export interface Decision {
  readonly best: Choice
  readonly others: readonly Choice[]
}
