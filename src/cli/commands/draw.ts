/** `whichlead draw PLAN`: the wiring as text, as SVG, or as a sheet to print; findings of the audit are marked. */
import { isAbsolute, join } from 'node:path'
import { audit } from '../../core/audit/audit.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { readPlanFile } from '../../io/read-plan.ts'
import { asAscii } from '../../wording/ascii.ts'
import { sheetText } from '../../wording/drawing/sheet.ts'
import { drawSvg } from '../../wording/drawing/svg.ts'
import { drawText } from '../../wording/drawing/text.ts'
import { drawingWords } from '../../wording/en/drawing.ts'
import { findingWords } from '../../wording/en/findings.ts'
import type { ExitCode, Run } from '../command.ts'

export type Drawing = 'text' | 'svg' | 'sheet'
const DRAWINGS: readonly Drawing[] = ['text', 'svg', 'sheet']

/** The drawing as lines. Pure. @param width columns, Infinity for a pipe */
export function drawOutput(
  plan: Plan,
  drawing: Drawing,
  options: { ascii: boolean; width: number },
): string[] {
  switch (drawing) {
    case 'svg':
      return drawSvg(plan, audit(plan), drawingWords, findingWords).split('\n')
    case 'sheet':
      return sheetText(plan, audit(plan), drawingWords, findingWords).map((line) =>
        options.ascii ? asAscii(line) : line,
      )
    case 'text':
      return drawText(plan, audit(plan), drawingWords, findingWords, options)
  }
}

export const run: Run = async (given, shell): Promise<ExitCode> => {
  const [path = ''] = given.arguments
  const asked = given.flags.has('svg')
    ? 'svg'
    : given.flags.has('sheet')
      ? 'sheet'
      : (given.values.get('format') ?? 'text')
  const drawing = DRAWINGS.find((d) => d === asked)
  if (!drawing) {
    shell.err(`--format ${asked}: ${DRAWINGS.join(', ')}`)
    return 2
  }
  const read = readPlanFile(isAbsolute(path) || shell.cwd === process.cwd() ? path : join(shell.cwd, path))
  if (!read.ok) {
    for (const problem of read.problems) for (const line of shell.language.problem(problem)) shell.err(line)
    return 2
  }
  const columns = Number(
    given.values.get('width') ?? (shell.stdout.isTTY ? shell.stdout.columns : Number.POSITIVE_INFINITY),
  )
  const options = {
    ascii: given.flags.has('ascii'),
    width: Number.isNaN(columns) ? 80 : Math.max(40, columns),
  }
  for (const line of drawOutput(read.value, drawing, options)) shell.out(line)
  return 0
}
