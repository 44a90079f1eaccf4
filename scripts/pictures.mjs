// Takes pictures of the terminal from the built program at a real pseudo-terminal, a job on the demo build worked with the
// bench as the person. Run after `npm run build`; they stand in docs/pictures/.
//   node scripts/pictures.mjs
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from '../tests/bench/load.mjs'

const root = fileURLToPath(new URL('../', import.meta.url))
const { picture } = await load('scripts/picture.ts')
const { openPty } = await load('tests/support/pty.ts')
const { personAt } = await load('tests/support/bench-person.ts')
const { readPlanFile } = await load('src/io/read-plan.ts')
const { workAt } = await load('tests/support/terminal-person.ts')

const COLUMNS = 100
const ROWS = 30
const PLAN = 'docs/examples/archive-ten-fans.build.yaml'
const FAULT = { at: 'F3.light', mode: 'unplugged' }
const TITLES = {
  map: 'A map of the case, on which the fans whose lights stay dark are marked',
  gate: 'The gate: power goes off before hands go in, with the cautions to read first',
  inside: 'A question with hands in the case, with the path of the lead in question drawn',
  wiring: 'The wiring of the whole build as a tree, from the supply and the board outwards',
  seen: 'What was seen, beside what the plan says should be seen',
  end: 'The end: the cause, the fix and its proof',
}

const out = join(root, 'docs', 'pictures')
const folder = mkdtempSync(join(tmpdir(), 'whichlead-pictures-'))
const log = join(folder, 'job.ndjson')
const read = readPlanFile(join(root, PLAN))
if (!read.ok) throw new Error('the demo build cannot be read')
const person = personAt(read.value, [FAULT], { past: { since: 'changed', 'comes-and-goes': 'no' } })
const pty = openPty({
  command: process.execPath,
  arguments: ['dist/whichlead.mjs', 'diagnose', PLAN, '--symptom', 'lights-dark', '--log', log],
  cwd: root,
  env: { LANG: 'C.UTF-8', HOME: folder, XDG_STATE_HOME: join(folder, 'state') },
  columns: COLUMNS,
  rows: ROWS,
})
const taken = new Map()
const text = () => pty.rows().join('\n')

/** Draws what is on the screen now; the first of its kind is kept. */
function take(name) {
  if (taken.has(name)) return
  // Where the job lies on this machine is nobody's business.
  const rows = pty.screen
    .runs()
    .map((runs) => runs.map((run) => ({ ...run, text: run.text.replaceAll(folder, '~') })))
  taken.set(name, picture(rows, COLUMNS, TITLES[name]))
}

/** What a key lays over the question, and back. */
async function takeOver(key, head, name) {
  const under = text()
  pty.write(key)
  await pty.until((rows) => rows[2]?.startsWith(head) ?? false)
  take(name)
  pty.write(key)
  await pty.until((rows) => rows.join('\n') === under || !rows[2]?.startsWith(head))
}

// Of the first map the frame with the most marks, which is the last one before it is recorded.
let marked = 0
pty.onDrawn(() => {
  const [, count = 0] = /(\d+) marked: /u.exec(text()) ?? []
  if (Number(count) <= marked) return
  marked = Number(count)
  taken.delete('map')
  take('map')
})

/** Called when a question stands on the screen. */
async function watch(prompt) {
  if (prompt.show === 'do' && prompt.purpose === 'gate' && prompt.power === 'off') {
    await pty.until('All of this is done')
    take('gate')
  }
  if (prompt.show !== 'ask' || prompt.many || prompt.hands !== 'in' || taken.has('inside')) return []
  take('inside')
  await takeOver('d', 'Wiring of the build', 'wiring')
  await takeOver('e', 'Seen, and what the plan says', 'seen')
  return []
}

try {
  await workAt(pty, log, person, read.value, 'one by one', watch)
  await pty.until('Enter end')
  take('end')
  mkdirSync(out, { recursive: true })
  for (const [name, svg] of taken) writeFileSync(join(out, `${name}.svg`), svg)
  console.log(`${[...taken.keys()].join(', ')}: in docs/pictures/`)
} finally {
  pty.kill()
  rmSync(folder, { recursive: true, force: true })
}
process.exit(0)
