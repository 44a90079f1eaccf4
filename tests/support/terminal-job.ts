/**
 * One whole job of the built program at a pseudo-terminal of some size, with the bench as the person, and everything that
 * was wrong with it: a line or a frame too large, a question not in sight, another answer recorded than was meant.
 */
import stringWidth from 'string-width'
import type { Prompt } from '../../src/core/checks/prompt.ts'
import type { Fault } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import type { Reply } from '../../src/job/view.ts'
import { english } from '../../src/wording/en/english.ts'
import type { Scene } from '../../src/wording/language.ts'
import { personAt } from './bench-person.ts'
import { envIn, NODE, PROGRAM } from './program.ts'
import { openPty, type Pty } from './pty.ts'
import type { Turn } from './terminal-controls.ts'
import { eventsIn, type Hands, standing, titleOf, workAt } from './terminal-person.ts'

export interface TerminalJob {
  readonly planFile: string
  readonly plan: Plan
  readonly symptom: string
  readonly faults: readonly Fault[]
  readonly columns: number
  readonly rows: number
  readonly hands: Hands
  /** An empty folder of the job's own. */
  readonly folder: string
  /** Each question takes the next control. */
  readonly turn: Turn
  readonly more?: readonly string[]
}

export interface TerminalJobRun {
  readonly flaws: readonly string[]
  readonly meant: readonly (string | readonly string[])[]
  readonly recorded: readonly (string | readonly string[])[]
  readonly outcome: string | undefined
  readonly code: number
}

const PAST = {
  since: 'new',
  worked: 'never',
  'comes-and-goes': 'no',
  spare: 'yes',
  tool: 'yes',
  consent: 'yes',
}

/** @param opened told at once, so that whoever asked can end it whatever happens */
export async function runAtTerminal(job: TerminalJob, opened: (pty: Pty) => void): Promise<TerminalJobRun> {
  const { columns, rows, plan, folder } = job
  const log = `${folder}/job.ndjson`
  const args = [
    PROGRAM,
    'diagnose',
    job.planFile,
    '--symptom',
    job.symptom,
    '--log',
    log,
    ...(job.more ?? []),
  ]
  const env = { ...envIn(folder), LANG: 'C.UTF-8' }
  const pty = openPty({ command: NODE, arguments: args, columns, rows, cwd: folder, env })
  opened(pty)
  const flaws: string[] = []
  pty.onDrawn(() => {
    if (pty.screen.alternate() && (pty.rows().at(-1) ?? '') !== '')
      flaws.push(`a frame as tall as the terminal:\n${pty.rows().join('\n')}`)
  })
  const person = personAt(plan, job.faults, { past: PAST })
  const told = await workAt(pty, log, person, plan, job.hands, async (prompt) => {
    const scene = { plan, done: person.history }
    flaws.push(...flawsOf(pty, prompt, scene))
    const before = standing(eventsIn(log))?.seq
    const said = await job.turn.next(prompt, answersIn(log))?.use({ pty, prompt, plan, log })
    if (standing(eventsIn(log))?.seq === before) {
      await asked(pty, prompt, scene)
      flaws.push(...flawsOf(pty, prompt, scene))
    }
    return said ?? []
  })
  await readToEnd(pty)
  pty.write('?')
  await pty.until(english.screen.head.help)
  pty.write('?')
  await pty.until(/Enter end/u)
  pty.write('\r')
  const { code } = await pty.ended
  if (pty.screen.alternate()) flaws.push('the terminal was not given back')
  if (!flat(pty.screen.history()).includes('Record of the job')) flaws.push('no record was left')
  const events = eventsIn(log)
  return {
    flaws: [...new Set([...flaws, ...tooWide(pty, columns, rows)])],
    meant: told.map(({ reply }) => said(reply)),
    recorded: events.flatMap((e) =>
      e.e === 'replied' ? [typeof e.reply === 'string' ? e.reply : [...e.reply].sort()] : [],
    ),
    outcome: events.find((e) => e.e === 'ended')?.end.outcome,
    code,
  }
}

/** What is told with the end comes first where it needs a page of its own. */
async function readToEnd(pty: Pty): Promise<void> {
  await pty.until(/Enter (?:end|go on)/u)
  if (/Enter end/u.test(pty.rows().join('\n'))) return
  pty.write('G\r')
  await pty.until(/Enter end/u)
}

/** Answers that could be taken back. */
function answersIn(log: string): number {
  const events = eventsIn(log)
  const asks = new Set(events.flatMap((e) => (e.e === 'shown' && e.prompt.show === 'ask' ? [e.seq] : [])))
  const gone = new Set(events.flatMap((e) => (e.e === 'undone' ? [e.of] : [])))
  return events.filter((e) => e.e === 'replied' && asks.has(e.to) && !gone.has(e.seq)).length
}

const said = (reply: Reply): string | readonly string[] =>
  reply.say === 'answer' ? [...reply.ids].sort() : reply.say

/** What stands at the left of the column that wide screens have, without frames and breaks. */
export const flat = (rows: readonly string[]): string =>
  rows
    .map((row) => row.split(' │ ')[0] ?? '')
    .join(' ')
    .replace(/[│┃|]/gu, ' ')
    .replace(/\s+/gu, ' ')

const HEADS = Object.values(english.screen.head).filter((head) => head !== '')

/** Long questions are cut at half of the screen; their beginning is always there. What lies over a question may name it. */
const standsThere = (rows: readonly string[], prompt: Prompt, scene: Scene): boolean =>
  !HEADS.includes(rows[2]?.split(' │ ')[0]?.trim() ?? '') &&
  flat(rows).includes(titleOf(prompt, scene).slice(0, 80))

const asked = (pty: Pty, prompt: Prompt, scene: Scene): Promise<unknown> =>
  pty.until((rows) => standsThere(rows, prompt, scene))

/** What is wrong with the screen while a question stands on it. */
function flawsOf(pty: Pty, prompt: Prompt, scene: Scene): string[] {
  const rows = pty.rows()
  const shown = rows.join('\n')
  const found: string[] = []
  const flaw = (what: string): void => void found.push(`${what}:\n${shown}`)
  if (!standsThere(rows, prompt, scene)) flaw('the question is not in sight')
  if (prompt.show === 'ask' && !rows[0]?.includes(english.screen.power[prompt.power]))
    flaw('the power is not as it is')
  const waits = shown.includes('Read this first')
  if (!waits && shown.split('▸').length !== 2) flaw('not one row is highlighted')
  if (!/\? help/u.test(shown)) flaw('the key to the help is not shown')
  const numbered = rows.flatMap(
    (row) => /^[▸ ] *\d+ {2}(\S.*)$/u.exec(row.split(' │ ')[0] ?? '')?.[1]?.trim() ?? [],
  )
  for (const [at, text] of numbered.entries())
    if (numbered.indexOf(text) < at) flaw(`two answers read the same, "${text}"`)
  return found
}

/** Lines as they were painted, each at its row: none is wider than the terminal, none in its last row. */
function tooWide(pty: Pty, columns: number, rows: number): string[] {
  const painted = [...pty.output().matchAll(PAINTED)]
  const found = painted.flatMap(([, row = '', text = '']) => {
    const plain = text.replace(SEQUENCE, '')
    return stringWidth(plain) > columns || Number(row) >= rows
      ? [`row ${row} is too wide or too low: ${plain}`]
      : []
  })
  return painted.length === 0 ? ['nothing was painted'] : found
}

const ESC = '\\u001b'
const PAINTED = new RegExp(`${ESC}\\[(\\d+);1H${ESC}\\[2K((?:(?!${ESC}\\[\\d+;1H|${ESC}\\[\\?).)*)`, 'gsu')
const SEQUENCE = new RegExp(`${ESC}\\[[0-9;?]*[A-Za-z]`, 'gu')
