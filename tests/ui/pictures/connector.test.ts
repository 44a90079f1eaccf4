import { describe, expect, test } from 'vitest'
import { pinsOf } from '../../../src/core/plan/ports.ts'
import { CONTACTS, rightVolts } from '../../../src/ui/pictures/contacts.ts'
import { askLit, doReseat, fakeSession } from '../../support/fake-session.ts'
import { screenAt } from '../state/screen-at.ts'

const carried = (kind: keyof typeof CONTACTS): Record<number, string> =>
  Object.fromEntries(CONTACTS[kind].flat().map((c) => [c.pin, c.carries]))

describe('contacts, against published pin tables', () => {
  /** 4-Wire PWM Controlled Fans Specification, table 1. */
  test('a fan header has ground, 12 V, tach and control, from pin 1 on', () => {
    expect(carried('fan4')).toEqual({ 1: 'GND', 2: '12V', 3: 'TACH', 4: 'CONTROL' })
    expect(carried('fan3')).toEqual({ 1: 'GND', 2: '12V', 3: 'TACH' })
  })

  /** Desktop-board manuals, tables of the addressable and of the plain light header. */
  test('a 5 V light header has no third pin, a 12 V one has all four', () => {
    expect(carried('light5')).toEqual({ 1: '5V', 2: 'DATA', 3: 'key', 4: 'GND' })
    expect(carried('light12')).toEqual({ 1: '12V', 2: 'G', 3: 'R', 4: 'B' })
  })

  /** PC hardware handbook, table of SATA power pins. */
  test('a SATA supply plug has three contacts a rail', () => {
    const pins = carried('sata')
    const of = (rail: string) => Object.keys(pins).filter((pin) => pins[Number(pin)] === rail)
    expect(of('3V3')).toEqual(['1', '2', '3'])
    expect(of('5V')).toEqual(['7', '8', '9'])
    expect(of('12V')).toEqual(['13', '14', '15'])
    expect(of('GND')).toEqual(['4', '5', '6', '10', '12'])
  })

  /** Encyclopedia article on the peripheral connector. */
  test('a peripheral plug has 12 V at pin 1 and 5 V at pin 4', () => {
    expect(carried('peripheral')).toEqual({ 1: '12V', 2: 'GND', 3: 'GND', 4: '5V' })
  })

  /** Desktop-board manual, USB 2.0 header table. */
  test('a USB 2.0 header has its supply at 1 and 2, ground at 7 and 8, no pin 9', () => {
    expect(carried('usb2')).toMatchObject({ 1: '5V', 2: '5V', 7: 'GND', 8: 'GND', 9: 'key', 10: 'unused' })
    expect(CONTACTS.usb2.map((row) => row.map((c) => c.pin % 2))).toEqual([
      [1, 1, 1, 1, 1],
      [0, 0, 0, 0, 0],
    ])
  })

  test('every conductor that a port has can be found on its drawing', () => {
    for (const kind of ['fan3', 'fan4', 'light12', 'sata', 'peripheral', 'usb2'] as const)
      expect(Object.values(carried(kind))).toEqual(expect.arrayContaining([...pinsOf[kind]]))
    // Returned light data has a lead of its own, no contact of the usual plug.
    expect(Object.values(carried('light5'))).toEqual(
      expect.arrayContaining(pinsOf.light5.filter((c) => c !== 'DATA_BACK')),
    )
  })

  /** 4-Wire PWM Controlled Fans Specification 2.1.1 (11.4 to 12.6 V); USB power text (4.75 to 5.25 V). */
  test('what is right is within 5 %', () => {
    expect(rightVolts('12V')?.from).toBeCloseTo(11.4)
    expect(rightVolts('12V')?.to).toBeCloseTo(12.6)
    expect(rightVolts('5V')?.from).toBeCloseTo(4.75)
    expect(rightVolts('5V')?.to).toBeCloseTo(5.25)
    expect(rightVolts('DATA')).toBeUndefined()
  })
})

const measure = (at: string) => ({
  ...askLit,
  observe: [{ what: 'volts' as const, at }],
  answers: ['none', 'low', 'right', 'high'].map((value) => ({ id: value, means: [value] })),
})

/** The letter over which column the pin's number stands. */
function letterAt(all: readonly string[], pin: number): string {
  const top = all.findIndex((l) => l.includes('┌'))
  const [head = '', , letters = ''] = all.slice(top - 1).map((l) => l.slice(all[top]?.indexOf('┌')))
  return letters[new RegExp(` ${pin}( |$)`).exec(head)!.index + 1] ?? ''
}

describe('a measurement', () => {
  test('shows where both probes go, beside the answers', () => {
    const { lines, text } = screenAt([{ prompt: measure('board.SYS1/12V') }])
    expect(letterAt(lines(), 2)).toBe('R')
    expect(letterAt(lines(), 1)).toBe('B')
    expect(text()).toMatch(/1 {2}No volts.*2 {6}3 {6}4/)
    expect(text()).toContain('11.4 to 12.6 V')
  })

  test('at a 5 V light header the red probe goes to pin 1, and the missing pin is shown', () => {
    const { lines } = screenAt([{ prompt: measure('board.L1/5V') }])
    expect([1, 2, 3, 4].map((pin) => letterAt(lines(), pin))).toEqual(['R', 'o', 'x', 'B'])
  })

  test('where it does not fit beside them it is one key away', async () => {
    const at = screenAt([{ prompt: measure('supply.SA.1/5V') }], { columns: 60, rows: 20 })
    expect(at.text()).not.toContain('15')
    await at.type('v')
    expect(letterAt(at.lines(), 7)).toBe('R')
    expect(at.text()).toContain('L-shaped key')
  })

  test('of a USB header only the row of the port in question is probed', async () => {
    const at = screenAt([{ prompt: measure('board.U1.b/5V') }])
    const rows = at.lines().filter((l) => /│.*o.*│/u.test(l))
    expect(rows).toHaveLength(2)
    expect(rows[0]).not.toMatch(/│.*R/u)
    expect(rows[1]).toMatch(/R +o +o +B/)
  })

  test('a USB 3 header has two rows that carry unlike, each with its own words', async () => {
    const view = fakeSession([]).view()
    const usbHeaders = [{ id: 'U3', kind: 'usb3', ports: 2 }] as unknown as typeof view.plan.board.usbHeaders
    const plan = { ...view.plan, board: { ...view.plan.board, usbHeaders } }
    const over = { plan }
    const at = screenAt([{ prompt: measure('board.U3/5V') }], { columns: 60, rows: 20, over })
    await at.type('v')
    const lines = at.lines()
    // Pin tables of desktop-board manuals: 5 V at pins 1 and 19, ground at 4, 7, 13 and 16, no pin 20.
    expect([1, 4, 5].map((pin) => letterAt(lines, pin))).toEqual(['R', 'B', 'o'])
    expect(lines.filter((l) => l.includes('5 V') && l.includes('GND'))).toHaveLength(2)
    expect(lines.some((l) => /20 +19 +18/u.test(l))).toBe(true)
    const pins = Object.fromEntries(CONTACTS.usb3.flat().map((c) => [c.pin, c.carries]))
    expect(pins).toMatchObject({ 1: '5V', 19: '5V', 4: 'GND', 7: 'GND', 13: 'GND', 16: 'GND', 20: 'key' })
  })

  test('nothing is probed in a step, but its connector can be looked at', async () => {
    const at = screenAt([{ prompt: doReseat }])
    await at.type('v')
    expect(at.text()).toContain('5 V light connector')
    expect(at.text()).not.toContain('red probe')
    const none = screenAt([{ prompt: askLit }])
    await none.type('v')
    expect(none.text()).toContain('no connector to draw')
  })
})
