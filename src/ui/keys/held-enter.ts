/**
 * Tells an Enter that is meant from one that comes because the key is held down over the end of a prompt. An Enter close
 * behind another one that ended a prompt waits: if more follow at the pace of a held key they all go, if none does it counts.
 */

/** A held key comes again within this time on every system in use, milliseconds; a person is slower. */
const REPEAT_MS = 60

export interface HeldEnter {
  /** Whether this Enter, at this prompt, has to wait. */
  readonly waits: (prompt: string) => boolean
  /** Another key has come: what waits is decided now. */
  readonly release: () => void
  readonly forget: () => void
}

/** @param decided how many Enters had waited, at least one, once it is known that no more follow */
export function heldEnter(now: () => number, decided: (count: number) => void): HeldEnter {
  let last = { at: Number.NEGATIVE_INFINITY, prompt: '', waiting: 0 }
  let timer: ReturnType<typeof setTimeout> | undefined

  function release(): void {
    clearTimeout(timer)
    const { waiting } = last
    if (waiting === 0) return
    last = { ...last, prompt: '', waiting: 0 }
    decided(waiting)
  }

  return {
    waits: (prompt) => {
      const at = now()
      const close = at - last.at < REPEAT_MS && last.prompt !== prompt
      last = { at, prompt: close ? last.prompt : prompt, waiting: close ? last.waiting + 1 : 0 }
      if (!close) return false
      clearTimeout(timer)
      timer = setTimeout(release, REPEAT_MS)
      return true
    },
    release,
    forget: () => clearTimeout(timer),
  }
}
