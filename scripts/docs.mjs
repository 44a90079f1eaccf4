// Writes docs/reference/, docs/rules.md and docs/flows.md anew: `npm run docs`.
import { mkdir, readdir, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from '../tests/bench/load.mjs'

const root = fileURLToPath(new URL('../', import.meta.url))
const folder = join(root, 'docs', 'reference')
const { referencePages } = await load('scripts/reference.ts')
const { readPlanFile } = await load('src/io/read-plan.ts')
const { rulesPage } = await load('src/wording/rules-page.ts')
const { findingWords } = await load('src/wording/en/findings.ts')
const read = readPlanFile(join(root, 'docs', 'examples', 'archive-ten-fans.build.yaml'))
if (!read.ok) throw new Error('the example build cannot be read')

const pages = referencePages(read.value)
await mkdir(folder, { recursive: true })
for (const name of await readdir(folder)) if (!(name in pages)) await rm(join(folder, name))
for (const [name, text] of Object.entries(pages)) await writeFile(join(folder, name), text)
await writeFile(join(root, 'docs', 'rules.md'), rulesPage(findingWords))
const { manPage } = await load('src/cli/man-page.ts')
const { program } = await load('src/wording/en/program.ts')
await writeFile(join(root, 'docs', 'whichlead.1'), `${manPage(program).join('\n')}\n`)
console.log(`${Object.keys(pages).join(', ')}: in docs/reference/`)
await import('./docs-flows.mjs')
