// Walks the first boots of docs/examples anew and writes their logs and short reports: node scripts/first-boots.mjs
import { execFileSync } from 'node:child_process'
import { chmod, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from '../tests/bench/load.mjs'

const root = fileURLToPath(new URL('../', import.meta.url))
const folder = join(root, 'docs', 'examples')
const { EXAMPLE_BOOTS, walkExample } = await load('tests/support/example-boots.ts')
const { readPlan } = await load('src/core/plan/read.ts')
const { version } = JSON.parse(await readFile(join(root, 'package.json'), 'utf8'))

const file = 'archive-ten-fans.build.yaml'
const text = await readFile(join(folder, file), 'utf8')
const read = readPlan(text, file)
if (!read.ok) throw new Error('the example build cannot be read')
for (const boot of EXAMPLE_BOOTS) {
  const log = join(folder, `${boot.name}.ndjson`)
  await rm(log, { force: true })
  await walkExample(boot, read.value, { file, text, includes: [] }, log, version)
  await chmod(log, 0o644)
  const report = execFileSync(
    process.execPath,
    [join(root, 'dist', 'whichlead.mjs'), 'report', `${boot.name}.ndjson`, '--short'],
    { cwd: folder, encoding: 'utf8', env: { ...process.env, TZ: 'UTC', LC_ALL: 'C.UTF-8' } },
  )
  await writeFile(join(folder, `${boot.name}.md`), report)
  console.log(`docs/examples/${boot.name}.ndjson and .md`)
}
