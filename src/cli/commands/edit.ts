/**
 * `whichlead edit PLAN CHANGE…`: writes what was done at the bench into the plan, in the words of the bench, and leaves
 * comments and order alone. Shows the lines that change; with --write it puts them into the file.
 */
import { resolve } from 'node:path'
import { parseEdit } from '../../core/bench/edit.ts'
import { editPlan, type PlanEdit } from '../../core/plan/edit-text.ts'
import { writePage } from '../../io/page-file.ts'
import { readPlanTexts } from '../../io/read-plan.ts'
import { planEditWords } from '../../wording/en/plan-edits.ts'
import { logWordsOf } from '../../wording/report/language.ts'
import type { ExitCode, Run, Shell } from '../command.ts'

/** The changes, or the first text that is none. */
function changesFrom(texts: readonly string[]): readonly PlanEdit[] | string {
  const edits: PlanEdit[] = []
  for (const text of texts) {
    const edit = parseEdit(text)
    if (edit?.do !== 'plug' && edit?.do !== 'unplug' && edit?.do !== 'swap' && edit?.do !== 'set') return text
    edits.push(edit)
  }
  return edits
}

/** Lines that differ, old before new; what is the same at the head and at the foot is left out. */
function changedLines(before: string, after: string): string[] {
  const [a, b] = [before.split('\n'), after.split('\n')]
  let head = 0
  while (head < Math.min(a.length, b.length) && a[head] === b[head]) head++
  let foot = 0
  while (foot < Math.min(a.length, b.length) - head && a.at(-1 - foot) === b.at(-1 - foot)) foot++
  return [
    ...a.slice(head, a.length - foot).map((line) => `- ${line}`),
    ...b.slice(head, b.length - foot).map((line) => `+ ${line}`),
  ]
}

async function write(path: string, text: string, shell: Shell): Promise<ExitCode> {
  const written = await writePage(resolve(shell.cwd, path), text, true)
  if (written.ok) shell.out(shell.language.program.say.written(path))
  else for (const line of logWordsOf(shell.language).trouble(written.trouble)) shell.err(line)
  return written.ok ? 0 : 2
}

export const run: Run = async (given, shell): Promise<ExitCode> => {
  const [path = '', ...changes] = given.arguments
  const edits = changesFrom(changes)
  if (typeof edits === 'string') {
    shell.err(planEditWords.notAnEdit(edits))
    return 2
  }
  const { read, texts } = readPlanTexts(resolve(shell.cwd, path))
  if (!read.ok) {
    for (const problem of read.problems) for (const line of shell.language.problem(problem)) shell.err(line)
    return 2
  }
  const included = new Map(texts.includes.map(({ file, text }) => [file, { text, file }]))
  const edited = editPlan(texts.text, edits, path, (name) => included.get(name))
  if (!edited.ok) {
    shell.err(planEditWords.refused(changes[edited.edit] ?? '', edited))
    return 2
  }
  const lines = changedLines(texts.text, edited.text)
  if (lines.length === 0) shell.out(planEditWords.same)
  for (const line of lines) shell.out(line)
  if (lines.length > 0 && !given.flags.has('write')) shell.out(planEditWords.howToWrite)
  return lines.length > 0 && given.flags.has('write') ? write(path, edited.text, shell) : 0
}
