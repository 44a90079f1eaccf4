/** Jobs summed up, and what they taught, as lines. */
import { type Learned, widerOf } from '../core/infer/learned.ts'
import type { Row, Sums } from '../job/history/sums.ts'
import { clean } from './clean.ts'
import type { ReportWords } from './report/words.ts'

/** More rows than this say little. */
const MOST_ROWS = 12

export function sumLines(sums: Sums, words: ReportWords): string[] {
  const { sum, sums: heads } = words.jobs
  const table = (head: string, rows: readonly Row[], name: (n: string) => string): string[] =>
    rows.length === 0
      ? []
      : [
          `${head}:`,
          ...rows.slice(0, MOST_ROWS).map((r) => `  ${sum(r.jobs, r.minutes)}: ${name(clean(r.name))}`),
        ]
  const outcome = (n: string): string => words.outcome[n as keyof typeof words.outcome] ?? n
  const same = (n: string): string => n
  return [
    `${sum(sums.jobs, sums.minutes)}.`,
    ...table(heads.outcomes, sums.outcomes, outcome),
    ...table(heads.causes, sums.causes, same),
    ...table(heads.places, sums.places, same),
    ...table(heads.builds, sums.builds, same),
  ]
}

/** Factors nearer to 1 than this are not worth a line. */
const WORTH = 1.15

const isWorth = (factor: number): boolean => factor >= WORTH || factor <= 1 / WORTH

/**
 * The classes that are farthest from usual, those that are suspected more first; one of a wider class only where it differs
 * from that.
 */
export function learnedLines(
  { lessons, learned, since }: { lessons: number; learned: Learned; since: string | null },
  words: ReportWords,
): string[] {
  if (lessons === 0) return [words.jobs.nothingLearnt]
  const worth = [...learned].filter(
    ([key, f]) => isWorth(f) && (key === widerOf(key) || isWorth(f / (learned.get(widerOf(key)) ?? 1))),
  )
  const byName = ([a]: readonly [string, number], [b]: readonly [string, number]): number => (a < b ? -1 : 1)
  const told = worth
    .sort((a, b) => Math.abs(Math.log(b[1])) - Math.abs(Math.log(a[1])) || byName(a, b))
    .slice(0, MOST_ROWS)
    .sort((a, b) => b[1] - a[1] || byName(a, b))
  return [
    words.jobs.learnt(lessons, since),
    ...told.map(([key, factor]) => {
      const [mode = '', kind = '', spot] = key.split('|')
      return `  ${words.jobs.factor(factor, mode.replace(/-$/, ''), kind, spot)}`
    }),
    ...(worth.length > told.length ? [`  ${words.jobs.moreLearnt(worth.length - told.length)}`] : []),
  ]
}
