/** `whichlead practice`, the built program: line by line in a pipe, by menus at a terminal, and what it refuses. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { call, envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'
import { openPty, type Pty } from '../support/pty.ts'

let folder: string
let pty: Pty | undefined
beforeEach(() => {
  folder = ownFolder()
})
afterEach(() => pty?.kill())

/** Enter right after the last one is a key tapped twice, unless another key comes between. */
const AFRESH = 'k\r'

const ONE = ['practice', SMALL, '--fault', 'F3.light:unplugged']

describe('practice in a pipe', () => {
  it('goes from the symptom to the cause by typed choices, and compares at the end', () => {
    const typed = [
      'Repair inside',
      'F3',
      'Push the light plug of fan F3 (processor cooler) into',
      'Done',
      'Done',
      'Done',
      '1',
    ].join('\n')
    const { code, out } = call(folder, ONE, { input: `${typed}\n` })
    expect(code).toBe(0)
    expect(out).toContain('F3')
    expect(out).toContain('Shut the machine down')
    expect(out).not.toContain('was left before')
    expect(out).toMatch(/You: .* Whichlead on the same fault: /u)
  })

  it('keeps no log', () => {
    call(folder, ONE, { input: '' })
    expect(call(folder, ['jobs']).out).toContain('There are no jobs yet')
  })

  it('the same number gives the same exercise', () => {
    const out = () => call(folder, ['practice', SMALL, '--level', 'medium', '--seed', '7'], { input: '' }).out
    const first = out()
    expect(first).toContain('--level medium --seed 7')
    expect(out()).toBe(first)
  })

  it('without a plan it is the demo build that is practised on', () => {
    const { code, out } = call(folder, ['practice', '--seed', '1'], { input: '' })
    expect(code).toBe(0)
    expect(out).toContain('Practice on Sound archive transfer station')
  })

  it.each([
    [['--level', 'harder'], 'There are: easy, medium, hard'],
    [['--seed', 'x1'], 'not a whole number'],
    [['--fault', 'F9.light:unplugged'], 'is not a fault of this plan'],
    [['--fault', 'F3.light:unplugged', '--level', 'hard'], 'either --fault, or --level'],
  ] as const)('%s is a mistake that is told, with 2', (args, told) => {
    const { code, err } = call(folder, ['practice', SMALL, ...args])
    expect(code).toBe(2)
    expect(err).toContain(told)
  })
})

describe('practice at a terminal', () => {
  it.each([
    [60, 20],
    [80, 24],
    [200, 60],
  ])(
    'at %i by %i: a look inside leads through the gate, and the answer stands there until it is read',
    { timeout: 120_000 },
    async (columns, rows) => {
      pty = openPty({
        command: NODE,
        arguments: [PROGRAM, ...ONE],
        cwd: folder,
        env: { ...envIn(folder), LANG: 'C.UTF-8' },
        columns,
        rows,
      })
      const at = pty
      const wait = async (text: string | RegExp): Promise<void> => {
        await at.until(text)
        expect(at.screen.wrapped()).toBe(0)
      }
      /** The exercise and each answer of the bench are read before anything is asked, over some pages on a small screen. */
      const readOn = async (head: string | RegExp, wanted: string): Promise<void> => {
        await wait(head)
        for (;;) {
          const rows = await at.until(
            (r) => r.join('\n').includes(wanted) || /1 {2}(?:Go|Read) on/u.test(r.join('\n')),
          )
          if (rows.join('\n').includes(wanted)) return
          at.write(AFRESH)
          await at.until((r) => r.join('\n') !== rows.join('\n'))
        }
      }
      await readOn('The exercise', 'What next?')
      at.write('/look inside\r')
      await wait('Look inside: where?')
      at.write('/F3\r')
      await wait('Look inside: fan F3')
      at.write('/light plug\r')
      await readOn(/Shut the machine down/u, '1  Done')
      at.write(AFRESH)
      await readOn(/The bench answers\. Power off/u, 'What next? Power off')
      at.write('q')
      expect((await at.ended).code).toBe(0)
      const left = at.screen.history().join('\n')
      expect(left).toContain('Planting a fault.')
      expect(left).toContain('It was: ')
      // One page of the terminal for all of it: nothing flashes up between two menus.
      expect(at.output().split('\u001b[?1049h')).toHaveLength(2)
    },
  )
})
