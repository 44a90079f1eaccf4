/** The generated pages are those that the program would make now, and their schemas are schemas. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { referencePages } from '../scripts/reference.ts'
import { readPlanFile } from '../src/io/read-plan.ts'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))
const folder = here('../docs/reference')
const read = readPlanFile(here('../docs/examples/archive-ten-fans.build.yaml'))
if (!read.ok) throw new Error('the example build cannot be read')
const pages = referencePages(read.value)

describe('docs/reference', () => {
  it.each(Object.entries(pages))('%s is not stale (npm run docs makes it anew)', (name, text) => {
    expect(readFileSync(join(folder, name), 'utf8')).toBe(text)
  })

  it('has no page that nothing makes', () => {
    expect(readdirSync(folder).sort()).toEqual(Object.keys(pages).sort())
  })

  it('has a schema of the line protocol that takes what the page on it shows and not its opposite', () => {
    const valid = new Ajv2020({ strict: false }).compile(JSON.parse(pages['lines.schema.json'] ?? ''))
    for (const line of [
      { done: true },
      { answer: 'yes' },
      { answers: [] },
      { unsure: true },
      { note: 'warm plug' },
    ])
      expect(valid(line)).toBe(true)
    for (const line of [{ done: 'yes' }, { answer: 3 }, { type: 'hello' }, 7]) expect(valid(line)).toBe(false)
  })
})
