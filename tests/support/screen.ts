/**
 * A terminal's screen without a terminal: bytes go in, the rows that a person would see come out. The emulator parses in
 * its own time, so what is on the screen is only known once `fed` has resolved.
 */
import { Terminal } from '@xterm/headless'

export interface EmulatedScreen {
  /** Resolves when the bytes have been drawn. */
  readonly feed: (bytes: string) => Promise<void>
  readonly resize: (columns: number, rows: number) => void
  /** The rows that are seen now, trailing blanks cut. */
  readonly rows: () => string[]
  /** Everything, scrollback first. */
  readonly history: () => string[]
  readonly columns: () => number
  /** Whether the alternate page is shown. */
  readonly alternate: () => boolean
  /** Rows that run on from the row above because a line was too long for the terminal. */
  readonly wrapped: () => number
  /** The cells of a row that are drawn inverse, as text. */
  readonly inverse: () => string[]
  /** The rows as runs of cells that look the same. */
  readonly runs: () => Run[][]
  readonly dispose: () => void
}

/** Text in one look, from a column on. */
export interface Run {
  readonly at: number
  readonly text: string
  readonly bold: boolean
  readonly dim: boolean
  readonly inverse: boolean
}

export function emulatedScreen(columns: number, rows: number): EmulatedScreen {
  const terminal = new Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 2000 })
  const line = (y: number): string => terminal.buffer.active.getLine(y)?.translateToString(true) ?? ''
  const range = (from: number, to: number): number[] => Array.from({ length: to - from }, (_, i) => from + i)
  const seen = (): number[] => {
    const { baseY } = terminal.buffer.active
    return range(baseY, baseY + terminal.rows)
  }
  return {
    feed: (bytes) => new Promise((resolve) => terminal.write(bytes, resolve)),
    resize: (c, r) => terminal.resize(c, r),
    rows: () => seen().map(line),
    history: () => range(0, terminal.buffer.active.length).map(line),
    columns: () => terminal.cols,
    alternate: () => terminal.buffer.active.type === 'alternate',
    wrapped: () => seen().filter((y) => terminal.buffer.active.getLine(y)?.isWrapped).length,
    inverse: () =>
      seen().flatMap((y) => {
        const row = terminal.buffer.active.getLine(y)
        if (!row) return []
        const cells = range(0, terminal.cols).map((x) => row.getCell(x))
        const text = cells.map((c) => (c?.isInverse() ? c.getChars() || ' ' : '')).join('')
        return text === '' ? [] : [text]
      }),
    runs: () =>
      seen().map((y) => {
        const row = terminal.buffer.active.getLine(y)
        const out: { -readonly [K in keyof Run]: Run[K] }[] = []
        for (const x of range(0, terminal.cols)) {
          const cell = row?.getCell(x)
          // The second half of a wide character is a cell of no width.
          if (!cell || cell.getWidth() === 0) continue
          const look = {
            bold: cell.isBold() !== 0,
            dim: cell.isDim() !== 0,
            inverse: cell.isInverse() !== 0,
          }
          const last = out.at(-1)
          const same =
            last && last.bold === look.bold && last.dim === look.dim && last.inverse === look.inverse
          if (same) last.text += cell.getChars() || ' '
          else out.push({ at: x, text: cell.getChars() || ' ', ...look })
        }
        return out
      }),
    dispose: () => terminal.dispose(),
  }
}
