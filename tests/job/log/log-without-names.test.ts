/** A log to share: what could name somebody is gone, and it is still the log of the same job. */
import { expect, test } from 'vitest'
import { apply } from '../../../src/job/drive/apply.ts'
import { begin } from '../../../src/job/drive/job.ts'
import { decodeLog } from '../../../src/job/log/decode.ts'
import type { LogBody } from '../../../src/job/log/event.ts'
import { logWithoutNames } from '../../../src/job/log/log-without-names.ts'
import { planOf } from '../../../src/job/log/plan-copy.ts'
import { assembleReport } from '../../../src/job/report/assemble.ts'
import { build } from '../../support/build.ts'
import { jobBodies, writtenJob } from '../../support/job-log.ts'
import { groundFor, memorySession } from '../../support/run-job.ts'

const studio = build('Studio').header('SYS1').fan('F1', { light: undefined }).lead('F1.motor', 'board.SYS1')
const text = `# For the Teahouse, 5 Quay Street\n${studio.text()}# "ask shift 2" # first\n`

const opened: LogBody = {
  e: 'opened',
  format: 1,
  tool: '0.1.0',
  plan: { file: '/home/bench/customers/studio.build.yaml', text, includes: [] },
  digest: 'x',
  build: 'Studio',
  symptom: 'fan-still',
  who: 'early shift',
  where: 'Quay Street',
  options: {},
}

async function jobOf(): Promise<LogBody[]> {
  const { session, log } = await memorySession(studio.plan(), 'fan-still')
  await session.reply({ say: 'note', text: 'the tea-house says it smelt' })
  const figures = '{"a-isa-1":{"Adapter":"secret-host","f":{"fan1_input":0}}}'
  await session.reply({ say: 'read', text: figures, as: ['fan1=SYS1'], by: '/home/bench/fans.json' })
  await session.reply({ say: 'answer', ids: ['F1:no'] })
  return [opened, ...log.events.map(({ seq: _, at: __, ...body }) => body as LogBody)]
}

test('names nobody: people, places, paths, notes, comments of the plan and texts of readings are gone', async () => {
  const { events, text: whole } = writtenJob(await jobOf())
  const names = ['early shift', 'Quay', 'Teahouse', 'secret-host', 'ask shift', '/home']
  for (const name of names) expect(whole).toContain(name)
  const shared = logWithoutNames(events, '–')
  for (const name of names) expect(shared).not.toContain(name)
})

test('is sound, with the same lines at the same times, and the same plan', async () => {
  const { events } = writtenJob(await jobOf())
  const shared = decodeLog(logWithoutNames(events, '–'))
  expect(shared.problems).toEqual([])
  expect(shared.events.map((e) => [e.seq, e.at, e.e])).toEqual(events.map((e) => [e.seq, e.at, e.e]))
  const [first] = shared.events
  const read = first?.e === 'opened' ? planOf(first.plan) : undefined
  expect(read?.ok && read.value.parts.map((p) => p.id)).toEqual(['F1'])
})

test('leads to the same job when it is taken up', async () => {
  const { events } = writtenJob(await jobOf())
  const ground = groundFor(studio.plan(), 'fan-still')
  const shared = decodeLog(logWithoutNames(events, '–')).events
  const [job, again] = [events, shared].map((all) => all.reduce(apply, begin(ground)))
  expect(again?.pending).toEqual(job?.pending)
  expect(again?.suspects).toEqual(job?.suspects)
  expect(again?.evidence).toEqual(job?.evidence)
})

test('gives the same report of a whole job, but for the names', () => {
  const { events, text: whole } = writtenJob(jobBodies)
  const shared = assembleReport(decodeLog(logWithoutNames(events, '–')))
  const own = assembleReport(decodeLog(whole))
  expect(shared?.outcome).toBe(own?.outcome)
  expect(shared?.suspects).toEqual(own?.suspects)
  expect(shared?.steps.length).toBe(own?.steps.length)
  expect(shared?.who).toBeUndefined()
})

test('keeps a # that is no comment', () => {
  const hash = text.replace('build: Studio', 'build: "Studio #2"')
  const { events } = writtenJob([{ ...opened, plan: { file: 'a', text: hash, includes: [] } }])
  const [first] = decodeLog(logWithoutNames(events, '–')).events
  expect(first?.e === 'opened' && first.plan.text).toContain('"Studio #2"')
})
