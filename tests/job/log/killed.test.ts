/**
 * A writer killed without warning while it writes. Whatever it had acknowledged is in the log, in order and sound, and
 * the next program takes the log over without being asked. The writer is the real one, bundled for a process of its own.
 */
import { spawn } from 'node:child_process'
import { existsSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { expect, test } from 'vitest'
import { openLog, readLog } from '../../../src/job/log/log.ts'
import { jobBodies, MORNING } from '../../support/job-log.ts'
import { ownFolder } from '../../support/own-folder.ts'

const clock = () => MORNING

/** Opens or makes the log, then appends a note at a time for ever, and says the number of each once it is kept. */
const WRITER = `
import { createLog, openLog } from ${JSON.stringify(fileURLToPath(new URL('../../../src/job/log/log.ts', import.meta.url)))}
import { existsSync } from 'node:fs'
const [path, opening] = process.argv.slice(2)
const log = existsSync(path) ? await openLog(path, Date.now) : await createLog(path, JSON.parse(opening), Date.now)
if (!log.ok) { console.log('trouble', JSON.stringify(log.trouble)); process.exit(1) }
const text = 'a note of some length, so that a write takes a moment '.repeat(40)
for (;;) {
  const done = await log.writer.append([{ e: 'noted', text }, { e: 'noted', text: 'short' }])
  if (!done.ok) { console.log('trouble', JSON.stringify(done.trouble)); process.exit(1) }
  console.log('kept', done.events.at(-1).seq)
}
`

async function writerIn(folder: string): Promise<string> {
  const source = join(folder, 'writer.ts')
  writeFileSync(source, WRITER)
  const outfile = join(folder, 'writer.mjs')
  await build({
    entryPoints: [source],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'silent',
  })
  return outfile
}

/** Runs until `kept` events are acknowledged, kills it there, and gives the last number that was acknowledged. */
function runAndKill(writer: string, path: string, kept: number): Promise<number> {
  const child = spawn(process.execPath, [writer, path, JSON.stringify(jobBodies[0])])
  let last = 0
  let count = 0
  return new Promise((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      const [word, seq] = line.split(' ')
      if (word !== 'kept') return reject(new Error(line))
      last = Number(seq)
      count++
      if (count === kept) child.kill('SIGKILL')
    })
    child.on('close', () => resolve(last))
  })
}

test('killed again and again, it loses nothing that was kept, and each next one takes over', async () => {
  const folder = ownFolder()
  const writer = await writerIn(folder)
  const path = join(folder, 'job.ndjson')
  let before = 0
  for (let round = 1; round <= 12; round++) {
    const acknowledged = await runAndKill(writer, path, round)
    expect(acknowledged).toBeGreaterThan(before)
    expect(existsSync(`${path}.lock`)).toBe(true)
    const read = await readLog(path)
    if (!read.ok) throw new Error(read.trouble.code)
    const { events, problems } = read.log
    expect(problems.every((p) => p.code === 'half-last-line')).toBe(true)
    expect(events.length).toBeGreaterThanOrEqual(acknowledged)
    expect(events.map((e) => e.seq)).toEqual(events.map((_, i) => i + 1))
    before = acknowledged
  }
  const opened = await openLog(path, clock)
  expect(opened.ok).toBe(true)
  if (opened.ok) await opened.writer.close()
  expect(readdirSync(folder).filter((name) => name.includes('.lock'))).toEqual([])
})
