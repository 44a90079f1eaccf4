/**
 * A program at a real pseudo-terminal, and what it shows. Tests write keys and wait for text; nothing here sleeps, and
 * everything that is waited for has a deadline after which the screen as it was is part of the error.
 */
import { type IPty, spawn } from '@lydell/node-pty'
import { type EmulatedScreen, emulatedScreen } from './screen.ts'

export interface PtyOptions {
  readonly command: string
  readonly arguments?: readonly string[]
  readonly columns?: number
  readonly rows?: number
  readonly cwd?: string
  /** Added to a small environment of our own; nothing else is handed on. */
  readonly env?: Readonly<Record<string, string>>
}

export type Awaited_ = string | RegExp | ((rows: readonly string[]) => boolean)

export interface Exit {
  readonly code: number
  readonly signal: number
}

export interface Pty {
  readonly pid: number
  /** Keys, all in one write. */
  readonly write: (keys: string) => void
  /** The rows on the screen once the text is there; an error with the screen after the deadline. */
  readonly until: (wanted: Awaited_, deadlineMs?: number) => Promise<string[]>
  readonly rows: () => string[]
  /** Called each time something has been drawn. */
  readonly onDrawn: (look: () => void) => void
  readonly screen: EmulatedScreen
  /** All bytes that came out. */
  readonly output: () => string
  readonly resize: (columns: number, rows: number) => void
  /** Resolves when the program has ended and all of its output is drawn. */
  readonly ended: Promise<Exit>
  readonly kill: (signal?: string) => void
}

/** A machine may be busy with much else; what never comes is told all the sooner when the program ends. */
const DEADLINE_MS = 50_000

const [BEGIN, END] = ['\u001b[?2026h', '\u001b[?2026l']

const holds = (wanted: Awaited_, rows: readonly string[]): boolean =>
  typeof wanted === 'function'
    ? wanted(rows)
    : typeof wanted === 'string'
      ? rows.join('\n').includes(wanted)
      : wanted.test(rows.join('\n'))

/** Starts a program; call `kill` in `afterEach`. */
export function openPty(options: PtyOptions): Pty {
  const columns = options.columns ?? 80
  const rows = options.rows ?? 24
  const screen = emulatedScreen(columns, rows)
  const pty: IPty = spawn(options.command, [...(options.arguments ?? [])], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    cwd: options.cwd ?? process.cwd(),
    env: { PATH: process.env.PATH ?? '', TERM: 'xterm-256color', ...options.env },
  })
  let output = ''
  let drawn: Promise<void> = Promise.resolve()
  let over = false
  // A frame comes in pieces. Its bounds are told (synchronized output, private mode 2026), and nobody looks in between.
  let whole = true
  const watchers = new Set<() => void>()
  const look = (): void => {
    for (const watcher of [...watchers]) watcher()
  }
  pty.onData((bytes) => {
    output += bytes
    const complete = output.lastIndexOf(BEGIN) <= output.lastIndexOf(END)
    drawn = screen.feed(bytes).then(() => {
      whole = complete
      if (whole) look()
    })
  })
  const ended = new Promise<Exit>((resolve) => {
    pty.onExit(({ exitCode, signal }) => {
      over = true
      void drawn.then(() => {
        look()
        resolve({ code: exitCode, signal: signal ?? 0 })
      })
    })
  })

  const until = (wanted: Awaited_, deadlineMs = DEADLINE_MS): Promise<string[]> =>
    new Promise((resolve, reject) => {
      const stop = (): void => {
        clearTimeout(timer)
        watchers.delete(check)
      }
      const failed = (why: string): void => {
        stop()
        reject(new Error(`${why}: ${String(wanted)}\n--- screen ---\n${screen.rows().join('\n')}\n---`))
      }
      const check = (): void => {
        if (whole && holds(wanted, screen.rows())) {
          stop()
          resolve(screen.rows())
        } else if (over) failed('the program ended before this was seen')
      }
      const timer = setTimeout(() => failed(`not seen within ${deadlineMs} ms`), deadlineMs)
      watchers.add(check)
      check()
    })

  return {
    pid: pty.pid,
    write: (keys) => {
      if (!over) pty.write(keys)
    },
    until,
    rows: screen.rows,
    onDrawn: (look) => watchers.add(look),
    screen,
    output: () => output,
    resize: (c, r) => {
      screen.resize(c, r)
      pty.resize(c, r)
    },
    ended,
    kill: (signal = 'SIGKILL') => {
      if (over) return
      try {
        pty.kill(signal)
      } catch {
        // It ended between the look and the kill.
      }
    },
  }
}
