import { describe, expect, it } from 'vitest'
import { type InputLine, LONGEST_LINE, linesIn } from '../../src/plain/lines-in.ts'
import fc from '../support/fast-check.ts'

async function* chunks(...parts: Uint8Array[]): AsyncGenerator<Uint8Array> {
  yield* parts
}

async function read(...parts: Uint8Array[]): Promise<InputLine[]> {
  const lines: InputLine[] = []
  for await (const line of linesIn(chunks(...parts))) lines.push(line)
  return lines
}

const bytes = (text: string) => new TextEncoder().encode(text)

describe('lines from a stream', () => {
  it('come out the same however the bytes were cut, even inside a letter', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.string({ unit: 'grapheme' }).map((s) => s.replace(/[\r\n]/g, '')),
          { maxLength: 6 },
        ),
        fc.array(fc.nat(40), { maxLength: 20 }),
        async (lines, cuts) => {
          const all = bytes(lines.map((l) => `${l}\n`).join(''))
          const at = [...new Set(cuts.map((c) => c % (all.length + 1)))].sort((a, b) => a - b)
          const parts = [0, ...at].map((from, i) => all.subarray(from, at[i] ?? all.length))
          expect(await read(...parts)).toEqual(lines.map((text) => ({ text })))
        },
      ),
      { numRuns: 100 },
    )
  })

  it('count a last line without a break, and drop carriage returns', async () => {
    expect(await read(bytes('F2\r\nF3'))).toEqual([{ text: 'F2' }, { text: 'F3' }])
    expect(await read()).toEqual([])
  })

  it('report bytes that are no text, and go on', async () => {
    expect(await read(new Uint8Array([0xff, 0xfe, 10]), bytes('F2\n'))).toEqual([
      { trouble: 'not-text' },
      { text: 'F2' },
    ])
  })

  it('do not hold a line without an end in memory, and go on after it', async () => {
    const long = bytes('a'.repeat(LONGEST_LINE - 1))
    expect(await read(long, long, long, bytes('\nF2\n'))).toEqual([{ trouble: 'too-long' }, { text: 'F2' }])
    expect(await read(long, bytes('\n'))).toEqual([{ text: 'a'.repeat(LONGEST_LINE - 1) }])
  })
})
