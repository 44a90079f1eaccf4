/**
 * Readings given on the command line: fetched and tried against the plan before a job is opened, so that a mistake in
 * them costs a sentence and no log. With `-` the reading comes through the pipe, and the job is done at the terminal.
 */
import type { Plan } from '../core/plan/plan.ts'
import { fetchReading } from '../io/reading-source.ts'
import { terminalBehindPipe } from '../io/terminal-behind-pipe.ts'
import { type HandedIn, tryReading } from '../job/readings.ts'
import type { Session } from '../job/view.ts'
import { logWordsOf } from '../wording/report/language.ts'
import type { ExitCode, Given, Shell } from './command.ts'

const PIPE = '-'

async function piped(stdin: AsyncIterable<Uint8Array | string>): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of stdin) chunks.push(Buffer.from(chunk))
  return Buffer.concat(chunks).toString('utf8')
}

/** Answers come from the terminal; where there is none, the job is left at its first open question. */
const atTerminal = (shell: Shell): Shell => {
  const stdin = shell.stdout.isTTY ? terminalBehindPipe(process.platform) : undefined
  return stdin ? { ...shell, stdin } : shell
}

export interface Fetched {
  readonly readings: readonly HandedIn[]
  readonly shell: Shell
}

/** All readings named with `--readings`, or an exit code once it was told why one cannot be had. */
export async function fetchReadings(given: Given, shell: Shell): Promise<Fetched | ExitCode> {
  const readings: HandedIn[] = []
  let after = shell
  for (const from of given.lists.get('readings') ?? []) {
    const as = given.lists.get('as') ?? []
    if (from === PIPE) {
      readings.push({ text: await piped(shell.stdin), as, by: PIPE })
      after = atTerminal(shell)
      continue
    }
    const got = await fetchReading(from, { cwd: shell.cwd, platform: process.platform })
    if (!got.ok) {
      for (const line of logWordsOf(shell.language).trouble(got.trouble)) shell.err(line)
      return 2
    }
    readings.push({ text: got.text, as, by: from })
  }
  return { readings, shell: after }
}

/** Whether something can be taken from each of them on this plan; tells what not. */
export function fitPlan(readings: readonly HandedIn[], plan: Plan, shell: Shell): boolean {
  for (const given of readings) {
    const taking = tryReading(plan, given)
    if (taking.ok) continue
    const text = shell.language.refusal({ problem: 'reading', expected: [], reading: taking.reading })
    shell.err(given.by === undefined ? text : `${given.by}: ${text}`)
    return false
  }
  return true
}

/** Hands them in, in their order. They were tried before; what the job itself refuses is told and passed over. */
export async function handIn(readings: readonly HandedIn[], session: Session, shell: Shell): Promise<void> {
  for (const given of readings) {
    const taken = await session.reply({ say: 'read', ...given })
    if (!taken.ok) shell.err(shell.language.refusal(taken.refusal))
  }
}
