import { describe, expect, test } from 'vitest'
import type { Problem } from '../../../src/core/plan/problem.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { standsAt } from '../../support/plan-text.ts'

const FILE = 'test.build.yaml'

const problemsOf = (text: string): readonly Problem[] => {
  const read = readPlan(text, FILE)
  return read.ok ? [] : read.problems
}

/** A small right plan; each test spoils it in one place. */
const right = `build: Listening desk
supply: { leads: { SA: { kind: sata, plugs: 2 } } }
board:
  fan_headers: { CPU: { amps: 1 A }, SYS1: { amps: 1 A, drive: auto } }
  light_headers: { L1: { volts: 5 V, amps: 3 A } }
  usb_headers: { U1: { ports: 2 } }
parts:
  F1: { kind: fan, motor: { pins: 4, amps: 0.25, start_amps: 0.5, rpm: [450, 1500] }, light: { leds: 8 } }
  F2: { kind: fan, motor: { amps: 0.2 } }
  H1: { kind: light-hub, ports: 4, chain: series, power: sata, host: usb }
  Y1: { kind: fan-splitter, ways: 2 }
leads:
  - F1.motor -> Y1.1
  - F2.motor -> Y1.2
  - Y1.in -> board.SYS1
  - F1.light -> H1.1
  - H1.power -> supply.SA.1
  - H1.usb -> board.U1.a
settings:
  headers: { SYS1: { drive: pwm, curve: [[30, 40], [70, 100]] } }
  channels: { H1: { profile: [8] } }
  host: { program: running }
light_order: [F1]
`

interface Mistake {
  readonly what: string
  readonly from: string
  readonly to: string
  /** The text at which the problem is reported, and which time it stands there. */
  readonly at: string
  readonly nth?: number
  readonly found: RegExp
  readonly expected: RegExp
  readonly todo?: RegExp
}

const mistakes: readonly Mistake[] = [
  {
    what: 'an unknown key, with the nearest known one',
    from: 'pins: 4',
    to: 'pin: 4',
    at: 'pin: 4',
    found: /the key "pin"/,
    expected: /^pins$/,
    todo: /write pins/,
  },
  {
    what: 'an unknown key at the top',
    from: 'supply:',
    to: 'suply:',
    at: 'suply',
    found: /the key "suply"/,
    expected: /^supply$/,
  },
  {
    what: 'a key that is like none',
    from: 'ways: 2',
    to: 'ways: 2, humidity: 3',
    at: 'humidity',
    found: /humidity/,
    expected: /one of kind, ways, tach_from/,
  },
  {
    what: 'an unknown kind of part',
    from: 'fan-splitter',
    to: 'fan-spliter',
    at: 'fan-spliter',
    found: /fan-spliter/,
    expected: /^fan-splitter$/,
  },
  {
    what: 'a part without a kind',
    from: 'kind: fan-splitter, ',
    to: '',
    at: 'Y1:',
    found: /without a kind/,
    expected: /one of fan, pump/,
    todo: /add kind/,
  },
  {
    what: 'a hub that does not say how many ports it has',
    from: 'ports: 4, ',
    to: '',
    at: 'H1:',
    found: /no ports/,
    expected: /whole number/,
    todo: /add ports/,
  },
  {
    what: 'a port that does not exist, with those that do',
    from: 'F2.motor -> Y1.2',
    to: 'F2.motor -> Y1.3',
    at: 'F2.motor -> Y1.3',
    found: /the port "Y1.3"/,
    expected: /Y1.in, Y1.1, Y1.2/,
  },
  {
    what: 'a mistyped port, with the nearest',
    from: 'F2.motor',
    to: 'F2.moter',
    at: 'F2.moter',
    found: /F2.moter/,
    expected: /F2.motor/,
    todo: /write F2.motor/,
  },
  {
    what: 'a header written without its board',
    from: 'board.SYS1',
    to: 'SYS1',
    at: 'Y1.in -> SYS1',
    found: /SYS1/,
    expected: /^board.SYS1$/,
  },
  {
    what: 'a part that does not exist',
    from: 'H1.usb ->',
    to: 'HH1.usb ->',
    at: 'HH1.usb',
    found: /the part "HH1"/,
    expected: /^H1$/,
    todo: /write H1/,
  },
  {
    what: 'a socket used twice, naming the other line',
    from: 'F2.motor -> Y1.2',
    to: 'F2.motor -> Y1.1',
    at: 'F2.motor -> Y1.1',
    found: /Y1.1 a second time/,
    expected: /line 13 has it already/,
  },
  {
    what: 'a plug used twice',
    from: 'F2.motor -> Y1.2',
    to: 'F1.motor -> Y1.2',
    at: 'F1.motor -> Y1.2',
    found: /F1.motor a second time/,
    expected: /line 13/,
  },
  {
    what: 'a light lead on a fan header',
    from: 'F1.light -> H1.1',
    to: 'F1.light -> board.CPU',
    at: 'F1.light -> board.CPU',
    found: /F1.light \(light plug\) in board.CPU \(fan socket\)/,
    expected: /a light socket, such as board.L1, H1.1/,
  },
  {
    what: 'a SATA plug in a USB header',
    from: 'H1.power -> supply.SA.1',
    to: 'H1.power -> board.U1.b',
    at: 'H1.power -> board.U1.b',
    found: /SATA power plug/,
    expected: /supply.SA.1/,
  },
  {
    what: 'two plugs',
    from: 'F2.motor -> Y1.2',
    to: 'F2.motor -> Y1.in',
    at: 'F2.motor -> Y1.in',
    found: /F2.motor \(fan plug\) and Y1.in \(fan plug\)/,
    expected: /one plug and one socket/,
  },
  {
    what: 'two sockets',
    from: 'Y1.in -> board.SYS1',
    to: 'Y1.2 -> board.SYS1',
    at: 'Y1.2 -> board.SYS1',
    found: /socket\) and/,
    expected: /one plug and one socket/,
  },
  {
    what: 'a USB plug of one row on a header of two',
    from: 'board.U1.a',
    to: 'board.U1',
    at: 'H1.usb -> board.U1',
    found: /board.U1/,
    expected: /board.U1.a or board.U1.b/,
  },
  {
    what: 'a fan of 50 A',
    from: 'amps: 0.25',
    to: 'amps: 50',
    at: '50,',
    found: /^50$/,
    expected: /from 0.001 to 6 A/,
    todo: /50 mA/,
  },
  {
    what: 'a negative current',
    from: 'amps: 0.25',
    to: 'amps: -0.25',
    at: '-0.25',
    found: /-0.25/,
    expected: /0.001 to 6 A/,
  },
  {
    what: 'no current at all',
    from: 'amps: 0.25',
    to: 'amps: 0',
    at: '0, start',
    found: /^0$/,
    expected: /0.001 to 6 A/,
    todo: /unknown/,
  },
  {
    what: 'less current at start than in use',
    from: 'start_amps: 0.5',
    to: 'start_amps: 0.1',
    at: '0.1',
    found: /0.1 A at start/,
    expected: /at least the steady current/,
  },
  {
    what: 'speeds the wrong way round',
    from: '[450, 1500]',
    to: '[1500, 450]',
    at: '[1500',
    found: /\[1500, 450\]/,
    expected: /lowest first/,
    todo: /\[450, 1500\]/,
  },
  {
    what: 'a duty over 100 %',
    from: '[70, 100]',
    to: '[70, 110]',
    at: '110',
    found: /110/,
    expected: /from 0 to 100 %/,
  },
  {
    what: 'temperatures of a curve that fall',
    from: '[[30, 40], [70, 100]]',
    to: '[[70, 100], [30, 40]]',
    at: '[30, 40]',
    found: /30 °C after 70 °C/,
    expected: /rise/,
  },
  {
    what: 'seven volts',
    from: 'volts: 5 V',
    to: 'volts: 7 V',
    at: '7 V',
    found: /7 V/,
    expected: /5 V or 12 V/,
  },
  {
    what: 'volts where amps are due',
    from: 'amps: 0.25',
    to: 'amps: 12 V',
    at: '12 V',
    found: /"12 V", which is a voltage/,
    expected: /a current/,
  },
  {
    what: 'a unit that there is not',
    from: 'amps: 0.25',
    to: 'amps: 0.25 Hp',
    at: '0.25 Hp',
    found: /0.25 Hp/,
    expected: /a current/,
    todo: /unit/,
  },
  {
    what: 'a decimal comma',
    from: 'amps: 0.25,',
    to: 'amps: "0,25",',
    at: '"0,25"',
    found: /0,25/,
    expected: /a current/,
    todo: /point/,
  },
  {
    what: 'words where a number is due',
    from: 'leds: 8',
    to: 'leds: many',
    at: 'many',
    found: /many/,
    expected: /whole number/,
  },
  {
    what: 'half an LED',
    from: 'leds: 8',
    to: 'leds: 8.5',
    at: '8.5',
    found: /8.5/,
    expected: /whole number/,
  },
  {
    what: 'a list where a number is due',
    from: 'leds: 8',
    to: 'leds: [8]',
    at: '[8]',
    found: /a list/,
    expected: /whole number/,
  },
  {
    what: 'a choice that is none',
    from: 'chain: series',
    to: 'chain: serial',
    at: 'serial',
    found: /serial/,
    expected: /series, parallel/,
    todo: /write series/,
  },
  {
    what: 'the tach of a way that the splitter has not',
    from: 'ways: 2',
    to: 'ways: 2, tach_from: 3',
    at: '3 }',
    found: /^3$/,
    expected: /from 1 to 2/,
  },
  {
    what: 'settings for a header that is not there',
    from: 'headers: { SYS1:',
    to: 'headers: { SYS7:',
    at: 'SYS7',
    found: /SYS7/,
    expected: /CPU, SYS1/,
  },
  {
    what: 'settings for a channel that is not there',
    from: 'channels: { H1:',
    to: 'channels: { F1:',
    at: 'F1: { profile',
    found: /F1/,
    expected: /L1|H1/,
  },
  {
    what: 'an unlit part in the light order',
    from: 'light_order: [F1]',
    to: 'light_order: [F1, F2]',
    at: 'F2]',
    found: /F2, which has no lights/,
    expected: /F1/,
  },
  {
    what: 'a part like itself in a circle',
    from: '{ kind: fan, motor: { amps: 0.2 } }',
    to: '{ like: F2 }',
    at: 'F2 }',
    found: /like: "F2"/,
    expected: /one of/,
  },
  {
    what: 'a lead without an arrow',
    from: 'F1.light -> H1.1',
    to: 'F1.light H1.1',
    at: 'F1.light H1.1',
    found: /F1.light H1.1/,
    expected: /PORT -> PORT/,
  },
  {
    what: 'ranges of different length',
    from: 'F2.motor -> Y1.2',
    to: 'F2.motor -> Y1.1..2',
    at: 'F2.motor -> Y1.1..2',
    found: /1 port to 2/,
    expected: /as many/,
  },
  {
    what: 'a name with a dot in it',
    from: '  F2:',
    to: '  F.2:',
    at: 'F.2',
    found: /F\.2/,
    expected: /letters, digits/,
  },
  {
    what: 'a name that every object has',
    from: '  F2:',
    to: '  constructor:',
    at: 'constructor',
    found: /constructor/,
    expected: /no meaning of its own/,
  },
  {
    what: 'a name that is a prototype',
    from: '  F2:',
    to: '  __proto__:',
    at: '__proto__',
    found: /__proto__/,
    expected: /no meaning of its own/,
  },
  {
    what: 'control characters in a name',
    from: '  F2:',
    to: '  "F\\e[2J":',
    at: '"F\\e',
    found: /F\\u\{1b\}\[2J/,
    expected: /letters, digits/,
  },
  {
    what: 'control characters in a text',
    from: 'Listening desk',
    to: '"Listening\\e[31m desk"',
    at: '"Listening',
    found: /\\u\{1b\}/,
    expected: /text/,
    todo: /control characters/,
  },
  {
    what: 'a file of stock that is not there',
    from: 'build:',
    to: 'uses: gone.stock.yaml\nbuild:',
    at: 'gone',
    found: /gone.stock.yaml/,
    expected: /stock file/,
  },
]

describe('a mistake is reported once, at its place, with what was expected', () => {
  test('the plan without mistakes reads', () => {
    expect(problemsOf(right)).toEqual([])
  })

  test.each(mistakes)('$what', ({ from, to, at, nth, found, expected, todo }) => {
    const text = right.replace(from, to)
    expect(text).not.toBe(right)
    const start = text.indexOf(to)
    const shift = text.slice(start).indexOf(at)
    const before = text.slice(0, start)
    const target =
      shift < 0
        ? standsAt(text, at, FILE, nth ?? 1)
        : standsAt(text, at, FILE, (nth ?? 1) + before.split(at).length - 1)
    const problems = problemsOf(text)
    const here = problems.filter((p) => found.test(p.found))
    expect(here, JSON.stringify(problems, null, 1)).toHaveLength(1)
    expect(here[0]).toMatchObject({ at: target })
    expect(here[0]?.expected).toMatch(expected)
    if (todo) expect(here[0]?.todo).toMatch(todo)
  })

  test.each([
    ['a part with one wrong value', 'amps: 0.25', 'amps: 50'],
    ['a light with a wrong count', 'leds: 8', 'leds: many'],
    ['a board header with a wrong figure', 'CPU: { amps: 1 A }', 'CPU: { amps: 12 V }'],
    ['a misnamed kind of part', 'fan-splitter', 'fan-spliter'],
    ['a hub with a mistyped key', 'chain: series', 'chian: series'],
  ])('%s causes no second complaint where leads and settings name it', (_, from, to) => {
    expect(problemsOf(right.replace(from, to))).toHaveLength(1)
  })
})

describe('all mistakes of a file are told in one go', () => {
  test('in the order of the file, each once', () => {
    const text = right
      .replace('supply:', 'suply:')
      .replace('CPU: { amps: 1 A }', 'CPU: { amps: 12 V }')
      .replace('pins: 4', 'pin: 4')
      .replace('ways: 2', 'ways: two')
      .replace('F1.light -> H1.1', 'F1.light -> board.CPU')
      .replace('profile: [8]', 'profile: [-8]')
      .replace('light_order: [F1]', 'light_order: [F9]')
    const lines = problemsOf(text).map((p) => p.at.line)
    expect(lines).toEqual([2, 4, 8, 11, 16, 17, 21, 23])
  })

  test('a part whose kind is mistyped is looked at as what was meant', () => {
    const text = 'parts:\n  F1: { kind: Fan, motor: { rpm: 1500-2000 } }\n'
    expect(problemsOf(text)).toMatchObject([
      { at: { line: 2, col: 15 }, expected: 'fan' },
      { at: { line: 2, col: 34 }, found: '"1500-2000"' },
    ])
  })

  test('parts as a list are told once', () => {
    expect(problemsOf('parts:\n  - F1: { kind: fan }\n')).toMatchObject([{ found: 'parts: a list' }])
  })

  test('a mistake in a range is told once, not once for each part', () => {
    expect(problemsOf('parts: { F1..F50: { kind: fan, motor: { amps: 99 } } }')).toHaveLength(1)
  })

  test('a part given twice is told at the second, with the line of the first', () => {
    const text = 'parts:\n  F1: { kind: fan }\n  F2: { kind: fan }\n  F1: { kind: fan }\n'
    expect(problemsOf(text)).toMatchObject([
      { at: { line: 4, col: 3 }, found: '"F1" a second time', expected: expect.stringContaining('line 2') },
    ])
    expect(problemsOf('parts:\n  F1..F3: { kind: fan }\n  F2: { kind: fan }\n')).toMatchObject([
      { at: { line: 3 } },
    ])
  })

  test('in broken YAML, wrong keys and values above the break are told as well', () => {
    const text = right.replace('pins: 4', 'pin: 4').replace('H1.usb -> board.U1.a', '[H1.usb -> board.U1.a')
    expect(problemsOf(text).map((p) => p.at.line)).toEqual([8, 18])
  })

  test('where there are hundreds the rest is counted', () => {
    const text = `parts:\n${Array.from({ length: 300 }, (_, i) => `  F${i}: { kind: fan, moter: {} }\n`).join('')}`
    const problems = problemsOf(text)
    expect(problems.length).toBeLessThan(60)
    expect(problems.at(-1)?.found).toBe('250 more problems from here on')
  })

  test('one header name for two kinds of header is told', () => {
    const text = 'board:\n  fan_headers: { A1: }\n  light_headers: { A1: }\nparts: { F1: { kind: fan } }\n'
    expect(problemsOf(text)).toMatchObject([{ at: { line: 3, col: 20 } }])
  })
})

describe('a bracket too many', () => {
  const broken = right.replace(
    'F2: { kind: fan, motor: { amps: 0.2 } }',
    'F2: { kind: fan, motor: { amps: 0.2 } }}',
  )

  test('is told once, at the bracket, and not again at every word after it', () => {
    const [problem, ...more] = problemsOf(broken)
    expect(problem).toMatchObject({ found: 'a } that closes nothing', at: { line: 9, col: 42 } })
    expect(more).toEqual([])
  })

  test('says no more than a few things of a file that is broken in many places', () => {
    const worse = broken.replace('H1: {', 'H1: [ {').replace('Y1.in ->', '] Y1.in: ->')
    expect(problemsOf(worse).length).toBeLessThanOrEqual(4)
  })
})

describe('rings of leads', () => {
  test('two splitters that feed each other', () => {
    const text = `parts: { Y1: { kind: fan-splitter, ways: 2 }, Y2: { kind: fan-splitter, ways: 2 } }
leads:
  - Y1.in -> Y2.1
  - Y2.in -> Y1.1
`
    expect(problemsOf(text)).toMatchObject([{ found: 'leads in a ring: Y1 -> Y2 -> Y1', at: { line: 4 } }])
  })

  test('a fan plugged into itself', () => {
    const text =
      'parts: { F1: { kind: fan, motor: { passes_on: yes } } }\nleads: [F1.motor -> F1.motor_out]\n'
    expect(problemsOf(text)).toMatchObject([{ found: 'F1 plugged into itself' }])
  })

  test('two controllers that feed each other with different things are no ring', () => {
    const text = `supply: { leads: { SA: { plugs: 2 } } }
parts:
  C1: { kind: controller, fan_ports: 2, light_ports: 2, fan_control: header, host: usb }
  C2: { kind: controller, fan_ports: 2, light_ports: 2, host: header }
leads:
  - C1.in -> C2.fan1
  - C2.light_in -> C1.light1
  - C1.power -> supply.SA.1
  - C2.power -> supply.SA.2
`
    expect(problemsOf(text)).toEqual([])
  })
})

describe('files that are no plans', () => {
  test.each([
    ['an empty file', '', /an empty file/],
    ['only a comment', '# to be written\n', /an empty file/],
    ['a list', '- F1\n- F2\n', /a list/],
    ['a single word', 'fans\n', /only "fans"/],
    ['a plan without parts', 'build: x\n', /no parts/],
    ['parts with nothing under it', 'parts:\n', /no parts/],
  ])('%s', (_, text, found) => {
    const problems = problemsOf(text)
    expect(problems).toHaveLength(1)
    expect(problems[0]?.found).toMatch(found)
  })

  test('a second document', () => {
    expect(problemsOf('parts: { F1: { kind: fan } }\n---\nparts: {}\n')).toMatchObject([
      { at: { line: 2, col: 1 }, found: 'a second document (---)' },
    ])
  })

  test.each([
    [
      'a bracket that is never closed',
      'build: x\nparts:\n  F1: { kind: fan, motor: { amps: 1 }\n',
      { line: 3, col: 7 },
      /never closed/,
    ],
    ['a quote that is never closed', 'build: "x\nparts: {}\n', { line: 1, col: 8 }, /quote/],
    ['a tab for an indent', 'parts:\n\tF1: { kind: fan }\n', { line: 2, col: 1 }, /tab/],
    ['a line without a colon', 'parts:\n  F1 { kind: fan }\n  F2: { kind: fan }\n', { line: 2 }, /./],
    ['an alias of nothing', 'parts: { F1: *nowhere }\n', { line: 1, col: 14 }, /"\*nowhere"/],
    ['a tag', 'parts: { F1: !fan { kind: fan } }\n', { line: 1 }, /tag/],
  ])('%s', (_, text, at, found) => {
    const problem = problemsOf(text).find((p) => found.test(p.found))
    expect(problem, JSON.stringify(problemsOf(text))).toMatchObject({ at })
  })

  test('aliases that multiply into millions of values', () => {
    const rows = 'bcdefghij'
      .split('')
      .map((name, i) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghij'[i]}`).join(',')}]`)
    expect(problemsOf(`a: &a [x,x,x,x,x,x,x,x,x]\n${rows.join('\n')}\n`)[0]?.found).toMatch(/multiply/)
  })

  test('brackets nested a hundred thousand deep', () => {
    expect(problemsOf('['.repeat(100_000))[0]?.found).toMatch(/nested/)
  })

  test('five megabytes', () => {
    const text = `parts:\n${'  # more of the same, and again\n'.repeat(160_000)}`
    expect(problemsOf(text)).toMatchObject([{ found: 'a text of 5.1 million characters' }])
  })
})
