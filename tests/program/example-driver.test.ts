/**
 * The driver in the examples does a whole job with the built program: by answers from a file, as a person would type
 * them. All lines that went over the pipe fit the published schema.
 */
import { spawnSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { expect, test } from 'vitest'
import { parseFault } from '../../src/core/faults/fault.ts'
import { readPlanFile } from '../../src/io/read-plan.ts'
import { personAt } from '../support/bench-person.ts'
import { driveJob } from '../support/line-driver.ts'
import { ownFolder } from '../support/own-folder.ts'
import { envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'
import { memorySession } from '../support/run-job.ts'

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url))
const DRIVER = here('../../docs/examples/drive-a-job.mjs')
const FAULT = 'F2.light:unplugged'

function driven(args: readonly string[]) {
  return spawnSync(NODE, [DRIVER, ...args], {
    env: { ...envIn(ownFolder()), WHICHLEAD: PROGRAM },
    encoding: 'utf8',
    timeout: 60_000,
  })
}

/** What a person would type, worked out by a job in memory on the same build with the same fault. */
async function answers(): Promise<string[]> {
  const read = readPlanFile(SMALL)
  const fault = parseFault(FAULT)
  if (!read.ok || !fault) throw new Error('the example cannot be read')
  const { session } = await memorySession(read.value, 'lights-dark')
  const person = personAt(read.value, [fault])
  const typed: string[] = []
  for (let view = session.view(); view.prompt && typed.length < 60; view = session.view()) {
    const { prompt } = view
    if (prompt.show === 'do') person.did(prompt.edits)
    const reply = prompt.show === 'do' ? ({ say: 'done' } as const) : person.answer(prompt)
    const ids =
      prompt.show === 'do'
        ? []
        : prompt.many
          ? prompt.marks.map((m) => m.id)
          : 'about' in prompt
            ? prompt.choices
            : prompt.answers.map((a) => a.id)
    typed.push(
      reply.say !== 'answer'
        ? reply.say
        : reply.ids.length === 0
          ? 'none'
          : reply.ids.map((id) => ids.indexOf(id) + 1).join(' '),
    )
    await session.reply(reply)
  }
  return typed
}

test('the driver in the examples is sixty lines of plain Node that take nothing of ours', () => {
  const text = readFileSync(DRIVER, 'utf8')
  expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(70)
  for (const [, from] of text.matchAll(/from '([^']+)'/g)) expect(from).toMatch(/^node:/)
})

test('with answers from a file it finds the fault and proves the repair', async () => {
  const file = join(ownFolder(), 'answers.txt')
  const typed = await answers()
  // A slip is asked back and costs nothing.
  writeFileSync(file, ['what?', ...typed].join('\n'))
  const { status, stdout } = driven([SMALL, 'lights-dark', file])
  expect(status).toBe(0)
  expect(stdout).toContain('That is none of the answers.')
  expect(stdout).toMatch(/light plug of fan F2/)
  expect(stdout).toMatch(/Fixed/)
})

test('when the answers run out the job is left, to be taken up again', async () => {
  const file = join(ownFolder(), 'answers.txt')
  writeFileSync(file, 'why\nnone')
  const { status, stdout } = driven([SMALL, 'lights-dark', file])
  expect(status).toBe(0)
  expect(stdout).toContain('can be taken up again')
})

test('a plan that cannot be read ends it with the code of the program', () => {
  expect(driven(['nothing.build.yaml', 'lights-dark', DRIVER]).status).toBe(2)
})

test('every line of a whole job fits the published schema', async () => {
  const schema = JSON.parse(readFileSync(here('../../docs/reference/lines.schema.json'), 'utf8')) as {
    $defs: Record<'tool' | 'driver', object>
  }
  const ajv = new Ajv2020({ strict: false })
  const tool = ajv.compile(schema.$defs.tool)
  const driver = ajv.compile(schema.$defs.driver)
  const folder = ownFolder()
  const { lines } = await driveJob(
    PROGRAM,
    { plan: SMALL, symptom: 'lights-dark', faults: [FAULT], log: join(folder, 'job.ndjson') },
    envIn(folder),
  )
  expect(lines.length).toBeGreaterThan(5)
  for (const line of lines) expect(tool(line), JSON.stringify(line)).toBe(true)
  for (const line of [{ done: true }, { answer: 'x' }, { read: 'x', as: ['fan1=SYS1'] }])
    expect(driver(line)).toBe(true)
  for (const line of [{}, { read: '' }, { answers: 'x' }]) expect(driver(line)).toBe(false)
})
