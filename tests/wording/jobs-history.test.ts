/** What closed jobs taught, as lines. */
import { expect, test } from 'vitest'
import { english } from '../../src/wording/en/english.ts'
import { learnedLines } from '../../src/wording/jobs-history.ts'
import { reportWordsOf } from '../../src/wording/report/language.ts'

const words = reportWordsOf(english)

test('what was learnt is told farthest from usual first, and of one kind of lead only where it differs', () => {
  const learned = new Map([
    ['loose|fan', 2],
    ['loose|fan|fan', 2.1],
    ['loose|fan|light', 4],
    ['open-|light-hub', 0.4],
    ['seized|fan', 1.1],
    ['wrong|setting', 1],
    ['wrong|setting|colours', 1.5],
  ])
  expect(learnedLines({ lessons: 40, learned, since: null }, words).slice(1)).toEqual([
    '  4 times as much: loose (fan, light lead)',
    '  2 times as much: loose (fan)',
    '  1.5 times as much: wrong (setting, colours)',
    '  2.5 times less: open (light-hub)',
  ])
})

test('what is nearer to usual than a dozen others is only counted', () => {
  const less = Array.from({ length: 20 }, (_, i) => [`never-${i}|fan`, 0.8] as const)
  const lines = learnedLines(
    { lessons: 40, learned: new Map([...less, ['loose|fan', 3]]), since: null },
    words,
  )
  expect(lines).toHaveLength(14)
  expect(lines[1]).toBe('  3 times as much: loose (fan)')
  expect(lines.at(-1)).toMatch(/^ {2}and 9 more/)
})

test('while nothing was learnt, that is said', () => {
  expect(learnedLines({ lessons: 0, learned: new Map(), since: null }, words)).toEqual([
    words.jobs.nothingLearnt,
  ])
})
