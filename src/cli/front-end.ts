/**
 * Which front end a job gets, and how it ends: JSON lines when asked for, line by line where no screen can be drawn,
 * else the screen. The screen is loaded last and only here.
 */

import { fetchReading } from '../io/reading-source.ts'
import { SMALLEST, terminalFacts } from '../io/terminal.ts'
import type { Session } from '../job/view.ts'
import { runLines } from '../plain/lines.ts'
import { type InputLine, linesIn } from '../plain/lines-in.ts'
import { runPlain } from '../plain/plain.ts'
import type { Ended, Talk } from '../plain/talk.ts'
import { asAscii } from '../wording/ascii.ts'
import type { ExitCode, Given, Shell } from './command.ts'
import { afterJob } from './store.ts'

export type FrontEnd = 'lines' | 'plain' | 'screen'

/** A screen that is too small is told on the way. */
export function frontEndFor(given: Given, shell: Shell): FrontEnd {
  if (given.flags.has('lines')) return 'lines'
  const facts = factsOf(shell)
  if (given.flags.has('plain') || !facts.screen || facts.spoken) return 'plain'
  if (facts.columns >= SMALLEST.columns && facts.rows >= SMALLEST.rows) {
    return 'screen'
  }
  shell.err(shell.language.program.say.tooSmall(facts.columns, facts.rows))
  return 'plain'
}

export const factsOf = ({ stdin, stdout, env }: Shell) =>
  terminalFacts({ stdin, stdout, env, platform: process.platform })

/** The typed lines; leaving a loop over them does not end them, so that one thing after the other may be asked. */
export function typedLines(shell: Shell): AsyncIterable<InputLine> {
  const { stdin } = shell
  const lines = linesIn(stdin)
  return {
    [Symbol.asyncIterator]: () => ({
      next: () => {
        // A screen that was here before has stopped the terminal's reading; asking for lines alone does not begin it again.
        if (stdin.isTTY && stdin.isPaused()) stdin.resume()
        return lines.next()
      },
    }),
  }
}

const fetchFor = (shell: Shell) => (from: string) =>
  fetchReading(from, { cwd: shell.cwd, platform: process.platform })

export const talkOf = (shell: Shell, lines: AsyncIterable<InputLine>, ascii = false): Talk => ({
  lines,
  write: (text) => void shell.stdout.write(ascii ? asAscii(text) : text),
  fetch: fetchFor(shell),
  ...(shell.stdout.isTTY && shell.stdout.columns ? { columns: shell.stdout.columns } : {}),
})

const SIGNALS = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const satisfies Record<string, ExitCode>

const BY_OUTCOME: Readonly<Record<NonNullable<Ended>, ExitCode>> = {
  fixed: 0,
  'nothing-wrong': 0,
  left: 0,
  'handed-over': 1,
  declined: 1,
}

const codeOf = (ended: Ended): ExitCode => (ended === null ? 0 : BY_OUTCOME[ended])

/**
 * Runs until it ends by itself or a signal comes; what the log holds by then is kept. The signals are heard before the
 * first word is written: who reads it may stop us at once.
 */
async function untilSignal(run: () => Promise<Ended>, shell: Shell): Promise<ExitCode> {
  const handlers: [string, () => void][] = []
  const signalled = new Promise<ExitCode>((resolve) => {
    for (const [signal, code] of Object.entries(SIGNALS)) {
      const handler = () => resolve(code)
      handlers.push([signal, handler])
      process.once(signal, handler)
    }
  })
  try {
    const code = await Promise.race([run().then(codeOf), signalled])
    if (code >= 128)
      for (const line of ['', ...shell.language.program.say.interrupted(shell.job.log)]) shell.err(line)
    return code
  } finally {
    for (const [signal, handler] of handlers) process.off(signal, handler)
  }
}

/** Ink reads colour and `CI` from the environment when it is loaded; both must be right by then. */
export function prepareForScreen(shell: Shell): void {
  if (!factsOf(shell).colour) process.env.FORCE_COLOR = '0'
  delete process.env.CI
  delete process.env.CONTINUOUS_INTEGRATION
}

async function onScreen(session: Session, given: Given, shell: Shell): Promise<ExitCode> {
  prepareForScreen(shell)
  const { runUi } = await import('../ui/run.tsx')
  shell.job.onScreen = true
  const code = await runUi(session, {
    language: shell.language,
    ascii: given.flags.has('ascii') || !factsOf(shell).unicode,
    stdout: shell.stdout,
    stdin: shell.stdin,
    fetch: fetchFor(shell),
  })
  shell.job.onScreen = false
  return code === 0 ? codeOf(session.view().end?.outcome ?? null) : (code as ExitCode)
}

/** Runs an open job in a front end and closes it. `plan` is the path as it was given. */
export async function runJob(
  session: Session,
  how: { frontEnd: FrontEnd; plan: string; lines?: AsyncIterable<InputLine> },
  given: Given,
  shell: Shell,
): Promise<ExitCode> {
  shell.job.log = session.view().log
  const code = await inFrontEnd(session, how, given, shell)
  // Whoever stopped it by a signal does not wait; what is new is handed in the next time.
  if (code < 128) await afterJob(session.view().log, given, shell)
  return code
}

async function inFrontEnd(
  session: Session,
  how: { frontEnd: FrontEnd; plan: string; lines?: AsyncIterable<InputLine> },
  given: Given,
  shell: Shell,
): Promise<ExitCode> {
  try {
    if (how.frontEnd === 'screen') return await onScreen(session, given, shell)
    const talk = talkOf(
      shell,
      how.lines ?? typedLines(shell),
      how.frontEnd !== 'lines' && given.flags.has('ascii'),
    )
    const { language } = shell
    return await untilSignal(
      () =>
        how.frontEnd === 'lines'
          ? runLines(session, talk, how.plan, language)
          : runPlain(session, talk, language),
      shell,
    )
  } finally {
    await session.close()
    // A pipe that is still open would keep the program running.
    shell.stdin.destroy()
  }
}
