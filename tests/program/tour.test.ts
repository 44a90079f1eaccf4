/** The README, followed to the letter: its commands are run, its tour is done at a pseudo-terminal. */
import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { call, envIn, NODE } from '../support/program.ts'
import { openPty, type Pty } from '../support/pty.ts'
import { eventsIn } from '../support/terminal-person.ts'
import { commandsOf, doStop, tourOf } from '../support/tour.ts'

const root = fileURLToPath(new URL('../../', import.meta.url))
const page = readFileSync(join(root, 'README.md'), 'utf8')
const scripts = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).scripts as Record<string, string>

let folder: string
let pty: Pty | undefined
beforeEach(() => {
  folder = ownFolder()
})
afterEach(async () => {
  pty?.kill()
  await pty?.ended
  pty?.screen.dispose()
  pty = undefined
})

/** The command as a person types it, with the Node that is tried. */
const shell = (line: string, cwd = root): string =>
  execFileSync('sh', ['-c', line.replace(/^node /u, `"${NODE}" `)], {
    cwd,
    env: envIn(folder),
    encoding: 'utf8',
  })

describe('the README', () => {
  it('leads to the planted fault, its repair and the proof', async () => {
    const stops = tourOf(page)
    expect(stops.length).toBeGreaterThan(8)
    // What `npm start` does once the program is built.
    const [, args] = /whichlead\.mjs (.*)$/u.exec(scripts.start ?? '') ?? []
    expect(args).toContain('diagnose')
    const log = join(folder, 'tour.ndjson')
    pty = openPty({
      command: NODE,
      arguments: ['dist/whichlead.mjs', ...(args ?? '').split(' '), '--log', log],
      cwd: root,
      env: { ...envIn(folder), LANG: 'C.UTF-8' },
    })
    for (const stop of stops) await doStop(pty, stop)
    expect(await pty.ended).toMatchObject({ code: 0 })
    const events = eventsIn(log)
    const end = events.find((e) => e.e === 'ended')
    expect(end?.end.outcome).toBe('fixed')
    expect(end?.end.suspects[0]?.faults).toEqual([{ at: 'Y2.in', mode: 'unplugged' }])
    // No key was too many or too few: each stop that says something said it once.
    expect(events.filter((e) => e.e === 'undone')).toEqual([])
  })

  it('has commands of the bench that show what the tour answers', () => {
    const [planted, repaired, ...rest] = commandsOf(page, 'node dist/whichlead.mjs bench')
    expect(rest).toEqual([])
    const standing = (line: string | undefined) =>
      shell(line ?? '')
        .split('\n')
        .filter((l) => l.includes('stands still'))
        .map((l) => l.split(/\s+/u)[1])
    expect(standing(planted)).toEqual(['F7', 'F8'])
    expect(standing(repaired)).toEqual([])
  })

  it('names commands that work, on a plan of one’s own', () => {
    for (const line of commandsOf(page, 'whichlead ')) {
      const [, name, ...args] = line.split(' ')
      const asks =
        name === 'diagnose' ? ['--plain', '--symptom', 'fan-still'] : name === 'new' ? ['--usual'] : []
      const { code, err } = call(folder, [name ?? '', ...args, ...asks])
      expect({ line, code, err }).toMatchObject({ err: '', code: name === 'check' ? expect.any(Number) : 0 })
    }
    expect(commandsOf(page, 'node dist/whichlead.mjs report')).toHaveLength(1)
    expect(call(folder, ['report']).out).toContain('# ')
  })

  it('names faults to try that are faults of the demo build', () => {
    const listed = call(
      root,
      ['bench', 'docs/examples/archive-ten-fans.build.yaml', '--list-faults', '--json'],
      { env: envIn(folder) },
    ).out
    const names = new Set(
      (JSON.parse(listed) as { faults: { at: string; mode: string }[] }).faults.map(
        (f) => `${f.at}:${f.mode}`,
      ),
    )
    const tried = [...page.matchAll(/^\| [^|]+ \| `([^`]+:[^`]+)` \|$/gmu)].map((m) => m[1] ?? '')
    expect(tried).toHaveLength(4)
    for (const name of tried) expect(names).toContain(name)
  })

  it('gives the two commands that begin', () => {
    expect(commandsOf(page, 'npm ci')).toEqual(['npm ci && npm start', 'npm ci && npm test'])
    expect(scripts).toHaveProperty('start')
    expect(scripts).toHaveProperty('test')
  })

  it('shows a screen that was taken by the script, as it was taken', () => {
    const [, shown] = /<!-- screen -->\n```text\n([\s\S]*?)\n```/u.exec(page) ?? []
    const taken = readFileSync(join(root, 'docs', 'screens', 'question.txt'), 'utf8')
    expect(`${shown}\n`).toBe(taken)
    expect(Math.max(...taken.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80)
    expect(taken).toContain('Which fans stand still')
  })
})
