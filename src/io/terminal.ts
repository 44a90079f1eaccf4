/** Facts about the terminal: whether it is one, its size, and what it can show. Read once, handed on as a record. */

export interface TerminalFacts {
  /** Both ends are a terminal that can move its cursor, so a screen can be drawn. */
  readonly screen: boolean
  readonly columns: number
  readonly rows: number
  readonly colour: boolean
  /** Box-drawing and arrows come out right. */
  readonly unicode: boolean
  /** The user has asked for output that a screen reader can follow. */
  readonly spoken: boolean
}

type Env = Readonly<Record<string, string | undefined>>

interface Ends {
  readonly stdin: { readonly isTTY?: boolean | undefined }
  readonly stdout: {
    readonly isTTY?: boolean | undefined
    readonly columns?: number | undefined
    readonly rows?: number | undefined
  }
  readonly env: Env
  readonly platform: string
}

/** The smallest screen on which every view has room. */
export const SMALLEST = { columns: 60, rows: 20 } as const

const isSet = (value: string | undefined): boolean => value !== undefined && value !== ''

/** `NO_COLOR` set to anything switches colour off, unless `FORCE_COLOR` is set: that is the later word of the two. */
function wantsColour(env: Env, isTerminal: boolean): boolean {
  if (isSet(env.FORCE_COLOR)) return env.FORCE_COLOR !== '0' && env.FORCE_COLOR !== 'false'
  return isTerminal && !isSet(env.NO_COLOR) && env.TERM !== 'dumb'
}

/** The locale's letters decide; the bare Linux console has no font for the arrows. */
function showsUnicode(env: Env, platform: string): boolean {
  if (platform === 'win32') return isSet(env.WT_SESSION) || env.TERM_PROGRAM !== undefined
  if (env.TERM === 'linux' || env.TERM === 'dumb') return false
  const locale = [env.LC_ALL, env.LC_CTYPE, env.LANG].find(isSet)
  return locale === undefined ? platform === 'darwin' : /utf-?8/i.test(locale)
}

/** A terminal that does not tell its size counts as 80×24. */
export function terminalFacts({ stdin, stdout, env, platform }: Ends): TerminalFacts {
  const isTerminal = stdin.isTTY === true && stdout.isTTY === true
  return {
    screen: isTerminal && env.TERM !== 'dumb',
    columns: stdout.columns ?? 80,
    rows: stdout.rows ?? 24,
    colour: wantsColour(env, isTerminal),
    unicode: showsUnicode(env, platform),
    spoken: isSet(env.WHICHLEAD_PLAIN) && env.WHICHLEAD_PLAIN !== '0',
  }
}
