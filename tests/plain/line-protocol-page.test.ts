/** The page on the line protocol against what the program itself uses: no word missing, none too many. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { valuesOf } from '../../src/core/bench/observable.ts'
import { catalogue } from '../../src/core/faults/catalogue.ts'
import { NONE_OF_THESE, NOTHING_WRONG } from '../../src/core/faults/fault.ts'
import { driverLine, toolLine } from '../../src/plain/protocol.ts'

const page = readFileSync(new URL('../../docs/line-protocol.md', import.meta.url), 'utf8')
const between = (from: string, to: string) => page.slice(page.indexOf(from), page.indexOf(to))
const codes = (text: string) => new Set([...text.matchAll(/`([^`]+)`/g)].map((m) => m[1] as string))

describe('the page on the line protocol', () => {
  it.each(Object.entries(toolLine))('has a section on %s, with all its fields', (type, schema) => {
    const head = page.indexOf(`### \`${type}\``)
    expect(head).toBeGreaterThan(0)
    const section = page.slice(head, page.indexOf('\n##', head + 4))
    for (const field of Object.keys(schema.shape))
      expect(section.includes(`\`${field}\``) || section.includes(`"${field}"`), `${type}.${field}`).toBe(
        true,
      )
  })

  it('lists every word that a driver may write', () => {
    const section = between('## 3.', '## 4.')
    for (const word of Object.keys(driverLine)) expect(section).toContain(`{"${word}":`)
  })

  it('lists every observable with all its values, and no other', () => {
    const rows = between('## 4.', 'What the words mean')
      .split('\n')
      .filter((row) => row.startsWith('| `'))
      .slice(1)
      .map((row) => row.split('|').map((cell) => cell.trim()))
    expect(rows.map((r) => [...codes(r[1] ?? '')][0])).toEqual(Object.keys(valuesOf))
    for (const row of rows) {
      const what = [...codes(row[1] ?? '')][0] as keyof typeof valuesOf
      const values = valuesOf[what]
      if (values !== null) expect([...codes(row[3] ?? '')]).toEqual([...values])
    }
  })

  it('lists every fault mode of the catalogue, and no other', () => {
    const rows = between('## 7.', '## 8.').split('\n')
    const modes = rows.filter((r) => r.startsWith('| ')).flatMap((r) => [...codes(r.split('|')[2] ?? '')])
    const same = (mode: string, listed: string) =>
      mode.endsWith('-') ? listed.startsWith(mode) : listed === mode
    for (const { mode } of catalogue)
      expect(
        modes.some((m) => same(mode, m)),
        mode,
      ).toBe(true)
    const verdicts = [NOTHING_WRONG.mode, NONE_OF_THESE.mode]
    for (const listed of modes)
      expect(verdicts.includes(listed) || catalogue.some(({ mode }) => same(mode, listed)), listed).toBe(true)
  })
})
