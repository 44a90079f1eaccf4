// What a person waits for: the start of the program against the start of an empty one, taken in turns so that whatever
// else the machine does falls on all of them alike; the size of the file, and the memory with a screen up.
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawn } from '@lydell/node-pty'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const program = process.env.WHICHLEAD_PROGRAM ?? here('../../dist/whichlead.mjs')
const plan = here('../../docs/examples/archive-ten-fans.build.yaml')
const node = process.env.WHICHLEAD_NODE ?? process.execPath

const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1]

function timed(args, env = process.env) {
  const began = performance.now()
  execFileSync(node, args, { env, stdio: ['ignore', 'pipe', 'inherit'] })
  return performance.now() - began
}

/** Milliseconds until the first question can be read, and the memory then, as the system counts it. */
function firstFrame(folder, name, { alive = false } = {}) {
  return new Promise((resolve) => {
    const began = performance.now()
    const pty = spawn(
      node,
      [program, 'diagnose', plan, '--symptom', 'lights-dark', '--log', join(folder, name)],
      {
        cols: 80,
        rows: 24,
        env: {
          PATH: process.env.PATH,
          TERM: 'xterm-256color',
          LANG: 'C.UTF-8',
          HOME: folder,
          XDG_STATE_HOME: folder,
        },
      },
    )
    let seen = ''
    let answer
    pty.onData((bytes) => {
      seen += bytes
      if (answer || !seen.includes('POWER')) return
      answer = { ms: performance.now() - began, memory: memoryOf(pty.pid), pid: pty.pid }
      if (alive) resolve(answer)
      else pty.kill('SIGKILL')
    })
    pty.onExit(() => resolve(answer))
  })
}

/** A first job, until the compiled code has been kept: it is what every job but the first finds. */
async function untilKept(folder) {
  const cache = join(folder, '.cache', 'whichlead')
  const { pid } = await firstFrame(folder, 'first.ndjson', { alive: true })
  try {
    // A file that is still being written has a number before its ending.
    const kept = () => existsSync(cache) && readdirSync(cache).some((name) => /-[0-9a-f]+\.code$/u.test(name))
    for (let i = 0; i < 200 && !kept(); i++) await new Promise((resolve) => setTimeout(resolve, 100))
  } finally {
    process.kill(pid, 'SIGKILL')
  }
}

/** Resident memory in MB; undefined where the system does not tell. */
function memoryOf(pid) {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8')
    return Number(/VmRSS:\s+(\d+)/u.exec(status)?.[1]) / 1024
  } catch {
    return undefined
  }
}

export async function start({ rounds = 15 } = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'whichlead-start-'))
  const empty = []
  const version = []
  const frame = []
  const checkFirst = []
  const check = []
  const memory = []
  try {
    await untilKept(folder)
    for (let i = 0; i < rounds; i++) {
      empty.push(timed(['-e', '0']))
      version.push(timed([program, '--version']))
      // As for the first time, with nothing kept, and as ever after.
      const again = { ...process.env, XDG_CACHE_HOME: join(folder, 'cache') }
      checkFirst.push(
        timed([program, 'check', plan], { ...again, XDG_CACHE_HOME: join(folder, `cache-${i}`) }),
      )
      if (i === 0) timed([program, 'check', plan], again)
      check.push(timed([program, 'check', plan], again))
      const { ms, memory: mb } = await firstFrame(folder, `${i}.ndjson`)
      frame.push(ms)
      if (mb !== undefined) memory.push(mb)
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
  return {
    node: spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout.trim(),
    empty: median(empty),
    version: median(version),
    frame: median(frame),
    check: median(check),
    checkFirst: median(checkFirst),
    checkRatio: median(check.map((c, i) => c / version[i])),
    checkFirstRatio: median(checkFirst.map((c, i) => c / version[i])),
    versionRatio: median(version.map((v, i) => v / empty[i])),
    frameRatio: median(frame.map((f, i) => f / empty[i])),
    memory: memory.length > 0 ? median(memory) : undefined,
    bytes: statSync(program).size,
  }
}
