/**
 * From the command line to a command and its exit code. What nobody caught ends here in one line, with the job's log
 * named, and code 70.
 */
import type { Language } from '../wording/language.ts'
import { LANGUAGES, languageFor, languageOf, loadLanguage } from '../wording/languages.ts'
import { localised } from '../wording/localised.ts'
import type { ExitCode, Given, Outside, Shell, Speak } from './command.ts'
import { commandHelp, overview } from './help-text.ts'
import { loadCommand, speaking } from './load.ts'
import { figuresOf } from './locale.ts'
import { type Mistake, type Parsed, parse } from './parse.ts'
import { version } from './version.ts'

function mistakeText(m: Mistake, language: Language): string {
  const { say } = language.program
  switch (m.what) {
    case 'unknown-command':
      return say.unknownCommand(m.given, m.near)
    case 'unknown-option':
      return say.unknownOption(m.command, m.given, m.near)
    case 'option-needs-value':
      return say.optionNeedsValue(m.option)
    case 'option-takes-none':
      return say.optionTakesNone(m.option)
    case 'missing-argument':
      return say.missingArgument(m.command, m.name)
    case 'too-many':
      return say.tooMany(m.command, m.extra)
  }
}

async function act(parsed: Parsed, shell: Outside, speak: Speak): Promise<ExitCode> {
  if (!parsed.ok) {
    shell.err(mistakeText(parsed.mistake, await speak()))
    return 2
  }
  const { command, given } = parsed
  if (given.flags.has('version')) {
    shell.out(version)
    return 0
  }
  if (given.flags.has('help')) {
    const { program } = await speak()
    const lines = command ? commandHelp(command, program) : overview(program)
    for (const line of lines) shell.out(line)
    return 0
  }
  const run = command
    ? await loadCommand(command.name)
    : speaking((await import('./commands/first-screen.ts')).run)
  return run(given, shell, speak)
}

/** Output that is read by programs has its figures in the neutral forms, whatever the locale. */
const isForPrograms = ({ flags, values }: Given): boolean =>
  ['json', 'lines', 'csv', 'as-log'].some((flag) => flags.has(flag)) ||
  /^(?:json|lines|csv|sarif)$/.test(values.get('format') ?? '')

function once<T>(make: () => Promise<T>): () => Promise<T> {
  let made: Promise<T> | undefined
  return () => {
    made ??= make()
    return made
  }
}

/** Runs one command line to its exit code. */
export async function start(
  argv: readonly string[],
  outside: Omit<Outside, 'out' | 'err' | 'job'>,
): Promise<ExitCode> {
  const parsed = parse(argv)
  const asked = parsed.ok ? parsed.given.values.get('lang') : undefined
  const code = asked === undefined ? languageOf(outside.env) : languageFor(asked)
  const forPrograms = parsed.ok && isForPrograms(parsed.given)
  const speak = once(async () => {
    const language = await loadLanguage(code ?? 'en')
    return forPrograms ? language : localised(language, figuresOf(outside.env))
  })
  const own: Pick<Outside, 'out' | 'err' | 'job'> = {
    job: {},
    out: (line) => void outside.stdout.write(`${line}\n`),
    err: (line) => void outside.stderr.write(`${line}\n`),
  }
  // Not spread, which would make a stream of stdin for commands that never read it.
  const shell: Outside = Object.defineProperties(own, Object.getOwnPropertyDescriptors(outside)) as Outside
  if (code === undefined) {
    shell.err((await speak()).program.say.unknownLanguage(asked ?? '', LANGUAGES))
    return 2
  }
  // The screen puts the terminal back before it passes an exception on.
  const unexpected = (error: unknown) => {
    if (shell.job.onScreen === true) return
    const end = (language: Language) => process.exit(crashed(error, { ...shell, language }))
    speak().then(end, () => process.exit(70))
  }
  process.on('uncaughtException', unexpected)
  try {
    return await act(parsed, shell, speak)
  } catch (error) {
    return crashed(error, { ...shell, language: await speak() })
  } finally {
    process.off('uncaughtException', unexpected)
  }
}

/** One line for a mistake of the program itself; the stack only for those who ask for it. */
export function crashed(error: unknown, shell: Pick<Shell, 'language' | 'err' | 'job' | 'env'>): 70 {
  const message = error instanceof Error ? error.message : String(error)
  for (const line of shell.language.program.say.crashed(message, shell.job.log)) shell.err(line)
  if (shell.env.WHICHLEAD_DEBUG && error instanceof Error && error.stack) shell.err(error.stack)
  return 70
}
