/** Frames of the packed program are joined by the row; they show what Ink's own, joined by the cell, show. */
import { expect, test } from 'vitest'
import InksOwn from '../../../node_modules/ink/build/output.js'
import fc from '../../support/fast-check.ts'
import { emulatedScreen } from '../../support/screen.ts'

const rowsUrl = new URL('../../../scripts/stub-output.mjs', import.meta.url).href
const { default: Rows }: { default: typeof InksOwn } = await import(rowsUrl)

const [width, height] = [60, 12]
const sgr = (on: number, off: number) => (t: string) => `\x1b[${on}m${t}\x1b[${off}m`
const looks = [sgr(1, 22), sgr(2, 22), (t: string) => sgr(7, 27)(sgr(1, 22)(t))]

const piece = fc.record({
  gap: fc.constantFrom(0, 0, 1, 4),
  text: fc.constantFrom('▸ 1  Dark', ' ', 'fan F3', '─●─', 'ä前フ', '»SYS1«  ', 'two\nlines', ''),
  looks: fc.subarray(looks, { maxLength: 1 }),
})
const rows = fc.array(fc.array(piece, { maxLength: 4 }), { maxLength: height / 2 })

/** Rows of pieces as Ink hands them over: each with its place and what makes its look. */
async function shown(Output: typeof InksOwn, pieces: readonly (readonly Piece[])[]) {
  const output = new Output({ width, height })
  pieces.forEach((row, y) => {
    let x = 0
    for (const { gap, text, looks: transformers } of row) {
      // Room below for a second line.
      output.write(x + gap, 2 * y, text, { transformers })
      x += gap + 10
    }
  })
  const screen = emulatedScreen(width, height)
  const { output: frame, height: lines } = output.get()
  await screen.feed(frame.replaceAll('\n', '\r\n'))
  const runs = screen.runs()
  screen.dispose()
  return { runs, lines }
}

type Piece = {
  readonly gap: number
  readonly text: string
  readonly looks: ((t: string) => string)[]
}

test('pieces below and beside each other, in any look', async () => {
  await fc.assert(
    fc.asyncProperty(rows, async (pieces) => {
      expect(await shown(Rows, pieces)).toEqual(await shown(InksOwn, pieces))
    }),
    { numRuns: 30 },
  )
})
