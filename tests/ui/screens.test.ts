/**
 * The main screens as whole pictures, in files beside this one that somebody has looked at: a change of layout or of words
 * shows in review as what people will see. Written anew with `npx vitest run tests/ui/screens.test.ts --update`, to be read before they are kept.
 */
import { describe, expect, test } from 'vitest'
import { waitFor } from '../support/wait-for.ts'
import { type At, screenAt } from './state/screen-at.ts'

/** The keys that lead to a screen in the scripted job: dark lights on F3, to the repair. */
const SCREENS: Readonly<Record<string, readonly string[]>> = {
  'map-of-the-case': ['3 '],
  'question-about-the-past': ['3 ⏎'],
  'question-with-the-path': ['3 ⏎', '2⏎'],
  gate: ['3 ⏎', '2⏎', '1⏎'],
  'hands-in': ['3 ⏎', '2⏎', '1⏎', 'gate'],
  verdict: ['3 ⏎', '2⏎', '1⏎', 'gate', '2⏎'],
  repair: ['3 ⏎', '2⏎', '1⏎', 'gate', '2⏎', '⏎'],
  why: ['3 ⏎', '2⏎', 'w'],
  'path-so-far': ['3 ⏎', '2⏎', 'p'],
  'before-taking-back': ['3 ⏎', '2⏎', 'pu'],
  help: ['3 ⏎', '2⏎', '?'],
  leaving: ['3 ⏎', 'q'],
}

const SIZES = [
  [60, 20],
  [80, 24],
  [132, 43],
] as const

async function passGate(at: At): Promise<void> {
  await waitFor(() => expect(at.text()).toContain('All of this is done'))
  const said = at.session.said.length
  await at.type('2')
  for (let i = 0; i < 9 && at.session.said.length === said; i++) await at.type('⏎')
}

describe.each(SIZES)('at %i by %i', (columns, rows) => {
  test.each(Object.entries(SCREENS))('%s', async (name, keys) => {
    const at = screenAt(undefined, { columns, rows })
    for (const key of keys) await (key === 'gate' ? passGate(at) : at.type(key))
    // A gate shows what can be taken once the keyboard has been quiet.
    if (name === 'gate') await waitFor(() => expect(at.text()).toContain('All of this is done'))
    await expect(
      `${at
        .lines()
        .map((l) => l.trimEnd())
        .join('\n')
        .trimEnd()}\n`,
    ).toMatchFileSnapshot(`./screens/${name}-${columns}x${rows}.txt`)
  })
})

test('in plain ASCII the same screen holds no other sign', async () => {
  const at = screenAt(undefined, { columns: 80, rows: 24, ascii: true })
  await at.type('3 ⏎')
  await at.type('2⏎')
  const text = `${at
    .lines()
    .map((l) => l.trimEnd())
    .join('\n')
    .trimEnd()}\n`
  expect(text).toMatch(/^[\n -~]*$/u)
  await expect(text).toMatchFileSnapshot('./screens/question-with-the-path-ascii.txt')
})
