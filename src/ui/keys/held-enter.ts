/**
 * Tells an Enter that is meant from one that comes because the key is held down, or was tapped twice, over the end of what
 * was read. Only Enter after Enter is suspected: who types another key between has looked, or sends a script.
 */

/** Nobody has read anything new so soon after the last Enter, milliseconds; double taps are quicker (judgement). */
const UNREAD_MS = 300
/** A key that is held down repeats for the first time before this, milliseconds, and then so often (common settings, no source). */
const FIRST_REPEAT_MS = 1000
const NEXT_REPEAT_MS = 120

export interface HeldEnter {
  /**
   * An Enter at what is shown now. It is `meant`, or `not`, as it only follows another one that was pressed at something else:
   * at once, but where it may be the first repeat of a held key, which looks like any other until the next comes.
   * @param shown anything that is the same as long as the same is shown
   */
  readonly pressed: (shown: unknown, meant: () => void, not: () => void) => void
  /** Another key has come: an Enter that was in doubt was meant. */
  readonly broken: () => void
}

interface Doubted {
  readonly meant: () => void
  readonly not: () => void
  readonly timer: ReturnType<typeof setTimeout>
}

export function heldEnter(now: () => number): HeldEnter {
  const never: { at: number; shown: unknown } = { at: Number.NEGATIVE_INFINITY, shown: undefined }
  let last = never
  let doubted: Doubted | undefined
  const decide = (how: 'meant' | 'not'): void => {
    const waiting = doubted
    doubted = undefined
    clearTimeout(waiting?.timer)
    waiting?.[how]()
  }
  return {
    pressed: (shown, meant, not) => {
      const at = now()
      const gap = at - last.at
      const unlike = last.shown !== shown
      const follows = unlike && (doubted !== undefined || gap < UNREAD_MS)
      const doubtful = unlike && !follows && gap < FIRST_REPEAT_MS
      decide('not')
      last = { at, shown: follows || doubtful ? last.shown : shown }
      if (follows) not()
      else if (!doubtful) meant()
      else {
        const waited = (): void => {
          last = { at, shown }
          decide('meant')
        }
        doubted = { meant, not, timer: setTimeout(waited, NEXT_REPEAT_MS) }
      }
    },
    broken: () => {
      last = never
      decide('meant')
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
