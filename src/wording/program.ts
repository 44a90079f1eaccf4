/** What a language must say of the program itself: its commands, mistakes on the command line, files in trouble, endings. */
import type { ManWords } from './man.ts'

export interface CommandText {
  readonly summary: string
  readonly about: readonly string[]
  readonly options: Readonly<Record<string, string>>
  readonly examples: readonly (readonly [command: string, does: string])[]
}

/** What the program itself says: help, mistakes on the command line, endings. */
export interface Program {
  readonly summary: string
  readonly usage: string
  readonly heads: Readonly<Record<'commands' | 'options' | 'examples' | 'more' | 'exit', string>>
  readonly commands: Readonly<Record<string, CommandText>>
  readonly common: Readonly<Record<string, string>>
  readonly man: ManWords
  readonly exitCodes: readonly (readonly [code: number, means: string])[]
  readonly say: ProgramSentences
}

export interface ProgramSentences {
  readonly unknownCommand: (given: string, near: readonly string[]) => string
  readonly unknownOption: (command: string, given: string, near: readonly string[]) => string
  readonly optionNeedsValue: (option: string) => string
  readonly optionTakesNone: (option: string) => string
  readonly missingArgument: (command: string, name: string) => string
  readonly tooMany: (command: string, extra: string) => string
  readonly unknownSymptom: (given: string, near: readonly string[], all: readonly string[]) => string
  readonly chooseSymptom: string
  /** How several at once are named, line by line. */
  readonly chooseSeveral: string
  readonly badFault: (given: string, near: readonly string[]) => string
  readonly badEdit: (given: string) => string
  readonly editNowhere: (given: string) => string
  readonly written: (path: string) => string
  readonly nextCheck: (path: string) => string
  readonly noJobs: (folder: string) => string
  readonly noJobYet: string
  readonly noOpenJob: string
  readonly jobIsOver: (log: string) => string
  /** After what is wrong with the text of a plan: more may come to light once it can be read. */
  readonly wiringNotChecked: string
  /** The file of a job's plan has mistakes now. */
  readonly planUnreadableNow: (file: string) => string
  readonly file: (path: string, why: PathTrouble) => string
  readonly crashed: (message: string, log: string | undefined) => string[]
  readonly interrupted: (log: string | undefined) => string[]
  readonly tooSmall: (columns: number, rows: number) => string
  readonly engineNeedsPolicy: string
  /** Between the pages of a replay. */
  readonly replayNext: string
  readonly unknownShell: (given: string, known: readonly string[]) => string
  readonly unknownLanguage: (given: string, known: readonly string[]) => string
  readonly start: StartSentences
}

export interface StartSentences {
  readonly jobs: string
  readonly builds: string
  readonly nothing: readonly string[]
  readonly more: string
}

/** What is wrong with a file that was named on the command line. */
export type PathTrouble =
  | 'missing'
  | 'folder'
  | 'unreadable'
  | 'unwritable'
  | 'exists'
  | 'full'
  | 'empty'
  | 'binary'
  | 'large'
