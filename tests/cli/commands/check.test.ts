/** `whichlead check`: what is printed and how it ends, for people, programs and editors. */
import { describe, expect, test } from 'vitest'
import { type CheckOptions, checkOutput } from '../../../src/cli/commands/check.ts'
import { readPlanFile } from '../../../src/io/read-plan.ts'
import { english } from '../../../src/wording/en/english.ts'
import { build } from '../../support/build.ts'

const options: CheckOptions = {
  format: 'text',
  strict: false,
  ascii: false,
  width: Number.POSITIVE_INFINITY,
  version: '0.0.0',
}
const check = (made: ReturnType<typeof build>, more: Partial<CheckOptions> = {}) =>
  checkOutput(made.read(), async () => english, { ...options, ...more })

const fan = { flow: 'in' }
const clean = build().header('SYS1').plainFan('F1', fan).lead('F1.motor', 'board.SYS1')
const loaded = () => {
  const made = build().header('SYS1', { amps: 1, protected: false })
  for (const id of ['F1', 'F2', 'F3', 'F4', 'F5', 'F6']) made.plainFan(id, fan)
  return made.splitter('Y1', ['F1', 'F2', 'F3', 'F4', 'F5', 'F6']).lead('Y1.in', 'board.SYS1')
}

describe('check', () => {
  test('a clean plan ends with 0 and says so', async () => {
    const { code, out } = await check(clean)
    expect(code).toBe(0)
    expect(out.join('\n')).toContain('Nothing to change')
  })

  test('1.5 A on a header of 1 A without protection stands first, with figure, limit and place, and ends with 1', async () => {
    const { code, out } = await check(loaded())
    expect(code).toBe(1)
    const at = out.indexOf('Do not switch on before this is changed')
    expect(at).toBeGreaterThan(0)
    expect(out[at + 1]).toMatch(/✖ will damage: header SYS1 feeds fans F1.* 1\.5 A; it gives 1 A/)
    expect(out[at + 2]).toContain('0.5 A')
    expect(out[at + 3]).toMatch(/^ {4}test\.build\.yaml:\d+:\d+ {2}header-over-current$/)
  })

  test('mild findings end with 0, and with 1 under --strict', async () => {
    const mild = build().header('SYS1').plainFan('F1').lead('F1.motor', 'board.SYS1')
    expect((await check(mild)).code).toBe(0)
    expect((await check(mild, { strict: true })).code).toBe(1)
    expect((await check(clean, { strict: true })).code).toBe(0)
  })

  test('a plan that cannot be read ends with 2 and its problems, in each form', async () => {
    const broken = build().header('SYS1').plainFan('F1').lead('F1.motor', 'board.SYS7')
    const { code, out, err } = await check(broken)
    expect([code, out]).toEqual([2, []])
    expect(err[0]).toMatch(/^test\.build\.yaml:\d+:\d+: /)
    for (const format of ['json', 'lines', 'sarif'] as const) {
      const told = await check(broken, { format })
      expect(told.code).toBe(2)
      expect(told.err).toEqual([])
      expect(() =>
        told.out.map((line) => JSON.parse(format === 'lines' ? line : told.out.join('\n'))),
      ).not.toThrow()
    }
  })

  test('JSON has the same findings as the list, with places, figures and sentences', async () => {
    const { out } = await check(loaded(), { format: 'json' })
    const told = JSON.parse(out.join('\n'))
    const over = told.findings.find((f: { rule: string }) => f.rule === 'header-over-current')
    expect(over).toMatchObject({ severity: 'will-damage', figure: 1.5, limit: 1, unit: 'A', doing: 'stop' })
    expect(over.at[0]).toMatchObject({ file: 'test.build.yaml' })
    expect(told.counts['will-damage']).toBe(1)
    expect((await check(loaded(), { format: 'lines' })).out).toHaveLength(told.findings.length)
  })

  test('ASCII output has no character beyond ASCII, and lines keep to the width', async () => {
    const { out } = await check(loaded(), { ascii: true, width: 60 })
    expect(out.join('\n')).toMatch(/^[\n\x20-\x7e]*$/)
    for (const line of out) expect(line.length).toBeLessThanOrEqual(60)
  })

  test.each(['small-three-fans', 'archive-ten-fans', 'plain-no-lights'])(
    'the example %s has nothing worse than untidy',
    async (name) => {
      const read = readPlanFile(
        new URL(`../../../docs/examples/${name}.build.yaml`, import.meta.url).pathname,
      )
      expect((await checkOutput(read, async () => english, options)).code).toBe(0)
    },
  )
})
