// Takes the pictures of the terminal in README.md and docs/screens/ from the built program at a real pseudo-terminal, by
// doing the tour of the README. Run after `npm run build`; the pictures are text.
//   node scripts/capture.mjs
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from '../tests/bench/load.mjs'

const root = fileURLToPath(new URL('../', import.meta.url))
const { openPty } = await load('tests/support/pty.ts')
const { tourOf, doStop } = await load('tests/support/tour.ts')

const readme = join(root, 'README.md')
const page = readFileSync(readme, 'utf8')

/** Which picture is taken when the stop with this text has been reached, after so many of its keys. */
const PICTURES = {
  'Which fans stand still': { name: 'question', after: 4 },
  'What would mend it': { name: 'verdict', after: 0 },
  'Shut the machine down': { name: 'gate', after: 0 },
  'Repair: push the input plug of fan splitter Y2': { name: 'repair', after: 0 },
  'Fixed, and proven': { name: 'fixed', after: 0 },
}

const folder = mkdtempSync(join(tmpdir(), 'whichlead-capture-'))
const taken = new Map()
const pty = openPty({
  command: process.execPath,
  arguments: [
    'dist/whichlead.mjs',
    'diagnose',
    'docs/examples/archive-ten-fans.build.yaml',
    '--log',
    join(folder, 'job.ndjson'),
  ],
  cwd: root,
  env: { LANG: 'C.UTF-8', HOME: folder, XDG_STATE_HOME: join(folder, 'state') },
})
try {
  for (const stop of tourOf(page)) {
    const picture = PICTURES[stop.sees]
    const first = { ...stop, keys: stop.keys.slice(0, picture?.after ?? stop.keys.length) }
    await doStop(pty, first)
    if (!picture) continue
    await pty.until((rows) => !rows.join('\n').includes('Read this first …'))
    const rows = pty.rows().map((row) => row.trimEnd())
    taken.set(picture.name, rows.join('\n').replaceAll(folder, '~').trimEnd())
    await doStop(pty, { ...stop, sees: '', keys: stop.keys.slice(picture.after) })
  }
  await pty.ended
} finally {
  pty.kill()
  rmSync(folder, { recursive: true, force: true })
}

mkdirSync(join(root, 'docs', 'screens'), { recursive: true })
for (const [name, text] of taken) writeFileSync(join(root, 'docs', 'screens', `${name}.txt`), `${text}\n`)
writeFileSync(
  readme,
  page.replace(
    /<!-- screen -->[\s\S]*?<!-- \/screen -->/u,
    () => `<!-- screen -->\n\`\`\`text\n${taken.get('question')}\n\`\`\`\n<!-- /screen -->`,
  ),
)
console.log(`${[...taken.keys()].join(', ')}: in docs/screens/, the first in README.md`)
process.exit(0)
