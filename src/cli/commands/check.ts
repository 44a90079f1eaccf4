/**
 * `whichlead check PLAN`: everything that is wrong with a plan as written, before anything is switched on. Exit 0
 * when nothing is, 1 from `may-not-work` upward (with --strict from anything), 2 when the plan cannot be read.
 */
import { isAbsolute, join } from 'node:path'
import { audit } from '../../core/audit/audit.ts'
import type { Finding, Severity } from '../../core/audit/finding.ts'
import type { Plan } from '../../core/plan/plan.ts'
import type { Problem, Read } from '../../core/plan/problem.ts'
import { readPlanFile } from '../../io/read-plan.ts'
import { asAscii } from '../../wording/ascii.ts'
import { checkLines, counted, findingRecord } from '../../wording/check-list.ts'
import { findingWords } from '../../wording/en/findings.ts'
import type { Language } from '../../wording/language.ts'
import { sarifOf, sarifOfProblems } from '../../wording/sarif.ts'
import type { ExitCode, OwnWords, Speak } from '../command.ts'
import { version } from '../version.ts'

export type Format = 'text' | 'json' | 'lines' | 'sarif'
const FORMATS: readonly Format[] = ['text', 'json', 'lines', 'sarif']

export interface CheckOptions {
  readonly format: Format
  readonly strict: boolean
  readonly ascii: boolean
  /** Columns; Infinity for a pipe. */
  readonly width: number
  readonly version: string
}

export interface Output {
  readonly code: ExitCode
  readonly out: readonly string[]
  readonly err: readonly string[]
}

const MILD: ReadonlySet<Severity> = new Set(['untidy', 'unknown'])

/** What the command prints for a plan that was read, or not. The language is only loaded for one that was not. */
export async function checkOutput(read: Read<Plan>, speak: Speak, options: CheckOptions): Promise<Output> {
  if (!read.ok) return unreadable(read.problems, await speak(), options)
  const findings = audit(read.value)
  const broken = findings.some((f) => options.strict || !MILD.has(f.severity))
  return {
    code: broken ? 1 : 0,
    out: shown(read.value, findings, options),
    err: [],
  }
}

function shown(plan: Plan, findings: readonly Finding[], options: CheckOptions): string[] {
  const records = () => findings.map((f) => findingRecord(f, findingWords, plan))
  switch (options.format) {
    case 'json':
      return [JSON.stringify({ plan: plan.build, counts: counted(findings), findings: records() }, null, 1)]
    case 'lines':
      return records().map((record) => JSON.stringify(record))
    case 'sarif':
      return [JSON.stringify(sarifOf(findings, findingWords, options.version), null, 1)]
    case 'text': {
      const lines = checkLines(plan, findings, findingWords, options.width)
      return options.ascii ? lines.map(asAscii) : lines
    }
  }
}

function unreadable(
  problems: readonly Problem[],
  language: Language,
  { format, version: v }: CheckOptions,
): Output {
  const err = [
    ...problems.flatMap((problem) => language.problem(problem)),
    language.program.say.wiringNotChecked,
  ]
  switch (format) {
    case 'json':
      return { code: 2, out: [JSON.stringify({ problems }, null, 1)], err: [] }
    case 'lines':
      return { code: 2, out: problems.map((problem) => JSON.stringify({ problem })), err: [] }
    case 'sarif':
      return { code: 2, out: [JSON.stringify(sarifOfProblems(problems, v), null, 1)], err: [] }
    case 'text':
      return { code: 2, out: [], err }
  }
}

const formatOf = (given: {
  flags: ReadonlySet<string>
  values: ReadonlyMap<string, string>
}): Format | undefined => {
  if (given.flags.has('json')) return 'json'
  if (given.flags.has('lines')) return 'lines'
  const asked = given.values.get('format') ?? 'text'
  return FORMATS.find((format) => format === asked)
}

export const ownWords: OwnWords = async (given, shell, speak) => {
  const [path = ''] = given.arguments
  const format = formatOf(given)
  if (!format) {
    shell.err(`--format ${given.values.get('format')}: ${FORMATS.join(', ')}`)
    return 2
  }
  const read = readPlanFile(isAbsolute(path) || shell.cwd === process.cwd() ? path : join(shell.cwd, path))
  const output = await checkOutput(read, speak, {
    format,
    strict: given.flags.has('strict'),
    ascii: given.flags.has('ascii'),
    width: shell.stdout.isTTY ? Math.max(40, shell.stdout.columns) : Number.POSITIVE_INFINITY,
    version,
  })
  for (const line of output.out) shell.out(line)
  for (const line of output.err) shell.err(line)
  return output.code
}
