// Does one real job with the built program, as a driver of the line protocol would: a fault is planted, the program's
// own bench says what is seen at every question, and the job must end in the proof that it is fixed.
//
//   node scripts/run-once.mjs [PROGRAM] [PLAN] [SYMPTOM] [AT:MODE]
//
// Ends with 0 if the job ended "fixed", the fault was named, and no hands went in with power on.
import { execFileSync, spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const [
  program = here('../dist/whichlead.mjs'),
  plan = here('../docs/examples/archive-ten-fans.build.yaml'),
  symptom = 'lights-dark',
  fault = 'F5.light:unplugged',
] = process.argv.slice(2)
const node = process.env.WHICHLEAD_NODE ?? process.execPath
// On a machine where several run, or the installed command is what is tried, no Node is put in front of it.
const run = program.endsWith('.mjs') ? [node, program] : [program]

const PAST = {
  since: 'new',
  worked: 'never',
  'comes-and-goes': 'no',
  spare: 'yes',
  tool: 'yes',
  consent: 'yes',
}

/** What the build with the fault shows after the edits. */
function sight(edits) {
  const args = ['bench', plan, '--fault', fault, ...edits.flatMap((e) => ['--edit', e]), '--json']
  const out = execFileSync(run[0], [...run.slice(1), ...args], { encoding: 'utf8', maxBuffer: 1 << 26 })
  const seen = new Map(JSON.parse(out).sight.map((s) => [`${s.what} ${s.at}`, s.value]))
  return (o) => seen.get(`${o.what} ${o.at}`) ?? null
}

function answer(ask, edits) {
  if (ask.about) return { answer: PAST[ask.about] }
  const see = sight(edits)
  if (ask.many) return { answers: ask.answers.filter((a) => see(a.observe) === a.means[0]).map((a) => a.id) }
  const values = ask.observe.map(see)
  const fits = ask.answers.find(
    (a) => a.means.some((m) => m !== null) && a.means.every((m, i) => m === null || m === values[i]),
  )
  const other = fits ?? ask.answers.find((a) => a.means.every((m) => m === null))
  return other ? { answer: other.id } : { unsure: true }
}

const folder = mkdtempSync(join(tmpdir(), 'whichlead-once-'))
const log = join(folder, 'job.ndjson')
const child = spawn(
  run[0],
  [...run.slice(1), 'diagnose', plan, '--symptom', symptom, '--lines', '--log', log],
  { stdio: ['pipe', 'pipe', 'inherit'] },
)
const ended = new Promise((resolve) => child.on('close', resolve))
const edits = []
const unsafe = []
let power = 'on'
let verdict = []
let end
let asked = 0
for await (const text of createInterface({ input: child.stdout })) {
  const line = JSON.parse(text)
  let reply
  if ((line.type === 'do' || line.type === 'ask') && line.hands === 'in' && power === 'on')
    unsafe.push(line.id)
  if (line.type === 'verdict') verdict = line.suspects
  if (line.type === 'end') end = line
  if (line.type === 'do') {
    edits.push(...line.edits)
    power = line.edits.findLast((e) => e.startsWith('power '))?.slice('power '.length) ?? power
    reply = { done: true }
  } else if (line.type === 'ask') reply = ++asked > 60 ? { leave: true } : answer(line, edits)
  if (reply) child.stdin.write(`${JSON.stringify(reply)}\n`)
}
const code = await ended
const first = verdict[0]
const named = [first, ...(first?.alike ?? [])].some(
  (s) => s?.faults.length === 1 && `${s.faults[0].at}:${s.faults[0].mode}` === fault,
)
const lines = readFileSync(log, 'utf8').trimEnd().split('\n').length
rmSync(folder, { recursive: true, force: true })
console.log(
  `${symptom}, ${fault}: ${end?.outcome ?? 'no end'} after ${asked} questions and ${Math.round(end?.minutes ?? 0)} minutes, ` +
    `${named ? 'named' : 'NOT named'}, ${lines} lines in the log, exit code ${code}`,
)
if (unsafe.length > 0) console.log(`hands in with power on: ${unsafe.join(', ')}`)
process.exitCode = end?.outcome === 'fixed' && named && code === 0 && unsafe.length === 0 ? 0 : 1
