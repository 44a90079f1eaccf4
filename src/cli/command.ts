/**
 * What a command is to the command line: a name and what it takes; and the function that does it. Texts for people are in the wording, under the same names; help, completion and the man page come from both.
 */
import type { Language } from '../wording/language.ts'

export type ExitCode = 0 | 1 | 2 | 70 | 129 | 130 | 143

export interface Option {
  readonly name: string
  readonly short?: string
  readonly kind: 'flag' | 'value' | 'values'
  /** What stands for the value in the usage line. */
  readonly value?: string
}

export interface Argument {
  readonly name: string
  readonly need: 'must' | 'may' | 'many'
}

/** The command line as taken apart: flags are true, options with a value text, repeated ones a list. */
export interface Given {
  readonly arguments: readonly string[]
  readonly flags: ReadonlySet<string>
  readonly values: ReadonlyMap<string, string>
  readonly lists: ReadonlyMap<string, readonly string[]>
}

/** The world outside, handed in, so that tests can hand in another. */
export interface Outside {
  readonly cwd: string
  readonly env: Readonly<Record<string, string | undefined>>
  readonly stdin: NodeJS.ReadStream
  readonly stdout: NodeJS.WriteStream
  readonly stderr: NodeJS.WriteStream
  /** The file that is the program, from where what came with it is found. */
  readonly program?: string
  /**
   * The job that is open, so that whatever ends the program can say where its log is; and whether the store was away
   * when it began, so that nobody waits for it again.
   */
  readonly job: { log?: string; onScreen?: boolean; storeAway?: boolean }
  /** Writes one line to stdout. */
  out(line: string): void
  /** Writes one line to stderr. */
  err(line: string): void
}

/** The world outside, and the language that is spoken there. */
export interface Shell extends Outside {
  readonly language: Language
}

/** Loads the language: it takes a good part of a short run's time. */
export type Speak = () => Promise<Language>

export type Run = (given: Given, shell: Shell) => Promise<ExitCode>

/** Of a command with words of its own, which asks for the language only where it needs more. */
export type OwnWords = (given: Given, outside: Outside, speak: Speak) => Promise<ExitCode>

export interface Command {
  readonly name: string
  readonly arguments: readonly Argument[]
  readonly options: readonly Option[]
  /** Left out of the overview; still runs, and has its own help. */
  readonly hidden?: true
}
