/** What does not fit: a reply to a question, or something in a file. What, where, what was expected, what to do. */

import type { Problem } from '../../core/plan/problem.ts'
import type { Refusal, Refused } from '../../job/view.ts'
import { clean, shorten } from '../clean.ts'
import { readingRefusalText } from './readings.ts'

const WHY: Readonly<Record<Refused, string>> = {
  ended: 'The job has ended; nothing is asked any more',
  'no-prompt': 'Nothing is asked at the moment',
  'not-an-ask': 'This is a thing to do, not a question',
  'not-a-do': 'This is a question, not a thing to do',
  'unknown-answer': 'There is no such answer',
  'one-answer': 'One answer is wanted',
  'one-mark-each': 'Each thing can be marked in one way only',
  'nothing-to-undo': 'There is nothing to take back',
  reading: 'Nothing can be taken from this reading',
}

/** Why a reply was not taken, on one line, with what would be. */
export function refusalText(refusal: Refusal): string {
  if (refusal.reading) return readingRefusalText(refusal.reading)
  const why = WHY[refusal.problem]
  const expected = refusal.expected.map((e) => shorten(clean(e), 60))
  return expected.length === 0 ? `${why}.` : `${why}. Expected: ${expected.join(', ')}.`
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
