/**
 * `engine --policy`: the chooser of steps by itself, for measuring it from outside. JSON lines in, JSON lines out:
 * a problem, then any number of standings (the power state and every answer so far), each answered with the next step.
 * It decides with the very function that a job decides with. docs/engine-policy.md has the form of every line.
 */
import * as z from 'zod/mini'
import { posterior } from '../../core/infer/belief.ts'
import { chooseStep } from '../../core/infer/choose/choose.ts'
import type { Problem } from '../../core/infer/problem.ts'
import { fitted } from '../../job/log/fitted.ts'
import { problemFaults, problemSchema, readProblem } from './engine-problem.ts'

const lineSchema = z.discriminatedUnion('type', [
  z.object({ type: z.literal('problem'), problem: problemSchema }),
  z.object({
    type: z.literal('decide'),
    mode: z.enum(['on', 'off']),
    answers: z.array(z.object({ id: z.string(), outcome: z.string() })),
  }),
  z.object({ type: z.literal('end') }),
])

type Line = z.infer<typeof lineSchema>
type Decide = Extract<Line, { type: 'decide' }>

/** What is wrong with a line: where in it, and what was expected there. */
interface Trouble {
  readonly at: string
  readonly expected: string
}

/**
 * Reads lines (one JSON object each, without the line break; empty ones are skipped) until `end` or the end of input,
 * writes one line for each `decide` and one `problem-with-line` for each line that cannot be used.
 * Resolves to the exit code: 0, or 2 where a line could not be used.
 */
export async function runEngine(
  input: AsyncIterable<string>,
  write: (line: string) => void,
): Promise<number> {
  let problem: Problem | undefined
  let number = 0
  let exitCode = 0
  const refuse = ({ at, expected }: Trouble): void => {
    exitCode = 2
    write(JSON.stringify({ type: 'problem-with-line', line: number, at, expected }))
  }
  for await (const text of input) {
    number++
    if (text.trim() === '') continue
    const line = readLine(text)
    if ('expected' in line) {
      // A problem that cannot be read must not leave the one before it to be decided on.
      if (line.at.startsWith('problem')) problem = undefined
      refuse(line)
      continue
    }
    if (line.type === 'end') break
    if (line.type === 'problem') {
      const faults = problemFaults(line.problem)
      problem = faults.length === 0 ? readProblem(line.problem).problem : undefined
      for (const { path, expected } of faults) refuse({ at: `problem.${path}`, expected })
      continue
    }
    const next = problem
      ? decide(problem, line)
      : { at: 'type', expected: 'a problem before the first decide' }
    if (typeof next === 'string') write(JSON.stringify({ next }))
    else refuse(next)
  }
  return exitCode
}

function readLine(text: string): Line | Trouble {
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch {
    return { at: '', expected: 'one JSON object on the line' }
  }
  const read = fitted(lineSchema, json)
  return read.fits ? read.value : { at: read.at, expected: read.why }
}

/** The id of the next step, or `escalate`; or what is wrong with the answers. */
function decide(problem: Problem, { mode, answers }: Decide): string | Trouble {
  const checksLeft = new Set(problem.checks.keys())
  const repairsLeft = new Set(problem.repairs.keys())
  const columns: Float64Array[] = []
  for (const [i, { id, outcome }] of answers.entries()) {
    const c = problem.checks.findIndex((check) => check.id === id)
    const r = problem.repairs.findIndex((repair) => repair.id === id)
    const check = problem.checks[c]
    const repair = problem.repairs[r]
    if (check) {
      const o = check.outcomes.indexOf(outcome)
      if (o < 0) return { at: `answers.${i}.outcome`, expected: `one of ${check.outcomes.join(', ')}` }
      if (!checksLeft.delete(c))
        return { at: `answers.${i}.id`, expected: 'a check that was not answered before' }
      columns.push(Float64Array.from(check.table, (row) => row[o] ?? 0))
    } else if (repair) {
      if (outcome !== 'stays')
        return {
          at: `answers.${i}.outcome`,
          expected: outcome === 'gone' ? 'no decide after the symptom is gone' : 'gone or stays',
        }
      if (!repairsLeft.delete(r))
        return { at: `answers.${i}.id`, expected: 'a repair that was not tried before' }
      columns.push(Float64Array.from(repair.fixes, (fixes) => 1 - fixes))
    } else return { at: `answers.${i}.id`, expected: 'the id of a check or repair of the problem' }
  }
  const { best } = chooseStep(problem, {
    belief: posterior(
      problem.suspects.map((s) => s.prior),
      columns,
    ),
    mode,
    checksLeft: [...checksLeft],
    repairsLeft: [...repairsLeft],
  })
  if (best.do === 'escalate') return 'escalate'
  return (best.do === 'check' ? problem.checks : problem.repairs)[best.index]?.id ?? 'escalate'
}
