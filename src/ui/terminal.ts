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
  /** Paints a frame; `whole` repaints every line. */
  readonly paint: (frame: string, whole?: boolean) => void
  /** Paints the last frame once more, all of it. */
  readonly again: () => void
}

export function createPainter(out: Pick<NodeJS.WriteStream, 'write'>): Painter {
  let shown: readonly string[] = []
  let last = ''
  let there = false
  const paint = (frame: string, whole = false): void => {
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
    if (text !== '') out.write(`${BEGIN}${text}${END}`)
  }
  return {
    enter: () => {
      if (there) return
      there = true
      out.write(ENTER)
      if (last !== '') paint(last, true)
    },
    leave: () => {
      if (!there) return
      there = false
      shown = []
      out.write(LEAVE)
    },
    paint,
    again: () => paint(last, true),
  }
}
