/**
 * The terminal itself. The screen lives on the alternate page, so that the scrollback stays as it was; frames from Ink are
 * painted here, only the lines that changed, each at its own row, so that nothing flickers and a resize leaves no scraps.
 * Whatever ends the program, `leave` puts the terminal back.
 */

const ESC = '\x1b['
/** Alternate page, no cursor, no wrapping (a character wider than it should be cuts its line instead of breaking the screen). */
const ENTER = `${ESC}?1049h${ESC}?25l${ESC}?7l${ESC}H${ESC}2J`
const LEAVE = `${ESC}?7h${ESC}?25h${ESC}?1049l`
/** Terminals that know it show all of a change at once; the rest ignore it. */
const BEGIN = `${ESC}?2026h`
const END = `${ESC}?2026l`

export interface Painter {
  readonly enter: () => void
  readonly leave: () => void
  /** Paints what has changed in a frame. */
  readonly paint: (frame: string) => void
  /** The terminal no longer shows what was painted: all of the next frame is, or of the last if none comes at once. */
  readonly afresh: () => void
}

export function createPainter(out: Pick<NodeJS.WriteStream, 'write'>): Painter {
  let shown: readonly string[] = []
  let last = ''
  let there = false
  let whole = true
  const paint = (frame: string): void => {
    last = frame
    if (!there) return
    const lines = frame.split('\n')
    const before = whole ? [] : shown
    let text = whole ? `${ESC}2J` : ''
    for (let row = 0; row < Math.max(lines.length, before.length); row++) {
      const line = lines[row] ?? ''
      if (!whole && line === before[row]) continue
      text += `${ESC}${row + 1};1H${ESC}2K${line}`
    }
    shown = lines
    whole = false
    if (text !== '') out.write(`${BEGIN}${text}${END}`)
  }
  return {
    enter: () => {
      if (there) return
      there = true
      whole = true
      out.write(ENTER)
      if (last !== '') paint(last)
    },
    leave: () => {
      if (!there) return
      there = false
      out.write(LEAVE)
    },
    paint,
    afresh: () => {
      whole = true
      setImmediate(() => {
        if (whole) paint(last)
      })
    },
  }
}
