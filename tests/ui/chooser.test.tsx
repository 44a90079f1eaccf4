import { render } from 'ink-testing-library'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { symptomChoices } from '../../src/ui/chooser.tsx'
import { heldEnter } from '../../src/ui/keys/held-enter.ts'
import { Menu } from '../../src/ui/menu.tsx'
import type { Chosen } from '../../src/ui/state/menu-keys.ts'
import type { Taking } from '../../src/ui/state/menu-marks.ts'
import { english } from '../../src/wording/en/english.ts'
import { openPty, type Pty } from '../support/pty.ts'
import { waitFor } from '../support/wait-for.ts'
import { type Bundle, bundle } from './support/bundle.ts'

const choices = symptomChoices(['lights-dark', 'fan-still', 'zero-rpm', 'lights-stuck'], english)

function menu(list = choices, above: readonly string[] = [], columns = 80, held = heldEnter(() => 0)) {
  const taken: Chosen[] = []
  const app = render(
    <Menu
      choices={list}
      title="What is wrong?"
      above={above}
      how=""
      words={english.screen}
      ascii={false}
      size={{ columns, rows: 24 }}
      onResize={() => {}}
      held={held}
      onChosen={(chosen) => taken.push(chosen)}
    />,
  )
  return { ...app, taken, frame: () => app.lastFrame() ?? '' }
}

/** A menu that comes up when Enter was pressed in another one; `at` sets how long ago that was, milliseconds. */
function menuAfterEnter(columns: number) {
  let clock = 0
  const held = heldEnter(() => clock)
  menu(choices, [], 80, held).stdin.write('\r')
  const at = (ms: number): void => {
    clock = ms
  }
  return { ...menu(choices, [], columns, held), at }
}

function menuOfSeveral() {
  const taken: Taking['chosen'][] = []
  const app = render(
    <Menu
      choices={[{ id: 'help', label: 'Help me', alone: true }, ...choices]}
      title="What is wrong?"
      how=""
      words={english.screen}
      ascii={false}
      size={{ columns: 80, rows: 24 }}
      onResize={() => {}}
      held={heldEnter(() => 0)}
      onSeveral={(chosen) => taken.push(chosen)}
    />,
  )
  return { ...app, taken, frame: () => app.lastFrame() ?? '' }
}

describe('a row that is longer than the screen is wide', () => {
  const long = 'Set header CPU on the board to 30 %, then to 100 %. Do the fans on it follow? – 3 minutes'
  const longer = `${long} and ${'so on and '.repeat(12)}the end`
  const rows = (label: string) =>
    ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j'].map((id) => ({ id, label: `${id} ${label}` }))

  test('stands whole on a second line, so that rows which differ in the middle are told apart', () => {
    const { frame } = menu(rows(long), [], 60)
    expect(frame().replace(/\s+/gu, ' ')).toContain(`2 b ${long} 3 c`)
    expect(frame()).not.toContain('…')
    expect(frame()).toMatch(/↓ \d more/u)
  })

  test('keeps its beginning and its end if even that is too little, and is said in full below', () => {
    const { frame } = menu(rows(longer), [], 60)
    expect(frame()).toMatch(/the end\n {3}2 {2}b Set header/u)
    expect(frame()).toContain('…')
    expect(frame().slice(-400).replace(/\s+/gu, ' ')).toContain(`a ${longer}`)
  })

  test('is in sight wherever the highlight goes', async () => {
    const { stdin, frame } = menu(rows(long), [], 60)
    for (const id of ['b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j']) {
      stdin.write('j')
      await waitFor(() => expect(frame()).toMatch(new RegExp(`▸ +\\d+  ${id} Set header`, 'u')))
    }
  })
})

describe('a menu of which several can be taken', () => {
  test('Space marks and unmarks, Enter takes the marked ones in the order of the list', async () => {
    const { stdin, taken, frame } = menuOfSeveral()
    expect(frame()).toMatch(/3 {2}\[ \] A fan does not spin/u)
    stdin.write('jj j  k ')
    await waitFor(() => expect(frame()).toMatch(/3 {2}\[ \] A fan does not spin/u))
    stdin.write('k jj \r')
    expect(taken).toEqual([{ take: [1, 3] }])
  })

  test('Enter without a mark takes the highlighted row; one that stands alone cannot be marked', () => {
    const { stdin, taken, frame } = menuOfSeveral()
    stdin.write(' ')
    expect(frame()).not.toContain('[x]')
    stdin.write('\r')
    expect(taken).toEqual([{ take: [0] }])
  })

  test('a blank in what is searched for is text, and leaving takes nothing', () => {
    const { stdin, taken } = menuOfSeveral()
    stdin.write('/fan d\rq')
    expect(taken.map((t) => (typeof t === 'object' && 'take' in t ? t.take : t))).toEqual([[2]])
    const other = menuOfSeveral()
    other.stdin.write('j q')
    expect(other.taken).toEqual([{ leave: 'end' }])
  })
})

describe('a menu', () => {
  test('says the question, each symptom, and what the highlighted one means', () => {
    const { frame } = menu()
    expect(frame()).toContain('What is wrong?')
    expect(frame()).toMatch(/▸ 1 {2}Lights dead on some fans/u)
    expect(frame()).toContain('4  Lights stuck in a default pattern')
    expect(frame()).toContain('Some fans or strips stay dark')
  })

  test('down and Enter in one read take the second row', () => {
    const { stdin, taken } = menu()
    stdin.write('j\r')
    expect(taken).toEqual([{ take: 1 }])
  })

  test('keys in reads of their own, not waited for, take the row that they lead to', () => {
    const { stdin, taken } = menu()
    stdin.write('\x1b[B')
    stdin.write('\x1b[B')
    stdin.write('\r')
    expect(taken).toEqual([{ take: 2 }])
  })

  test('a digit only highlights', async () => {
    const { stdin, taken, frame } = menu()
    stdin.write('3')
    await waitFor(() => expect(frame()).toMatch(/▸ 3 {2}A header reports 0 RPM/u))
    expect(taken).toEqual([])
    stdin.write('\r')
    expect(taken).toEqual([{ take: 2 }])
  })

  test('rows can be narrowed by typing, and what is highlighted then is what is taken', async () => {
    const { stdin, taken, frame } = menu()
    stdin.write('/0 rpm')
    await waitFor(() => expect(frame()).toMatch(/Find: 0 rpm_\n▸ 1 {2}A header reports 0 RPM/u))
    expect(frame()).not.toContain('Lights dead')
    stdin.write('\r')
    expect(taken).toEqual([{ take: 2 }])
  })

  test('Escape first shows all rows again, then goes one level back', async () => {
    const { stdin, taken, frame } = menu()
    stdin.write('/nothing like it')
    await waitFor(() => expect(frame()).toContain('Nothing has that in its name'))
    stdin.write('\r')
    stdin.write('\x1b')
    await waitFor(() => expect(frame()).toContain('Lights dead'))
    expect(taken).toEqual([])
    stdin.write('\x1b')
    await waitFor(() => expect(taken).toEqual([{ leave: 'back' }]))
  })

  test('what is known already stands above the rows, its last lines where there is no room for all', () => {
    const above = Array.from({ length: 30 }, (_, i) => `Seen: thing ${i + 1}.`)
    const { frame } = menu(choices, above)
    expect(frame()).toContain('Seen: thing 30.')
    expect(frame()).not.toContain('Seen: thing 1.')
    expect(frame()).toContain('1  Lights dead on some fans')
    expect(frame().split('\n').length).toBeLessThan(24)
  })

  test('Enter in an empty menu takes nothing', () => {
    const { stdin, taken } = menu([])
    stdin.write('\r')
    stdin.write('q')
    expect(taken).toEqual([{ leave: 'end' }])
  })

  test('Enter tapped twice takes nothing in the menu that follows, and says so; once more takes it', async () => {
    const next = menuAfterEnter(60)
    next.at(130)
    next.stdin.write('\r')
    await waitFor(() =>
      expect(next.frame()).toContain('Enter came twice or was held: only the first counts.'),
    )
    expect(next.taken).toEqual([])
    next.at(2000)
    next.stdin.write('\r')
    expect(next.taken).toEqual([{ take: 0 }])
  })

  test('an Enter in doubt is taken before the keys that come after it, and those find the menu gone', () => {
    const next = menuAfterEnter(80)
    next.at(500)
    next.stdin.write('\r')
    expect(next.taken).toEqual([])
    next.stdin.write('j\r')
    expect(next.taken).toEqual([{ take: 0 }])
  })

  test('Enter right after another key is meant, however soon it comes', () => {
    const next = menuAfterEnter(80)
    next.stdin.write('j\r')
    expect(next.taken).toEqual([{ take: 1 }])
  })

  test('Ctrl+C glued to other keys leaves', () => {
    const { stdin, taken } = menu()
    stdin.write('ab\x03')
    expect(taken).toEqual([{ leave: 'interrupt' }])
  })
})

describe('a menu at a terminal', () => {
  let program: Bundle
  let pty: Pty | undefined
  beforeAll(async () => {
    program = await bundle('choose.ts')
  })
  afterEach(async () => {
    pty?.kill()
    await pty?.ended
  })
  afterAll(() => program.remove())
  const start = (columns: number, rows: number): Pty => {
    pty = openPty({ command: process.execPath, arguments: [program.file], columns, rows })
    return pty
  }

  test('of thirteen rows the tenth is reached by its number, also where not all are seen at once', async () => {
    for (const [columns, rows] of [
      [60, 20],
      [80, 24],
    ] as const) {
      const at = start(columns, rows)
      await at.until('What is wrong?')
      at.write('10')
      await at.until(/▸ 10 {2}A fan too slow/u)
      at.write('\r')
      expect((await at.ended).code).toBe(0)
      expect(at.screen.history().join('\n')).toContain('taken: odd-reading')
    }
  })

  test('a burst takes what the last key before Enter highlighted', async () => {
    const at = start(80, 24)
    await at.until('What is wrong?')
    at.write('jj\x1b[Bk\r')
    await at.ended
    expect(at.screen.history().join('\n')).toContain('taken: zero-rpm')
  })

  test('Escape leaves with nothing taken, Ctrl+C with 130', async () => {
    const leaves = start(80, 24)
    await leaves.until('What is wrong?')
    leaves.write('\x1b')
    expect((await leaves.ended).code).toBe(0)
    expect(leaves.screen.history().join('\n')).toContain('taken: nothing')
    const breaks = start(80, 24)
    await breaks.until('What is wrong?')
    breaks.write('\x03')
    expect((await breaks.ended).code).toBe(130)
  })
})
