/**
 * Readings laid over a build: which word a figure is, what is left open and why. Figures are worked out beside each
 * check: fans of 450 to 1500 RPM on headers that ask 40 % at 30 °C and 100 % at 70 °C.
 */
import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { parseEdit } from '../../../src/core/bench/edit.ts'
import { readNames } from '../../../src/core/readings/naming.ts'
import { readText } from '../../../src/core/readings/recognize.ts'
import { takesFrom } from '../../../src/core/readings/take.ts'
import type { Takes } from '../../../src/core/readings/takes.ts'
import { build } from '../../support/build.ts'
import { readingFile } from '../../support/reading-file.ts'

const curve = [
  [30, 40],
  [70, 100],
]

const desk = build('Sound archive workstation')
  .supply('SA')
  .header('SYS1')
  .header('SYS2')
  .header('SYS3')
  .header('CPU', { drive: 'pwm' })
  .usbHeader('U1')
  .fan('F1..F3')
  .lead('F1.motor', 'board.SYS1')
  .lead('F2.motor', 'board.SYS2')
  .lead('F3.motor', 'board.SYS3')
  .lightHub('H1', ['F1', 'F2', 'F3'])
  .lead('H1.power', 'supply.SA.1')
  .lead('H1.usb', 'board.U1.a')
  .set('SYS1', { curve, alarm_below: 300 })
  .set('SYS2', { curve })
  .set('SYS3', { curve })
  .settings({ celsius: 30 })
  .plan()
const bench = compile(desk)

function takes(text: string, names: readonly string[], edits: readonly string[] = []): Takes {
  const read = readText(text)
  if (!read.ok) throw new Error(read.why)
  const named = readNames(bench, names)
  if (!named.ok) throw new Error(`${named.given}: ${named.why}`)
  const history = edits.map((e) => parseEdit(e)).filter((e) => e !== undefined)
  return takesFrom(read.reading, { build: bench, history, named: named.named })
}

const fileTakes = (name: string, names: readonly string[]) => takes(readingFile(name), names)
const said = ({ taken }: Takes) => taken.map((t) => `${t.observe.what} ${t.observe.at} ${t.value}`)
const why = ({ left }: Takes) => left.map((l) => `${l.from} ${l.why}`)

const speed = (rpm: number, more = '') =>
  `{"nct6798-isa-0290":{"Adapter":"ISA adapter","fan1":{"fan1_input":${rpm}${more}}}}`

describe('a speed', () => {
  // 40 % of 1500 is 600; a tenth of the top is 150.
  test.each([
    [0, 'zero'],
    [440, 'low'],
    [460, 'plausible'],
    [740, 'plausible'],
    [760, 'high'],
  ])('of %i RPM where 600 are asked is %s', (rpm, word) => {
    expect(said(takes(speed(rpm), ['fan1=SYS1']))).toContain(`rpm board.SYS1 ${word}`)
  })

  test('is told under what it was read and as it stood there', () => {
    expect(takes(speed(600), ['fan1=SYS1']).taken[0]).toMatchObject({ from: 'fan1', figure: '600 RPM' })
  })

  test('with no place given is left, and nothing is guessed from its name', () => {
    expect(takes(speed(600), [])).toEqual({
      taken: [],
      left: [{ from: 'fan1', why: 'no-place', figure: '600 RPM' }],
    })
  })

  test('of a chip that is named with it goes to that place alone', () => {
    const two =
      '{"a-isa-1":{"Adapter":"x","f":{"fan1_input":600}},"b-isa-2":{"Adapter":"x","f":{"fan1_input":0}}}'
    expect(said(takes(two, ['b-isa-2/fan1=SYS2', 'fan1=SYS1']))).toEqual([
      'rpm board.SYS1 plausible',
      'rpm board.SYS2 zero',
    ])
  })

  // A machine at 60 °C is asked 85 %: 1275 RPM are right there, and too fast only for a cool one.
  test('is judged by the temperatures in the reading, and left open between them', () => {
    const at = (celsius: number, rpm: number) =>
      takes(`{"a-isa-1":{"Adapter":"x","f":{"fan1_input":${rpm}},"t":{"temp1_input":${celsius}}}}`, [
        'fan1=SYS1',
      ])
    expect(said(at(30, 1275))).toContain('rpm board.SYS1 high')
    expect(why(at(60, 1000))).toContain('fan1 temperature-open')
    expect(said(at(60, 1480))).toContain('rpm board.SYS1 high')
  })

  test('that jumps within seconds is erratic; a fan that only speeds up is not', () => {
    expect(said(fileTakes('hwmon-07-splitter-erratic-tach-series.tsv', ['fan2=SYS2']))).toEqual([
      'rpm board.SYS2 erratic',
    ])
    const ramp = [0, 300, 600, 600].map((v, t) => `${t}\t/sys/class/hwmon/hwmon4/fan2_input\t${v}`).join('\n')
    expect(said(takes(ramp, ['fan2=SYS2']))).not.toContain('rpm board.SYS2 erratic')
  })

  // lm-sensors, doc/fan-divisors: with a divisor of 2 an 8-bit counter reads from 2657 RPM, with 8 from 664.
  test('of 0 says nothing where the counter cannot see so slow a fan', () => {
    expect(1_350_000 / (254 * 2)).toBeCloseTo(2657, 0)
    expect(1_350_000 / (254 * 8)).toBeCloseTo(664, 0)
    expect(why(takes(speed(0, ', "fan1_div": 8'), ['fan1=SYS1']))).toContain('fan1 too-slow-to-count')
    expect(said(takes(speed(0, ', "fan1_div": 4'), ['fan1=CPU']))).toContain('rpm board.CPU zero')
  })

  test('after two plugs changed places is judged by the fan that is there now', () => {
    const swapped = takes(speed(600), ['fan1=SYS1'], ['swap F1.motor F2.motor'])
    expect(said(swapped)).toContain('rpm board.SYS1 plausible')
    const pulled = takes(speed(600), ['fan1=SYS1'], ['unplug F1.motor'])
    expect(why(pulled)).toContain('fan1 whose-speed')
  })

  test('of a channel with a fault flag is worth nothing unless it is 0', () => {
    const names = ['fan1=SYS1', 'fan2=SYS2', 'pwm3=SYS3']
    const { taken, left } = fileTakes('hwmon-06-fault-flag-and-missing-tach.tsv', names)
    expect(said({ taken, left })).toContain('rpm board.SYS1 zero')
    expect(why(takes('hwmon4/fan1_input\t900\nhwmon4/fan1_fault\t1', ['fan1=SYS1']))).toEqual([
      'fan1 not-trusted',
    ])
  })

  test('in percent is no speed', () => {
    expect(
      why(fileTakes('redfish-06-public-thermal-percent.json', ['fan 1=SYS1', 'fan 2=SYS2', 'fan 3=SYS3'])),
    ).toEqual(['Fan 1 percent-only', 'Fan 2 percent-only', 'Fan 3 percent-only'])
  })
})

describe('an alarm', () => {
  test('is taken where the limit in the chip and the limit of the plan agree', () => {
    const { taken } = fileTakes('sensors-j-02-case-fan-zero-alarm.json', ['fan1=SYS1'])
    expect(said({ taken, left: [] })).toContain('alarm board.SYS1 yes')
  })

  // A chip alarms below its limit: with a limit of 0 a stopped fan raises none (nct6775.rst, it87.rst).
  test('that is missing because the chip has no limit says nothing', () => {
    const none = takes(speed(0, ', "fan1_min": 0, "fan1_alarm": 0'), ['fan1=SYS1'])
    expect(said(none)).not.toContain('alarm board.SYS1 no')
    expect(why(none)).toContain('fan1 other-limit')
  })
})

describe('a setting', () => {
  // The chip shows 77 of 255 in PWM mode, and 1492 RPM: the fan does not hear it.
  test('of the drive is taken in the words of the plan', () => {
    const found = fileTakes('hwmon-03-three-pin-on-pwm-header-full-speed.tsv', ['fan1=SYS1', 'fan2=SYS2'])
    expect(said(found)).toContain('setting headers/SYS1/drive pwm')
    expect(said(found)).toContain('rpm board.SYS1 high')
  })

  test('of a fixed header is not one that can be wrong', () => {
    expect(why(takes('hwmon4/fan1_input\t0\nhwmon4/pwm1_mode\t0', ['fan1=CPU']))).toContain(
      'pwm1 board-cannot-be-set',
    )
  })

  test('of a curve that asks the same within what boards round is the planned one', () => {
    const points = [
      'pwm1_auto_point1_temp\t30000',
      'pwm1_auto_point1_pwm\t103',
      'pwm1_auto_point2_temp\t70000',
      'pwm1_auto_point2_pwm\t255',
      'pwm1_enable\t5',
    ]
    const text = [...points, 'fan1_input\t600'].map((l) => `hwmon4/${l}`).join('\n')
    expect(said(takes(text, ['fan1=SYS1']))).toContain(`setting headers/SYS1/curve ${JSON.stringify(curve)}`)
  })

  // CON: "no control" is full speed on this family, and not on all chips (kernel ABI; it87.rst; pwm-fan.rst).
  test('of no control at all is full speed on a chip that is known for it, else open', () => {
    const off = (chip: string) =>
      takes(`hwmon4/name\t${chip}\nhwmon4/fan1_input\t1500\nhwmon4/pwm1_enable\t0`, ['fan1=SYS1'])
    expect(said(off('nct6798'))).toContain('setting headers/SYS1/curve [[0,100]]')
    expect(why(off('it8603'))).toContain('pwm1 off-means-unknown')
  })

  test('of pulses is what the chip counts by', () => {
    const found = fileTakes('sensors-j-05-pulses-mismatch-double.json', ['fan1=SYS1'])
    expect(said(found)).toContain('setting headers/SYS1/pulses 1')
    expect(said(found)).toContain('rpm board.SYS1 high')
  })
})

describe('a part on USB', () => {
  const byId = ['1209:0001=H1']
  test('is listed or not, by its id in a whole list', () => {
    expect(said(fileTakes('lsusb-02-controller-present.txt', byId))).toEqual(['listed H1 yes'])
    expect(said(fileTakes('lsusb-03-controller-missing.txt', byId))).toEqual(['listed H1 no'])
  })

  test('is listed or not, by its place in the tree', () => {
    expect(said(fileTakes('lsusb-t-02-controller-behind-hub-new-format.txt', ['1-9.1=H1']))).toEqual([
      'listed H1 yes',
    ])
    expect(said(fileTakes('lsusb-t-03-hub-up-controller-missing.txt', ['1-9.1=H1']))).toEqual([
      'listed H1 no',
    ])
  })

  test('named by an id is not missing from a tree that shows no ids', () => {
    expect(takes(readingFile('lsusb-t-03-hub-up-controller-missing.txt'), byId)).toEqual({
      taken: [],
      left: [],
    })
  })

  test('is not missing from a list that is cut off', () => {
    const piece = readingFile('lsusb-03-controller-missing.txt').split('\n')[1] ?? ''
    expect(why(takes(piece, byId))).toEqual(['1209:0001 list-not-whole'])
  })

  test('that never answered is not listed; a port that the log does not name says nothing', () => {
    expect(said(fileTakes('kernel-log-01-enumeration-fails.txt', ['1-9=H1']))).toEqual(['listed H1 no'])
    expect(takes(readingFile('kernel-log-01-enumeration-fails.txt'), ['1-4=H1'])).toEqual({
      taken: [],
      left: [],
    })
  })
})

describe('a name for a place', () => {
  const mistake = (text: string) => readNames(bench, [text])
  test('takes headers with or without the board, ports and parts', () => {
    const read = readNames(bench, ['fan1=SYS1', 'fan2=board.SYS2', '1209:0001=H1'])
    expect(read.ok && read.named.map((n) => n.ref)).toEqual(['board.SYS1', 'board.SYS2', 'H1'])
  })
  test('that is not in the plan is refused with the nearest one that is', () => {
    expect(mistake('fan1=SIS1')).toMatchObject({ ok: false, why: 'no-such-place', near: ['SYS1'] })
  })
  test.each(['fan1', '=SYS1', 'fan1='])('of the form %s is refused', (text) => {
    expect(mistake(text)).toMatchObject({ ok: false, why: 'form' })
  })
  test('given two places is refused', () => {
    expect(readNames(bench, ['fan1=SYS1', 'fan1=SYS2'])).toMatchObject({ ok: false, why: 'twice' })
  })
})
