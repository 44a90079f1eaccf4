/**
 * Tells an Enter that is meant from one that comes because the key is held down, or was tapped twice, over the end of what
 * was read. Only Enter after Enter is suspected: who types another key between has looked, or sends a script.
 */

/** Nobody has read anything new so soon after the last Enter, milliseconds; held keys and double taps are quicker (judgement). */
const UNREAD_MS = 250

export interface HeldEnter {
  /**
   * Whether this Enter, at what is shown now, only follows another one that was pressed at something else.
   * @param shown anything that is the same as long as the same is shown
   */
  readonly follows: (shown: unknown) => boolean
  /** Another key has come. */
  readonly broken: () => void
}

export function heldEnter(now: () => number): HeldEnter {
  const never: { at: number; shown: unknown } = { at: Number.NEGATIVE_INFINITY, shown: undefined }
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

const keyboards = new WeakMap<NodeJS.ReadStream, HeldEnter>()

/** One memory for a keyboard: a tap that opens something may come twice as well, over the next menu or question. */
export function heldEnterOf(stdin: NodeJS.ReadStream): HeldEnter {
  const known = keyboards.get(stdin)
  if (known) return known
  const made = heldEnter(() => performance.now())
  keyboards.set(stdin, made)
  return made
}
