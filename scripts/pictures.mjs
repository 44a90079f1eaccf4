// Takes pictures of the terminal from the built program at a real pseudo-terminal, a job on the demo build worked with the
// bench as the person. Run after `npm run build`; they stand in docs/pictures/.
//   node scripts/pictures.mjs
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from '../tests/bench/load.mjs'

const root = fileURLToPath(new URL('../', import.meta.url))
const { picture } = await load('scripts/picture.ts')
const { openPty } = await load('tests/support/pty.ts')
const { personAt } = await load('tests/support/bench-person.ts')
const { readPlanFile } = await load('src/io/read-plan.ts')
const { rowsOf } = await load('src/ui/state/rows.ts')

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

async function press(keys) {
  const before = text()
  pty.write(keys)
  await pty.until(
    (rows) => rows.join('\n') !== before && !rows.some((r) => r.startsWith('Writing to the log')),
  )
}

/** What a key lays over the question, and back. */
async function takeOver(key, name) {
  await press(key)
  take(name)
  await press(key)
}

/** The prompt that waits, as the log has it. */
const asked = () =>
  readFileSync(log, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line))
    .findLast((line) => line.e === 'shown' || line.e === 'ended')

async function done(prompt) {
  person.did(prompt.edits)
  await pty.until('All of this is done')
  if (prompt.purpose === 'gate') {
    if (prompt.power === 'off') take('gate')
    await press('2')
  }
  while (/Enter read on/u.test(text())) await press('\r')
  await press('\r')
}

async function say(prompt) {
  const reply = person.answer(prompt)
  if (reply.say === 'unsure') return press('c')
  const rows = rowsOf(prompt)
  if (!prompt.many) {
    if (prompt.hands === 'in') {
      take('inside')
      await takeOver('d', 'wiring')
      await takeOver('e', 'seen')
    }
    pty.write(String(rows.findIndex((r) => r.answer === reply.ids[0]) + 1))
    return press('\r')
  }
  for (const id of reply.ids) {
    const at = rows.findIndex((r) => r.spot?.marks.some((m) => m.id === id))
    pty.write(String(at + 1))
    for (let i = rows[at].spot.marks.findIndex((m) => m.id === id); i >= 0; i--) await press(' ')
  }
  take('map')
  await press('\r')
  if (reply.ids.length === 0) await press('\r')
}

try {
  await pty.until('POWER ON')
  for (;;) {
    if (text().split('\n')[2]?.startsWith('Remarks')) {
      await press('\r')
      continue
    }
    const { e, prompt } = asked()
    if (e === 'ended') break
    await (prompt.show === 'do' ? done(prompt) : say(prompt))
  }
  take('end')
  mkdirSync(out, { recursive: true })
  for (const [name, svg] of taken) writeFileSync(join(out, `${name}.svg`), svg)
  console.log(`${[...taken.keys()].join(', ')}: in docs/pictures/`)
} finally {
  pty.kill()
  rmSync(folder, { recursive: true, force: true })
}
process.exit(0)
