/**
 * While a person reads a question, what follows each likely answer is worked out, a few milliseconds at a time, so that the key
 * finds it ready. It waits until no key has come for a moment, and gives up on a build where it would be felt.
 */
import type { Session } from '../job/view.ts'
import type { Screen } from './screen.ts'

/** No key for so long: what is typed in one go is heard first. */
const READS_MS = 20
/** A key that comes meanwhile waits until the piece in hand is done; longer than this is a nuisance. */
const FELT_MS = 300
/** So many of those in a row are no hiccup of the machine. */
const MOST_FELT = 3

/** The same screen, which looks ahead. @param now milliseconds from any beginning */
export function lookingAhead(screen: Screen, session: Pick<Session, 'ahead'>, now: () => number): Screen {
  let timer: ReturnType<typeof setTimeout> | undefined
  let felt = 0

  function piece(): void {
    const began = now()
    let more = false
    try {
      more = session.ahead()
    } catch {
      // What fails here fails again once it is said, and is told then.
    }
    felt = now() - began > FELT_MS ? felt + 1 : 0
    // Keys that came meanwhile are heard first.
    if (more && felt < MOST_FELT) timer = setTimeout(piece)
  }

  function wait(): void {
    clearTimeout(timer)
    if (felt < MOST_FELT) timer = setTimeout(piece, READS_MS)
  }

  return {
    ...screen,
    key: (key) => {
      wait()
      screen.key(key)
    },
    drawn: () => {
      screen.drawn()
      wait()
    },
    close: () => {
      clearTimeout(timer)
      screen.close()
    },
  }
}
