/** What was seen, beside what the plan says; filled in by the job's own comparison. */
import type { Line } from '../text/line.ts'
import { type Model, sayLines } from './model.ts'

export const expectedLines = (model: Model, columns: number): Line[] =>
  sayLines(model, model.words.seen.nothing, columns)
