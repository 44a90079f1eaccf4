/**
 * Tells an Enter that is meant from one that comes because the key is held down, or was tapped twice, over the end of what
 * was read. Only Enter after Enter is suspected: who types another key between has looked, or sends a script.
 */

/** Nobody has read anything new so soon after the last Enter, milliseconds; held keys and double taps are quicker (judgement). */
const UNREAD_MS = 250

export interface HeldEnter {
  /** Whether this Enter, at what is shown now, only follows another one that was pressed at something else. */
  readonly follows: (shown: string) => boolean
  /** Another key has come. */
  readonly broken: () => void
}

export function heldEnter(now: () => number): HeldEnter {
  const never = { at: Number.NEGATIVE_INFINITY, shown: '' }
  let last = never
  return {
    follows: (shown) => {
      const at = now()
      const follows = at - last.at < UNREAD_MS && last.shown !== shown
      last = { at, shown: follows ? last.shown : shown }
      return follows
    },
    broken: () => {
      last = never
    },
  }
}
