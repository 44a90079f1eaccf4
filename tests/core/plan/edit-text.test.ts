/** What was done at the bench, written into the plan: only what changed is touched, and what comes out says it. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { editPlan, type PlanEdit } from '../../../src/core/plan/edit-text.ts'
import { planEditWords } from '../../../src/wording/en/plan-edits.ts'
import { planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'

const TEXT = `# The desk by the window.
build:   Listening desk   # as on the label

board:
  fan_headers:   { CPU: { amps: 1 A },  SYS1: { amps: 1 A, drive: auto }, SYS2: {} }
parts:
  F1..F3:  { kind: fan, motor: { amps: 0.2 A } }   # three alike
  F4: { kind: fan, motor: { amps: 0.2 A } }
  Y1: { kind: fan-splitter, ways: 4 }

leads:
  # front
  - F1..F3.motor -> Y1.1..3   # all three
  - { from: F4.motor, to: board.SYS2, length: 40 cm }  # the rear one
  - Y1.in   ->   board.SYS1

settings:
  headers:
    SYS1: { drive: pwm,   curve: [[30, 40], [70, 100]] }  # quiet
  host:  { program: running }
`

const edited = (text: string, ...edits: readonly PlanEdit[]): string => {
  const made = editPlan(text, edits, 'desk.build.yaml')
  if (!made.ok) throw new Error(`${made.edit}: ${made.why}`)
  return made.text
}
/** The lines that are not the same, old and new. */
const changed = (before: string, after: string): [string[], string[]] => {
  const [a, b] = [before.split('\n'), after.split('\n')]
  return [a.filter((line) => !b.includes(line)), b.filter((line) => !a.includes(line))]
}

describe('a lead', () => {
  test('that is moved changes its one end, and nothing else on the line', () => {
    const after = edited(TEXT, { do: 'plug', plug: 'Y1.in', socket: 'board.CPU' })
    expect(changed(TEXT, after)).toEqual([['  - Y1.in   ->   board.SYS1'], ['  - Y1.in   ->   board.CPU']])
  })

  test('that is written with keys keeps its other keys and its comment', () => {
    const after = edited(TEXT, { do: 'plug', plug: 'F4.motor', socket: 'Y1.4' })
    expect(after).toContain('  - { from: F4.motor, to: Y1.4, length: 40 cm }  # the rear one')
  })

  test('in a range takes the range apart, and the comment stays', () => {
    const after = edited(
      TEXT,
      { do: 'unplug', plug: 'F4.motor' },
      { do: 'plug', plug: 'F2.motor', socket: 'board.SYS2' },
    )
    expect(after).toContain(
      '  - F1.motor -> Y1.1\n  - F2.motor -> board.SYS2\n  - F3.motor -> Y1.3   # all three\n',
    )
    expect(after).not.toContain('F4.motor')
  })

  test('that was not there is put after the last', () => {
    const without = edited(TEXT, { do: 'unplug', plug: 'Y1.in' })
    expect(without).not.toContain('Y1.in')
    expect(edited(without, { do: 'plug', plug: 'Y1.in', socket: 'board.CPU' })).toContain(
      '# the rear one\n  - Y1.in -> board.CPU\n',
    )
  })

  test('in a list on one line is changed, added and taken out there', () => {
    const flow = `${TEXT.slice(0, TEXT.indexOf('leads:'))}leads: [F1.motor -> Y1.1, Y1.in -> board.SYS1]\n`
    expect(edited(flow, { do: 'unplug', plug: 'F1.motor' })).toContain('leads: [Y1.in -> board.SYS1]')
    expect(edited(flow, { do: 'plug', plug: 'F4.motor', socket: 'Y1.2' })).toContain(
      '[F1.motor -> Y1.1, Y1.in -> board.SYS1, F4.motor -> Y1.2]',
    )
  })

  test('changes places with another', () => {
    const after = planOf(edited(TEXT, { do: 'swap', a: 'F4.motor', b: 'F1.motor' }))
    const socket = (plug: string) => after.leads.find((lead) => lead.plug === plug)?.socket
    expect([socket('F4.motor'), socket('F1.motor'), socket('F2.motor')]).toEqual([
      'Y1.1',
      'board.SYS2',
      'Y1.2',
    ])
  })
})

describe('a setting', () => {
  test.each<[string, string, string]>([
    ['headers/SYS1/drive', 'dc', '    SYS1: { drive: dc,   curve: [[30, 40], [70, 100]] }  # quiet'],
    [
      'headers/SYS1/curve',
      '[[30, 50], [70, 100]]',
      '    SYS1: { drive: pwm,   curve: [[30, 50], [70, 100]] }  # quiet',
    ],
    [
      'headers/SYS1/pulses',
      '2',
      '    SYS1: { drive: pwm,   curve: [[30, 40], [70, 100]], pulses: 2 }  # quiet',
    ],
    ['headers/SYS2/drive', 'dc', '    SYS2: { drive: dc }'],
    ['headers/board.SYS1/drive', 'dc', '    SYS1: { drive: dc,   curve: [[30, 40], [70, 100]] }  # quiet'],
    ['host/program', 'absent', '  host:  { program: absent }'],
    ['host/global_effect', 'on', '  host:  { program: running, global_effect: on }'],
  ])('%s becomes %s', (setting, value, line) => {
    const after = edited(TEXT, { do: 'set', setting, value })
    expect(after.split('\n')).toContain(line)
    expect(changed(TEXT, after)[0].length).toBeLessThanOrEqual(1)
  })

  test('gets a section of its own at the end where there are no settings', () => {
    const bare = TEXT.slice(0, TEXT.indexOf('settings:'))
    const after = edited(bare, { do: 'set', setting: 'headers/SYS1/drive', value: 'pwm' })
    expect(after).toBe(`${bare}settings:\n  headers: { SYS1: { drive: pwm } }\n`)
    expect(planOf(after).settings.headers.SYS1?.drive).toBe('pwm')
  })
})

describe('an edit that cannot be', () => {
  test.each<[PlanEdit, string]>([
    [{ do: 'plug', plug: 'F4.motor', socket: 'board.SYS9' }, 'does-not-fit'],
    [{ do: 'plug', plug: 'F4.motor', socket: 'board.SYS1' }, 'does-not-fit'],
    [{ do: 'unplug', plug: 'F9.motor' }, 'no-such-lead'],
    [{ do: 'set', setting: 'headers/SYS1/drive', value: 'warp' }, 'does-not-fit'],
    [{ do: 'set', setting: 'headers/SYS7/drive', value: 'pwm' }, 'does-not-fit'],
  ])('%j is refused', (edit, why) => {
    expect(editPlan(TEXT, [edit], 'desk.build.yaml')).toMatchObject({ ok: false, edit: 0, why })
  })

  test('says what does not fit, in the words of the plan', () => {
    const edit = { do: 'set', setting: 'headers/SYS7/drive', value: 'pwm' } as const
    const made = editPlan(TEXT, [edit], 'desk.build.yaml')
    if (made.ok) throw new Error('taken')
    expect(planEditWords.refused('set headers/SYS7/drive = pwm', made)).toMatch(/SYS7.*Expected: .*SYS1/)
  })
})

const TEN = readFileSync(
  new URL('../../../docs/examples/archive-ten-fans.build.yaml', import.meta.url),
  'utf8',
)

test('any two plugs of the ten-fan build change places, and every comment stays', () => {
  const comments = (text: string) => text.match(/(?<=^|\s)#.*$/gm) ?? []
  const { leads } = planOf(TEN)
  const lead = fc.constantFrom(...leads)
  fc.assert(
    fc.property(lead, lead, (one, other) => {
      fc.pre(one.plug !== other.plug && one.plug.split('.')[1] === other.plug.split('.')[1])
      const made = editPlan(TEN, [{ do: 'swap', a: one.plug, b: other.plug }], 'ten.build.yaml')
      // A hub that would be plugged into itself does not fit.
      if (!made.ok) {
        expect(made.why).toBe('does-not-fit')
        return
      }
      const after = new Map(planOf(made.text).leads.map((l) => [l.plug, l.socket]))
      expect([after.get(one.plug), after.get(other.plug)]).toEqual([other.socket, one.socket])
      expect(after.size).toBe(leads.length)
      expect(comments(made.text)).toEqual(comments(TEN))
    }),
    { numRuns: 15 },
  )
})
