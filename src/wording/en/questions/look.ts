/** A question before it is put: what is asked, and how to look. */
export interface Look {
  readonly ask: string
  readonly hints: readonly string[]
}

export const look = (ask: string, ...hints: string[]): Look => ({ ask, hints })
