/** Which jobs are looked for: dates as they are typed, and what is said of one that is none. */
import { describe, expect, test } from 'vitest'
import { filtersOf, spanOf } from '../../src/cli/jobs-query.ts'
import { english } from '../../src/wording/en/english.ts'

function asked(values: Readonly<Record<string, string>>, words: readonly string[] = []) {
  const said: string[] = []
  const query = filtersOf(
    { arguments: words, flags: new Set(), values: new Map(Object.entries(values)), lists: new Map() },
    { language: english, err: (line: string) => void said.push(line) } as never,
  )
  return { query, said: said.join('\n') }
}

describe('a date', () => {
  // Gregorian calendar: 2024 and 2000 are leap years, 2026 and 2100 are none.
  test.each([
    ['2026', '2026-01-01', '2027-01-01'],
    ['2026-03', '2026-03-01', '2026-04-01'],
    ['2026-12', '2026-12-01', '2027-01-01'],
    ['2026-02-28', '2026-02-28', '2026-03-01'],
    ['2024-02-29', '2024-02-29', '2024-03-01'],
    ['2026-12-31', '2026-12-31', '2027-01-01'],
  ])('%s begins with %s and is over with %s', (text, from, after) => {
    expect(spanOf(text)).toEqual({ from: `${from}T00:00:00.000Z`, after: `${after}T00:00:00.000Z` })
  })

  test.each(['2026-13', '2026-00', '2026-02-29', '2026-3', 'March', '', '2026-03-09T10:00'])(
    '%s is none',
    (text) => {
      expect(spanOf(text)).toBeUndefined()
    },
  )
})

describe('what is looked for', () => {
  test('takes in the whole of the last day, month or year', () => {
    expect(asked({ from: '2026-03', to: '2026-03' }, ['studio']).query).toEqual({
      words: 'studio',
      from: '2026-03-01T00:00:00.000Z',
      to: '2026-04-01T00:00:00.000Z',
    })
  })

  test.each([
    [{ from: 'soon' }, '--from takes a year, a month or a day'],
    [{ to: '2026-02-30' }, '--to takes a year, a month or a day'],
    [{ from: '2026-04', to: '2026-03' }, '--to 2026-03 lies before --from 2026-04'],
    [{ outcome: 'mended' }, '--outcome takes one of fixed'],
    [{ symptom: 'lights-drak' }, 'lights-dark'],
  ] as const)('is refused where %o', (values, text) => {
    const { query, said } = asked(values)
    expect(query).toBeUndefined()
    expect(said).toContain(text)
  })
})
