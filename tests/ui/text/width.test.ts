import stringWidth from 'string-width'
import { describe, expect, test } from 'vitest'
import { cutLine, line, lineText, lineWidth, padLine, span, spread, wrap } from '../../../src/ui/text/line.ts'
import { fitting, middleCut, shortened, shortenedAtWord, width } from '../../../src/ui/text/width.ts'
import fc from '../../support/fast-check.ts'

/** What names in plans are made of: Latin, Greek, Cyrillic, Hebrew, Arabic, CJK, Hangul, kana, marks, emoji. */
const letters = fc.constantFrom(
  ...'abcXYZ019 -_.()/µΩ°½→●○─│äñßжλ',
  'e\u0301',
  'שלום',
  'مروحة',
  '前',
  '扇',
  '팬',
  'フ',
  'ﾌ',
  'ｆ',
  '🌀',
  '👩‍🔧',
  '⚡',
  '⚠',
)
const text = fc.array(letters, { maxLength: 40 }).map((l) => l.join(''))

describe('columns of a text', () => {
  test('agree with the library that Ink lays out with', () => {
    fc.assert(
      fc.property(text, (t) => {
        expect(width(t)).toBe(stringWidth(t))
      }),
      { numRuns: 300 },
    )
  })

  test('agree for every letter and sign of Latin, Greek, Cyrillic, Hebrew and Arabic, punctuation, arrows and frames', () => {
    for (let code = 0x20; code < 0x2600; code = code === 0x8ff ? 0x2010 : code + 1) {
      const sign = String.fromCodePoint(code)
      if (/\p{C}|\p{Z}/u.test(sign)) continue
      for (const t of [sign, `a${sign}b`, `${sign}\u0301`]) {
        if (width(t) !== stringWidth(t))
          expect.fail(`${code.toString(16)}: ${width(t)}, not ${stringWidth(t)}`)
      }
    }
  })

  test('a fan named in Chinese takes two columns a character', () => {
    expect(width('前风扇')).toBe(6)
    expect(fitting('前风扇', 5)).toBe('前风')
  })

  test('cuts never pass the room they are given, at the end or in the middle', () => {
    fc.assert(
      fc.property(text, fc.integer({ min: 1, max: 30 }), (t, room) => {
        expect(width(shortened(t, room))).toBeLessThanOrEqual(room)
        expect(width(shortenedAtWord(t, room))).toBeLessThanOrEqual(room)
        expect(width(middleCut(t, room))).toBeLessThanOrEqual(room)
        if (width(t) <= room) expect(middleCut(t, room)).toBe(t)
      }),
    )
  })
})

test('a sentence is cut between words', () => {
  expect(shortenedAtWord('After something was changed, opened or moved', 33)).toBe(
    'After something was changed…',
  )
  expect(shortenedAtWord('wordwithoutanyblank', 9)).toBe('wordwith…')
})

describe('lines', () => {
  test('wrapping keeps every word and passes the width only for a single wide character', () => {
    fc.assert(
      fc.property(text, fc.integer({ min: 2, max: 30 }), (t, columns) => {
        const lines = wrap(t, columns)
        for (const l of lines) expect(width(l)).toBeLessThanOrEqual(columns)
        expect(lines.join('').replace(/ /g, '')).toBe(t.replace(/ /g, ''))
      }),
    )
  })

  test('cut and padded lines are exactly as wide as asked', () => {
    fc.assert(
      fc.property(fc.array(text, { maxLength: 4 }), fc.integer({ min: 1, max: 50 }), (texts, columns) => {
        const l = line(...texts.map((t) => span(t)))
        expect(lineWidth(cutLine(l, columns))).toBeLessThanOrEqual(columns)
        expect(lineWidth(padLine(cutLine(l, columns), columns))).toBe(columns)
      }),
    )
  })

  test('of a head, the right side stays whole and the left gives way', () => {
    const head = lineText(spread(line('a long name of a symptom'), line('3 left'), 20))
    expect(head).toBe('a long name…  3 left')
  })
})
