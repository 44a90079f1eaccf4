/** What does not fit: a reply to a question, or something in a file. What, where, what was expected, what to do. */

import type { Problem } from '../../core/plan/plan.ts'
import type { Refusal } from '../../job/view.ts'
import { clean, shorten } from '../clean.ts'
import { entry } from '../entry.ts'

const WHY: Readonly<Record<string, string>> = {
  'no-prompt': 'The job has ended; nothing is asked any more',
  'not-a-do': 'That fits only a thing to do, and this is a question',
  'not-an-ask': 'That fits only a question, and this is a thing to do',
  'unknown-answer': 'There is no such answer',
  'one-answer': 'One answer is wanted',
  'nothing-to-undo': 'There is nothing to take back',
  'empty-note': 'The note is empty',
  ended: 'The job has ended',
}

export function refusalText(refusal: Refusal): string {
  const why = entry(WHY, refusal.problem) ?? clean(refusal.problem)
  const expected = refusal.expected.map((e) => shorten(clean(e), 60))
  const end = /[.!?]$/.test(why) ? '' : '.'
  return expected.length === 0 ? `${why}${end}` : `${why}${end} Expected: ${expected.join(', ')}.`
}

const dot = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`)

/** Two or three lines: place and finding, expectation, what to do. */
export function problemLines(problem: Problem): string[] {
  const { file, line, col } = problem.at
  return [
    `${clean(file)}:${line}:${col}: ${dot(shorten(clean(problem.found), 200))}`,
    ...(problem.expected ? [`  Expected: ${dot(clean(problem.expected))}`] : []),
    ...(problem.todo ? [`  To do: ${dot(clean(problem.todo))}`] : []),
  ]
}
