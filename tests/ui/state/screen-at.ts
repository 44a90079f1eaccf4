/** A screen without a terminal: keys go in, what was said to the job and the lines as drawn come out. */
import type { Session, View } from '../../../src/job/view.ts'
import { heldEnter } from '../../../src/ui/keys/held-enter.ts'
import type { Key } from '../../../src/ui/keys/key.ts'
import { splitKeys } from '../../../src/ui/keys/split.ts'
import { createScreen, type Surroundings } from '../../../src/ui/screen.ts'
import { lineText } from '../../../src/ui/text/line.ts'
import { english } from '../../../src/wording/en/english.ts'
import { type FakeSession, fakeSession, lightsScript, type ScriptStep } from '../../support/fake-session.ts'

export interface At<S extends Session = FakeSession> {
  readonly session: S
  readonly ended: string[]
  /** Keys as one burst: nothing is drawn between them. */
  readonly burst: (keys: string | readonly Key[]) => void
  /** Keys one by one, each drawn and each reply written before the next. */
  readonly type: (keys: string | readonly Key[]) => Promise<void>
  readonly lines: () => string[]
  readonly text: () => string
  /** The row under the pointer. */
  readonly pointed: () => string
  readonly settle: () => Promise<void>
  readonly resize: (columns: number, rows: number) => void
}

const NAMED: Readonly<Record<string, Key>> = {
  '↑': { key: 'up' },
  '↓': { key: 'down' },
  '←': { key: 'left' },
  '→': { key: 'right' },
  '⇞': { key: 'page-up' },
  '⇟': { key: 'page-down' },
  '⎋': { key: 'escape' },
  '⏎': { key: 'enter' },
  '⌫': { key: 'erase' },
}

/** `↓↓⏎` and letters. */
export const keysOf = (text: string): Key[] =>
  [...text].flatMap((c) => (NAMED[c] ? [NAMED[c]] : splitKeys(c, {})))

export interface AtOptions {
  columns?: number
  rows?: number
  ascii?: boolean
  settleMs?: number
  now?: () => number
  fetch?: Surroundings['fetch']
}

/** Over a job that goes by a script. */
export const screenAt = (
  script: readonly ScriptStep[] = lightsScript,
  options: AtOptions & { over?: Partial<View> } = {},
): At => screenOver(fakeSession(script, options.over), options)

/** Over any job. */
export function screenOver<S extends Session>(session: S, options: AtOptions = {}): At<S> {
  const ended: string[] = []
  // A second between keys, unless a test says otherwise.
  let clock = 0
  const screen = createScreen(
    session,
    { columns: options.columns ?? 80, rows: options.rows ?? 24 },
    {
      language: english,
      ascii: options.ascii ?? false,
      held: heldEnter(options.now ?? (() => (clock += 1000))),
      settleMs: options.settleMs ?? 1,
      leave: (how) => ended.push(how),
      suspend: () => ended.push('suspend'),
      redraw: () => ended.push('redraw'),
      failed: (error) => {
        throw error
      },
      fetch:
        options.fetch ?? (async (path) => ({ ok: false, trouble: { code: 'missing', path, facts: {} } })),
    },
  )
  const settle = async (): Promise<void> => {
    await new Promise((resolve) => setImmediate(resolve))
    screen.drawn()
  }
  screen.drawn()
  const lines = (): string[] => screen.frame().lines.map(lineText)
  const given = (keys: string | readonly Key[]): readonly Key[] =>
    typeof keys === 'string' ? keysOf(keys) : keys
  return {
    session,
    ended,
    burst: (keys) => {
      for (const key of given(keys)) screen.key(key)
    },
    type: async (keys) => {
      for (const key of given(keys)) {
        screen.key(key)
        await settle()
      }
    },
    lines,
    text: () => lines().join('\n'),
    pointed: () =>
      lines()
        .flatMap((l) => /▸.*/u.exec(l) ?? [])
        .join('')
        .trim(),
    settle,
    resize: (columns, rows) => screen.resize({ columns, rows }),
  }
}
