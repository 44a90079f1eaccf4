/** Several mistakes in one file: all are told, none twice, and none that only follows from another. */
import { describe, expect, test } from 'vitest'
import { problemsOf, right } from '../../support/spoilt-plan.ts'

describe('a mistake', () => {
  test('the plan without mistakes reads', () => {
    expect(problemsOf(right)).toEqual([])
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
