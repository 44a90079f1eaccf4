/** Readings line by line and over the line protocol: fetched by name or handed over whole, told once. */
import { describe, expect, test } from 'vitest'
import { runLines } from '../../src/plain/lines.ts'
import { linesIn } from '../../src/plain/lines-in.ts'
import { runPlain } from '../../src/plain/plain.ts'
import { build } from '../support/build.ts'
import { memorySession } from '../support/run-job.ts'

const plan = build('Sound archive workstation')
  .header('SYS1')
  .header('SYS2')
  .fan('F1..F2', { light: undefined })
  .lead('F1.motor', 'board.SYS1')
  .lead('F2.motor', 'board.SYS2')
  .settings({ celsius: 30 })
  .plan()

const figures = '{"nct6798-isa-0290":{"Adapter":"x","a":{"fan1_input":0},"b":{"fan2_input":610}}}'

async function talk(symptom: string, typed: readonly string[], how: 'plain' | 'lines'): Promise<string> {
  const { session } = await memorySession(plan, symptom)
  let out = ''
  const asked: string[] = []
  async function* bytes() {
    yield Buffer.from(`${typed.join('\n')}\n`)
  }
  const it = {
    lines: linesIn(bytes()),
    write: (text: string) => {
      out += text
    },
    fetch: async (from: string) => {
      asked.push(from)
      return from === 'nowhere.json'
        ? ({ ok: false, trouble: { code: 'missing', path: from, facts: {} } } as const)
        : ({ ok: true, text: figures } as const)
    },
  }
  await (how === 'plain' ? runPlain(session, it) : runLines(session, it, 'studio.build.yaml'))
  return `${out}\n[fetched: ${asked.join(', ')}]`
}

describe('line by line', () => {
  test('a reading is fetched by its name, told, and the next question is one that it does not settle', async () => {
    const out = await talk('zero-rpm', ['read my.json fan1=SYS1 fan2=SYS2', 'leave'], 'plain')
    expect(out).toContain('fan1 (0 RPM): ')
    expect(out.match(/Which speeds are not right/g)).toHaveLength(1)
    expect(out).toContain('Step 2.')
    expect(out).toContain('[fetched: my.json]')
  })

  test('a name with blanks stands in quotes', async () => {
    expect(await talk('zero-rpm', ['read "my fans.json" fan1=SYS1', 'leave'], 'plain')).toContain(
      '[fetched: my fans.json]',
    )
  })

  test.each([
    ['read', 'Name a file'],
    ['read nowhere.json fan1=SYS1', 'there is no such file'],
    ['read my.json', 'Say which is which'],
    ['read my.json fan1=SYS7', 'names no place of this plan'],
  ])('%s is told what is amiss, and the question stands', async (line, says) => {
    const out = await talk('zero-rpm', [line, 'path', 'leave'], 'plain')
    expect(out).toContain(says)
    expect(out).toContain('Nothing has been asked yet')
  })
})

describe('over the line protocol', () => {
  const lines = (out: string) =>
    out
      .split('\n')
      .filter((l) => l.startsWith('{'))
      .map((l) => JSON.parse(l) as { type: string; kind?: string; id?: string; facts?: { taken: string[] } })

  test('a reading gets a note, and the next question if it settled this one', async () => {
    const said = lines(
      await talk('zero-rpm', [JSON.stringify({ read: figures, as: ['fan1=SYS1', 'fan2=SYS2'] })], 'lines'),
    )
    const at = said.findIndex((l) => l.kind === 'read')
    expect(said[at]?.facts?.taken).toEqual([
      'rpm\tboard.SYS1\tzero\tfan1\t0 RPM',
      'rpm\tboard.SYS2\tplausible\tfan2\t610 RPM',
    ])
    expect(said[at + 1]).toMatchObject({ type: 'ask', id: 'map spins' })
  })

  test('a question that a reading does not settle is not written again', async () => {
    const said = lines(
      await talk('fan-still', [JSON.stringify({ read: figures, as: ['fan1=SYS1'] })], 'lines'),
    )
    expect(said.filter((l) => l.type === 'ask')).toHaveLength(1)
    expect(said.filter((l) => l.kind === 'read')).toHaveLength(1)
  })

  test('a reading of nothing known gets a problem', async () => {
    expect(lines(await talk('fan-still', ['{"read":"hello"}'], 'lines')).map((l) => l.type)).toContain(
      'problem',
    )
  })
})
