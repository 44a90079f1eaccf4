/**
 * From the command line to a command and its exit code. What nobody caught ends here in one line, with the job's log
 * named, and code 70.
 */
import { english } from '../wording/en/english.ts'
import type { Language } from '../wording/language.ts'
import { LANGUAGES, languageFor, languageOf } from '../wording/languages.ts'
import { localised } from '../wording/localised.ts'
import type { ExitCode, Given, Shell } from './command.ts'
import { commandHelp, overview } from './help-text.ts'
import { loadCommand } from './load.ts'
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

async function act(parsed: Parsed, shell: Shell): Promise<ExitCode> {
  const { language } = shell
  if (!parsed.ok) {
    shell.err(mistakeText(parsed.mistake, language))
    return 2
  }
  const { command, given } = parsed
  if (given.flags.has('version')) {
    shell.out(version)
    return 0
  }
  if (given.flags.has('help')) {
    const lines = command ? commandHelp(command, language.program) : overview(language.program)
    for (const line of lines) shell.out(line)
    return 0
  }
  const run = command ? await loadCommand(command.name) : (await import('./commands/first-screen.ts')).run
  return run(given, shell)
}

/** Output that is read by programs has its figures in the neutral forms, whatever the locale. */
const isForPrograms = ({ flags, values }: Given): boolean =>
  ['json', 'lines', 'csv', 'as-log'].some((flag) => flags.has(flag)) ||
  /^(?:json|lines|csv|sarif)$/.test(values.get('format') ?? '')

/** Runs one command line to its exit code. */
export async function start(
  argv: readonly string[],
  outside: Omit<Shell, 'language' | 'out' | 'err' | 'job'>,
): Promise<ExitCode> {
  const parsed = parse(argv)
  const asked = parsed.ok ? parsed.given.values.get('lang') : undefined
  const spoken = asked === undefined ? languageOf(outside.env) : languageFor(asked)
  const forPrograms = parsed.ok && isForPrograms(parsed.given)
  const language = spoken && (forPrograms ? spoken : localised(spoken, figuresOf(outside.env)))
  const shell: Shell = {
    ...outside,
    language: language ?? english,
    job: {},
    out: (line) => void outside.stdout.write(`${line}\n`),
    err: (line) => void outside.stderr.write(`${line}\n`),
  }
  if (language === undefined) {
    shell.err(
      english.program.say.unknownLanguage(
        asked ?? '',
        LANGUAGES.map((l) => l.code),
      ),
    )
    return 2
  }
  // The screen puts the terminal back before it passes an exception on.
  const unexpected = (error: unknown) => {
    if (shell.job.onScreen !== true) process.exit(crashed(error, shell))
  }
  process.on('uncaughtException', unexpected)
  try {
    return await act(parsed, shell)
  } catch (error) {
    return crashed(error, shell)
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
