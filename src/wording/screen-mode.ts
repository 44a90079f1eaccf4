/** What can be open on the screen; `job` is the prompt itself, the rest lies over it. */
export type Mode =
  | 'job'
  | 'told'
  | 'why'
  | 'trail'
  | 'take-back'
  | 'help'
  | 'note'
  | 'wiring'
  | 'picture'
  | 'expected'
  | 'leave'
  | 'hand-over'
