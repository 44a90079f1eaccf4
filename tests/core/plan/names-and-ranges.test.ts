import { describe, expect, test } from 'vitest'
import { nameTrouble } from '../../../src/core/plan/names.ts'
import { editDistance, nearest } from '../../../src/core/plan/nearest.ts'
import { expandRange, expandReference } from '../../../src/core/plan/ranges.ts'
import fc from '../../support/fast-check.ts'

describe('ranges', () => {
  test.each([
    ['F1..F3', ['F1', 'F2', 'F3']],
    ['F1..3', ['F1', 'F2', 'F3']],
    ['F3..F1', ['F3', 'F2', 'F1']],
    ['F08..F10', ['F08', 'F09', 'F10']],
    ['fan-9..fan-11', ['fan-9', 'fan-10', 'fan-11']],
    ['1..3', ['1', '2', '3']],
    ['a..c', ['a', 'b', 'c']],
    ['C..A', ['C', 'B', 'A']],
    ['Ya..Yc', ['Ya', 'Yb', 'Yc']],
    ['F1', ['F1']],
    ['F1..F1', ['F1']],
  ])('%s', (text, names) => {
    expect(expandRange(text)).toEqual(names)
  })

  test.each([
    'F1..G3',
    '..',
    'F..g',
    'F..Ga',
    'front..rear',
    'a..b..c',
    'F1..',
    '..F3',
    'F1...F3',
    '1..999999',
    'F1..F2..F3',
  ])('%s is none', (text) => {
    expect(expandRange(text)).toBeUndefined()
  })

  test.each([
    ['F1..F2.motor', ['F1.motor', 'F2.motor']],
    ['Y1.1..3', ['Y1.1', 'Y1.2', 'Y1.3']],
    ['C1.fan1..fan2', ['C1.fan1', 'C1.fan2']],
    ['Y1..Y2.1..2', ['Y1.1', 'Y1.2', 'Y2.1', 'Y2.2']],
    ['supply.SA.1..2', ['supply.SA.1', 'supply.SA.2']],
    ['board.U1.a..b', ['board.U1.a', 'board.U1.b']],
    ['board.SYS1', ['board.SYS1']],
  ])('%s as a reference', (text, refs) => {
    expect(expandReference(text)).toEqual(refs)
  })

  test('a range holds both its ends and every number between, once', () => {
    fc.assert(
      fc.property(fc.nat(300), fc.nat(300), (from, to) => {
        const names = expandRange(`F${from}..F${to}`) ?? []
        expect(names).toHaveLength(Math.abs(to - from) + 1)
        expect(new Set(names).size).toBe(names.length)
        expect(names[0]).toBe(`F${from}`)
        expect(names.at(-1)).toBe(`F${to}`)
      }),
    )
  })
})

describe('names', () => {
  test.each(['F1', 'front-top', 'Lüfter_2', '風扇1', 'SYS_FAN1', '1', 'a'])('%s may be used', (name) => {
    expect(nameTrouble(name)).toBeUndefined()
  })

  test.each([
    '',
    'F.1',
    'F 1',
    'a/b',
    'a:b',
    'a+b',
    '-a',
    'a-',
    'a->b',
    'supply',
    'board',
    'Board',
    'constructor',
    '__proto__',
    'toString',
    'x'.repeat(41),
    'F\u00001',
    'F\u200b1',
    'F\u202e1',
  ])('%j may not', (name) => {
    expect(nameTrouble(name)).toBeDefined()
  })
})

describe('the word that was meant', () => {
  test.each([
    ['pin', ['pins', 'amps', 'rpm'], 'pins'],
    ['strat_amps', ['amps', 'start_amps', 'start_volts'], 'start_amps'],
    ['startamps', ['amps', 'start_amps'], 'start_amps'],
    ['Kind', ['kind', 'like'], 'kind'],
    ['light-header', ['light_headers', 'fan_headers'], 'light_headers'],
    ['F7', ['F1', 'F2'], undefined],
    ['usb', ['fan_headers', 'usb_headers'], 'usb_headers'],
    ['humidity', ['kind', 'ways'], undefined],
    ['board.sys1', ['board.SYS2', 'board.SYS1'], 'board.SYS1'],
  ])('%s', (word, known, meant) => {
    expect(nearest(word, known)).toBe(meant)
  })

  // The classic example of the edit distance, and neighbours swapped as one slip (optimal string alignment).
  test.each([
    ['kitten', 'sitting', 3],
    ['ca', 'abc', 3],
    ['ab', 'ba', 1],
    ['', 'abc', 3],
    ['same', 'same', 0],
  ])('%s and %s are %d slips apart', (a, b, slips) => {
    expect(editDistance(a, b)).toBe(slips)
  })
})
