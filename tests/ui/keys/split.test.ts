import { describe, expect, test } from 'vitest'
import { splitKeys } from '../../../src/ui/keys/split.ts'

const char = (c: string) => ({ key: 'char', char: c })

describe('one event of Ink', () => {
  test('keys that came in one read are taken apart', () => {
    expect(splitKeys('y\r', {})).toEqual([char('y'), { key: 'enter' }])
    expect(splitKeys('\r\r', {})).toEqual([{ key: 'enter' }, { key: 'enter' }])
    expect(splitKeys('abc\x03', {})).toEqual([char('a'), char('b'), char('c'), { key: 'interrupt' }])
  })

  test('a line feed is Enter, a carriage return with a line feed one Enter', () => {
    expect(splitKeys('\n', {})).toEqual([{ key: 'enter' }])
    expect(splitKeys('\r\n', {})).toEqual([{ key: 'enter' }])
  })

  test('backspace in all three of its forms erases', () => {
    for (const [input, ink] of [
      ['', { delete: true }],
      ['', { backspace: true }],
      ['\x7f', {}],
      ['h', { ctrl: true }],
    ] as const)
      expect(splitKeys(input, ink)).toEqual([{ key: 'erase' }])
  })

  test.each(['[I', '[O', '[M !!', '[<0;3;4M', '[10;5R', '[200~', '[201~', 'OP', '[?62c'])(
    'the leaked sequence %s is no key',
    (leak) => {
      expect(splitKeys(leak, {})).toEqual([])
    },
  )

  test('Alt and a letter only goes back', () => {
    expect(splitKeys('x', { meta: true })).toEqual([{ key: 'escape' }])
  })

  test('a joined emoji of a note is one character', () => {
    expect(splitKeys('é扇', {})).toEqual([char('é'), char('扇')])
  })

  test('Ctrl with other letters means nothing', () => {
    expect(splitKeys('d', { ctrl: true })).toEqual([])
    expect(splitKeys('c', { ctrl: true })).toEqual([{ key: 'interrupt' }])
  })
})
