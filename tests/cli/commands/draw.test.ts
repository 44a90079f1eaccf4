/** `whichlead draw`: every lead is in the drawing once, findings are marked, and the sheet says what to plug when. */
import { describe, expect, test } from 'vitest'
import { drawOutput } from '../../../src/cli/commands/draw.ts'
import { readPlanFile } from '../../../src/io/read-plan.ts'
import { sheetLeads } from '../../../src/wording/drawing/sheet.ts'
import { build, problemLines } from '../../support/build.ts'

const plain = { ascii: false, width: 100 }
const example = () => {
  const read = readPlanFile(
    new URL('../../../docs/examples/archive-ten-fans.build.yaml', import.meta.url).pathname,
  )
  if (!read.ok) throw new Error(problemLines(read).join('\n'))
  return read.value
}
const small = build()
  .supply('SA', { plugs: 1 })
  .header('SYS1', { amps: 1 })
  .usbHeader('U1', { ports: 1 })
  .fan('F1', { flow: 'in' })
  .fan('F2', { flow: 'in' })
  .splitter('Y1', ['F1', 'F2'], { tach_from: 'all' })
  .lead('Y1.in', 'board.SYS1')
  .lightHub('H1', ['F1', 'F2'], { amps: 4, usb_milliamps: 100 })
  .lead('H1.power', 'supply.SA.1')
  .lead('H1.usb', 'board.U1.a')
  .part('S1', { kind: 'strip', light: { leds: 4, amps: 0.2 } })
  .channel('H1', { profile: [8, 8] })

describe('draw', () => {
  test('a splitter, a hub and what hangs on them, each lead in its own line', () => {
    const lines = drawOutput(small.plan(), 'text', plain)
    expect(lines.slice(2, 13)).toEqual([
      'supply.SA',
      '└ 1 ═══ H1.power light hub (its sockets stand under H1.usb)',
      'board.SYS1 ─── Y1.in fan splitter  ⚠ 2',
      '├ 1 ─── F1.motor fan',
      '└ 2 ─── F2.motor fan',
      'board.U1.a ┅┅┅ H1.usb light hub',
      '├ 1 ╌╌╌ F1.light fan',
      '└ 2 ╌╌╌ F2.light fan',
      'S1 light strip (not connected)  ⚠ 1',
      '',
      'Lines: ═══ supply   ─── motor   ╌╌╌ light   ┅┅┅ USB',
    ])
    expect(lines.find((line) => line.startsWith('⚠ 2 '))).toContain('tach of fans F1 and F2 at once')
  })

  test.each([60, 80])('no line is longer than %d columns, and no word is lost', (width) => {
    const words = (lines: readonly string[]): string[] => lines.join(' ').split(/[\s│├└]+/)
    for (const plan of [example(), small.plan()]) {
      const lines = drawOutput(plan, 'text', { ascii: false, width })
      for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(width)
      expect(words(lines)).toEqual(words(drawOutput(plan, 'text', { ascii: false, width: 500 })))
    }
  })

  test('in SVG each part has one trunk: no two strokes of it lie on one another', () => {
    const svg = drawOutput(example(), 'svg', plain).join('\n')
    const trunks = [...svg.matchAll(/d="M(\d+) (\d+) V(\d+) H/g)].map((m) => m.slice(1).map(Number))
    expect(trunks.length).toBeGreaterThan(25)
    for (const [i, [x, from = 0, to = 0]] of trunks.entries())
      for (const [otherX, otherFrom = 0, otherTo = 0] of trunks.slice(i + 1))
        expect(x === otherX && from < otherTo && otherFrom < to, `${x} ${from}-${to}`).toBe(false)
  })

  test('every lead of the ten-fan build is drawn once', () => {
    const plan = example()
    const text = drawOutput(plan, 'text', plain).join('\n').split('Findings')[0] ?? ''
    for (const { plug } of plan.leads)
      expect(text.split(/\s/).filter((word) => word === plug).length, plug).toBeGreaterThanOrEqual(1)
    const strokes = text
      .split('\n')
      .filter((line) => /═══|───|╌╌╌|┅┅┅/.test(line) && !line.startsWith('Lines'))
    expect(strokes).toHaveLength(plan.leads.length)
  })

  test('the ASCII twin has the same rows and four unlike lines', () => {
    const ascii = drawOutput(small.plan(), 'text', { ascii: true, width: 100 })
    expect(ascii).toHaveLength(drawOutput(small.plan(), 'text', plain).length)
    expect(ascii.join('\n')).toMatch(/^[\n\x20-\x7e]*$/)
    expect(ascii.join('\n')).toContain('=== supply   --- motor   ... light   ~~~ USB')
  })

  test('SVG is well formed, escapes names, and tells kinds of lead by width and dashes', () => {
    const named = build('Tapes & <discs>')
      .header('SYS1')
      .plainFan('F1', { at: 'front "low" & wide' })
      .lead('F1.motor', 'board.SYS1')
    const svg = drawOutput(named.plan(), 'svg', plain).join('\n')
    expect(svg).toContain('<title>Tapes &amp; &lt;discs&gt;</title>')
    expect(svg.match(/<(?!\/|svg|title|rect|path|text)/g)).toBeNull()
    const opened = svg.match(/<(svg|title|text)\b/g)?.length
    expect(svg.match(/<\/(svg|title|text)>/g)).toHaveLength(opened ?? -1)
    expect(svg.match(/&(?!amp;|lt;|gt;|quot;)/g)).toBeNull()
    const styles = new Set(
      drawOutput(example(), 'svg', plain)
        .join('\n')
        .match(/stroke-width="[^"]+"( stroke-dasharray="[^"]+")?/g),
    )
    expect(styles.size).toBe(4)
  })

  test('the sheet has every lead once, leaves before what they hang on, supply plugs last', () => {
    const plan = example()
    const leads = sheetLeads(plan)
    expect(leads.map((l) => l.from).sort()).toEqual(plan.leads.map((l) => l.plug).sort())
    const order = leads.map((l) => l.line)
    expect(order).toEqual(
      [...order].sort((a, b) => 'motor light usb supply'.indexOf(a) - 'motor light usb supply'.indexOf(b)),
    )
    const at = (plug: string) => leads.findIndex((l) => l.from === plug)
    expect(at('F1.motor')).toBeLessThan(at('Y1.in'))
    const text = drawOutput(plan, 'sheet', plain).join('\n')
    expect(text).toContain('pull the mains lead')
    for (const lead of leads) expect(text).toContain(lead.label)
  })

  test.each([
    ['a 5 V light on a 12 V header', 12, true],
    ['the same light on a 5 V header', 5, false],
  ] as const)('the sheet warns before anything is plugged: %s', (_, volts, warned) => {
    const plan = build()
      .lightHeader('L1', { volts })
      .part('S1', { kind: 'strip', light: { volts: 5, leds: 4, amps: 0.2 } })
      .lead('S1.light', 'board.L1')
      .plan()
    const lines = drawOutput(plan, 'sheet', plain)
    const stop = lines.indexOf('Do not switch on before this is changed')
    expect(stop > 0 && stop < lines.findIndex((line) => line.startsWith('1. '))).toBe(warned)
    expect(lines.find((line) => line.includes(' S1.light  '))?.startsWith(warned ? '[✖]' : '[ ]')).toBe(true)
  })

  test('what is plugged on the sheet is numbered without gaps', () => {
    const lines = drawOutput(small.plan(), 'sheet', plain).filter((line) => /^\d\. /.test(line))
    expect(lines.map((line) => line.slice(0, 9))).toEqual([
      '1. Motor ',
      '2. Light ',
      '3. USB le',
      '4. Supply',
    ])
    const few = build()
      .header('SYS1')
      .plainFan('F1')
      .lead('F1.motor', 'board.SYS1')
      .supply('SA', { plugs: 1 })
    few.fanHub('K1', [], { amps: 4 }).lead('K1.power', 'supply.SA.1')
    expect(
      drawOutput(few.plan(), 'sheet', plain)
        .filter((line) => /^\d\. /.test(line))
        .at(-1),
    ).toMatch(/^2\. /)
  })
})
