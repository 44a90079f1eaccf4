// The screen over a long job: 500 answers given and taken back at a real pseudo-terminal. What memory the program holds then, as
// the system counts it, and how long a key takes; of questions that stand there for the first time `keys.mjs` tells that.
//   node tests/bench/screen.mjs [STEPS] [LOOK]   LOOK: milliseconds that the person looks before each answer; 0
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from './load.mjs'
import { quantile } from './quantile.mjs'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const program = process.env.WHICHLEAD_PROGRAM ?? here('../../dist/whichlead.mjs')
const plan = here('../../docs/examples/archive-ten-fans.build.yaml')
const node = process.env.WHICHLEAD_NODE ?? process.execPath

/** Resident memory in MB; undefined where the system does not tell. */
function memoryOf(pid) {
  try {
    return Number(/VmRSS:\s+(\d+)/u.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024
  } catch {
    return undefined
  }
}

/** What tells one question from the next: the last remark and the lines of the question. */
const ready = (before) => (rows) =>
  rows.join('\n') !== before && !rows.some((r) => r.startsWith('Writing to the log'))

export async function screen({ steps = 500, look = 0, columns = 80, rows = 24 } = {}) {
  const { openPty } = await load('tests/support/pty.ts')
  const folder = mkdtempSync(join(tmpdir(), 'whichlead-screen-'))
  const pty = openPty({
    command: node,
    arguments: [program, 'diagnose', plan, '--symptom', 'lights-dark', '--log', join(folder, 'job.ndjson')],
    env: { HOME: folder, XDG_STATE_HOME: folder, LANG: 'C.UTF-8' },
    columns,
    rows,
  })
  const keys = []
  const memory = []
  const press = async (text) => {
    const before = pty.rows().join('\n')
    const began = performance.now()
    pty.write(text)
    await pty.until(ready(before))
    return performance.now() - began
  }
  try {
    await pty.until('dark')
    if (pty.rows().some((r) => r.startsWith('Remarks'))) await press('G\r')
    // Two fans dark, then through the questions about the past, into what the engine chooses.
    await press('3')
    await press(' ')
    await press('\r')
    const answer = async (text) => {
      await new Promise((done) => setTimeout(done, look))
      keys.push(await press(text))
    }
    const settled = async () => {
      while (pty.rows().some((r) => r.startsWith('Remarks'))) await press('G\r')
    }
    for (let i = 0; i < 2; i++) {
      await settled()
      await press('c')
    }
    await settled()
    memory.push(memoryOf(pty.pid))
    const first = memory[0]
    for (let i = 0; i < steps / 2; i++) {
      const gate = pty.rows().some((r) => /Read this first|Not yet/u.test(r))
      if (gate) await press('u')
      await settled()
      if (i % 3 === 1) {
        await press('2')
        await answer('\r')
      } else await answer('c')
      await settled()
      await answer('u')
      await settled()
      memory.push(memoryOf(pty.pid))
    }
    return {
      steps: keys.length,
      median: quantile(keys, 0.5),
      most: quantile(keys, 0.95),
      longest: quantile(keys, 1),
      first,
      last: memory.at(-1),
      peak: Math.max(...memory),
    }
  } finally {
    pty.kill()
    rmSync(folder, { recursive: true, force: true })
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const s = await screen({ steps: Number(process.argv[2] ?? 500), look: Number(process.argv[3] ?? 0) })
  const ms = (x) => `${Math.round(x)} ms`
  console.log(
    `${s.steps} replies: median ${ms(s.median)}, 95th percentile ${ms(s.most)}, longest ${ms(s.longest)}`,
  )
  console.log(
    `memory: ${Math.round(s.first)} MB at first, ${Math.round(s.last)} MB at last, ${Math.round(s.peak)} MB at most`,
  )
}
