import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { catalogue } from '../../src/core/faults/catalogue.ts'
import { faultWords } from '../../src/wording/en/faults.ts'
import { faultsPage } from '../../src/wording/faults-page.ts'
import { build, planOf } from '../support/build.ts'

const example = (name: string) => planOf(readFileSync(`docs/examples/${name}.build.yaml`, 'utf8'))
const corner = build()
  .header('SYS1', { drive: 'pwm' })
  .lightHeader('L1')
  .fan('F1')
  .lead('F1.motor', 'board.SYS1')
  .lead('F1.light', 'board.L1')
  .set('SYS1', { curve: [[0, 40]] })
  .channel('L1', { profile: [8] })
  .plan()
const page = faultsPage([example('archive-ten-fans'), corner], faultWords)
const rows = page.split('\n').filter((line) => line.startsWith('| `'))

describe('the page of faults', () => {
  it('has a row for every entry of the catalogue, each with a family', () => {
    expect(rows).toHaveLength(catalogue.length)
    for (const [i, entry] of catalogue.entries()) expect(rows[i]).toContain(entry.mode)
  })

  it('tells what is seen of a broken tach wire and of a hub in series without its data', () => {
    const row = (mode: string) => rows.find((line) => line.startsWith(`| \`${mode}`))
    expect(row('open-')).toMatch(/spins|lit|rpm/)
    expect(row('data-weak')).toContain('`lit F1`: dark')
    expect(row('counts-coarsely')).toContain('`rpm board.SYS1`: zero')
  })

  it('says of every mode that has a place what is seen, but for the few that only another fault brings out', () => {
    for (const line of rows) {
      const cells = line.split(' | ')
      if (cells[1]?.trim() === '') continue
      expect(cells.at(-1), line).toMatch(/: /)
    }
  })

  it('is a table that breaks nowhere', () => {
    for (const line of rows) expect(line.split(/(?<!\\)\|/)).toHaveLength(9)
  })
})
