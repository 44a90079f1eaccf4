/** Sequences as xterm's control sequence document and the VT220 manual give them. */
import { describe, expect, test } from 'vitest'
import { ESCAPE, rawKeys } from '../../../src/ui/keys/raw.ts'

const keys = (read: string): string[] => rawKeys(read).keys

describe('what a terminal sends', () => {
  test('keys glued in one read come out one by one', () => {
    expect(keys('jj\r')).toEqual(['j', 'j', '\r'])
    expect(keys('abc\x03')).toEqual(['a', 'b', 'c', '\x03'])
    expect(keys('\x1b[B\r')).toEqual(['\x1b[B', '\r'])
  })

  test.each([
    ['focus in and out', '\x1b[I\x1b[O'],
    ['a mouse click, old and new form', '\x1b[M !!\x1b[<0;10;5M\x1b[<0;10;5m'],
    ['a cursor report', '\x1b[10;5R'],
    ['an answer to a device query', '\x1b[?62;4c'],
    ['a colour report', '\x1b]11;rgb:0000/0000/0000\x07'],
    ['a pasted text', '\x1b[200~rm x\r\x1b[201~'],
    ['function keys, with and without Ctrl', '\x1bOP\x1b[1;5P\x1b[25~\x1b[15;5~'],
    ['an answer of the keyboard protocol', '\x1b[?1u'],
  ])('%s is no key', (_name, read) => {
    expect(rawKeys(read)).toEqual({ keys: [], rest: '' })
    expect(keys(`j${read}\r`)).toEqual(['j', '\r'])
  })

  test('arrows are arrows in both modes and with Shift or Ctrl', () => {
    expect(keys('\x1b[A\x1bOA\x1b[1;5A')).toEqual(['\x1b[A', '\x1b[A', '\x1b[A'])
  })

  test('the keypad gives its Enter and its digits', () => {
    expect(keys('\x1bOq\x1bOM')).toEqual(['1', '\r'])
  })

  test('a sequence cut in two by the line is put together again', () => {
    const first = rawKeys('j\x1b[')
    expect(first).toEqual({ keys: ['j'], rest: '\x1b[' })
    expect(rawKeys(`${first.rest}B`)).toEqual({ keys: ['\x1b[B'], rest: '' })
  })

  test('Escape by itself waits a little, then is Escape', () => {
    expect(rawKeys('\x1b')).toEqual({ keys: [], rest: '\x1b' })
    expect(rawKeys('\x1b', true).keys).toEqual([ESCAPE])
  })

  test('Escape and a letter in one read goes back and does nothing else', () => {
    expect(keys('\x1bx')).toEqual([ESCAPE])
    expect(keys('\x1b\x1b[A')).toEqual([ESCAPE, '\x1b[A'])
  })
})
