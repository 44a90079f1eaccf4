/**
 * Numbers, days and times in the person's locale. Expected forms are those of the Unicode locale data (CLDR): a comma
 * before decimals in German, French and Turkish, a point in English; 26.11.2026 in German, 11/26/2026 in American English.
 */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { figuresOf, tagOf } from '../../src/cli/locale.ts'
import { english } from '../../src/wording/en/english.ts'
import { figures, inFigures, NEUTRAL } from '../../src/wording/figures.ts'
import { localised, neutral } from '../../src/wording/localised.ts'
import { archivePlan } from '../support/archive-plan.ts'
import { ownFolder } from '../support/own-folder.ts'
import { call } from '../support/program.ts'

const AT = '2026-11-26T15:04:05.000Z'

describe('which locale', () => {
  test.each([
    ['de_DE.UTF-8', 'de-DE'],
    ['fr', 'fr'],
    ['pt_BR.ISO-8859-1@euro', 'pt-BR'],
    ['sr_RS@latin', 'sr-Latn-RS'],
    ['C', undefined],
    ['C.UTF-8', undefined],
    ['POSIX', undefined],
    ['', undefined],
    [undefined, undefined],
    ['../etc', undefined],
    ['xx_YY', undefined],
  ])('%s is %s', (locale, tag) => expect(tagOf(locale)).toBe(tag))

  test('LC_ALL goes before the category, the category before LANG, and an empty one is none', () => {
    const half = (env: Record<string, string>) => (figuresOf(env) ?? NEUTRAL).number(0.5, 1)
    expect(half({ LANG: 'en_GB.UTF-8', LC_NUMERIC: 'de_DE.UTF-8' })).toBe('0,5')
    expect(half({ LANG: 'de_DE.UTF-8', LC_NUMERIC: 'C' })).toBe('0.5')
    expect(half({ LC_ALL: 'C', LANG: 'de_DE.UTF-8', LC_NUMERIC: 'de_DE.UTF-8' })).toBe('0.5')
    expect(half({ LC_ALL: '', LANG: 'fr_FR.UTF-8' })).toBe('0,5')
  })

  test('C, POSIX and nothing at all are neutral', () => {
    for (const env of [{}, { LANG: 'C.UTF-8' }, { LC_ALL: 'POSIX', LANG: 'de_DE' }])
      expect(figuresOf(env)).toBeUndefined()
  })

  test('numbers by one locale, times by another', () => {
    const both = figuresOf({ LC_NUMERIC: 'de_DE.UTF-8', LC_TIME: 'C' }) ?? NEUTRAL
    expect(both.number(4.75, 2)).toBe('4,75')
    expect(both.moment(AT, true)).toBe('2026-11-26 15:04 UTC')
  })
})

describe('forms', () => {
  test('neutral: a point, ISO 8601, UTC', () => {
    expect([NEUTRAL.number(2.5, 1), NEUTRAL.number(3, 1), NEUTRAL.number(1450, 0)]).toEqual([
      '2.5',
      '3',
      '1450',
    ])
    expect(NEUTRAL.moment(AT)).toBe('2026-11-26 15:04')
    expect(NEUTRAL.moment(AT, true)).toBe('2026-11-26 15:04 UTC')
  })

  test('days as they are written there, in digits that stand on headers too, thousands not parted', () => {
    // Noon in UTC is the same day from Honolulu to Auckland in November, but not in Kiribati: so the day alone is not checked there.
    const noon = '2026-11-26T12:00:00.000Z'
    const day = (locale: string) => figuresOf({ LANG: locale })?.day(noon)
    expect(day('de_DE')).toMatch(/^2[67]\.11\.2026$/u)
    expect(day('en_US')).toMatch(/^11\/2[67]\/2026$/u)
    expect(day('ar_EG')).toMatch(/2026/u)
    expect(figuresOf({ LANG: 'de_DE' })?.number(1450, 0)).toBe('1450')
    expect(figuresOf({ LANG: 'ar_EG' })?.number(12.5, 1)).toMatch(/^12\D5$/u)
  })

  test('a moment that is none is said as it stands', () => {
    expect(figuresOf({ LANG: 'de_DE' })?.moment('never')).toBe('never')
  })
})

describe('a language in the figures of a place', () => {
  const german = localised(english, figuresOf({ LANG: 'de_DE.UTF-8' }))

  test('all that it says has them, however deep it is made', () => {
    expect(english.labels.minutes(2.5)).toBe('2.5 minutes')
    expect(german.labels.minutes(2.5)).toBe('2,5 minutes')
    const finding = {
      rule: 'header-over-current',
      severity: 'may-not-work',
      at: 'board.SYS1',
      refs: ['board.SYS1'],
      figure: 1.25,
      limit: 1,
      unit: 'A',
      facts: { at: 'board.SYS1', fans: ['F1', 'F2'] },
      assumed: [],
    } as unknown as Parameters<typeof english.finding>[0]
    const own = { plan: archivePlan }
    expect(german.finding(finding, own).join(' ')).toContain('1,25 A')
    expect(english.finding(finding, own).join(' ')).toContain('1.25 A')
  })

  test('names with a point in them stay what they are', () => {
    const scene = { plan: { parts: [], leads: [], board: {}, supply: { leads: [] } } }
    const ref = (l: typeof english) =>
      l.ref('F1.motor', scene as unknown as Parameters<typeof english.ref>[1])
    expect(ref(german)).toBe(ref(english))
  })

  test('programs get it without, and nothing is left behind when a sentence cannot be made', () => {
    expect(neutral(german)).toBe(english)
    expect(neutral(english)).toBe(english)
    const breaks = inFigures(
      () => {
        throw new Error(figures().number(0.5, 1))
      },
      figuresOf({ LANG: 'de_DE' }),
    )
    expect(breaks).toThrow('0,5')
    expect(figures()).toBe(NEUTRAL)
  })

  test('without a locale it is the same language', () => expect(localised(english, undefined)).toBe(english))
})

describe('the built program', () => {
  const log = fileURLToPath(new URL('../fixtures/logs/format-1.ndjson', import.meta.url))
  const report = (env: Record<string, string>, ...more: string[]) =>
    call(ownFolder(), ['report', log, ...more], { env }).out
  const began = (JSON.parse(readFileSync(log, 'utf8').split('\n')[0] ?? '') as { at: string }).at
  const GERMAN = { LC_ALL: 'de_DE.UTF-8', TZ: 'Asia/Tokyo' }

  test('tells a report with the days and clock of the place, and its zone', () => {
    // Tokyo is nine hours ahead of UTC, all the year round.
    const hour = String(Number(began.slice(11, 13)) + 9).padStart(2, '0')
    expect(began.slice(0, 10)).toBe('2026-03-03')
    expect(report(GERMAN)).toContain(`03.03.2026, ${hour}:${began.slice(14, 16)} GMT+9`)
    expect(report({ TZ: 'Asia/Tokyo' })).toContain(`2026-03-03 ${began.slice(11, 16)} UTC`)
  })

  test('tells programs the same whatever the locale', () => {
    expect(report(GERMAN, '--json')).toBe(report({}, '--json'))
  })
})
