/** Readings in a whole job: what they settle is not asked, what they say is weighed, and the log alone brings it back. */
import { describe, expect, test } from 'vitest'
import type { Prompt } from '../../src/core/checks/prompt.ts'
import { apply } from '../../src/job/drive/apply.ts'
import { begin, type Job } from '../../src/job/drive/job.ts'
import { tryReading } from '../../src/job/readings.ts'
import type { Session } from '../../src/job/view.ts'
import { personAt } from '../support/bench-person.ts'
import { build } from '../support/build.ts'
import { groundFor, memorySession } from '../support/run-job.ts'

const plan = build('Sound archive workstation')
  .header('SYS1')
  .header('SYS2')
  .fan('F1..F2', { light: undefined })
  .lead('F1.motor', 'board.SYS1')
  .lead('F2.motor', 'board.SYS2')
  .set('SYS1', {
    curve: [
      [30, 40],
      [70, 100],
    ],
  })
  .set('SYS2', {
    curve: [
      [30, 40],
      [70, 100],
    ],
  })
  .settings({ celsius: 30 })
  .plan()

/** F1 stands still, F2 turns at the 600 RPM that it is asked for. */
const figures = '{"nct6798-isa-0290":{"Adapter":"x","a":{"fan1_input":0},"b":{"fan2_input":610}}}'
const as = ['fan1=SYS1', 'fan2=SYS2']
const read = { say: 'read', text: figures, as } as const
const fault = [{ at: 'F1.motor', mode: 'unplugged' }]

async function toTheEnd(session: Session): Promise<Prompt[]> {
  const person = personAt(plan, fault)
  const prompts: Prompt[] = []
  for (let view = session.view(); view.prompt && prompts.length < 60; view = session.view()) {
    prompts.push(view.prompt)
    if (view.prompt.show === 'do') person.did(view.prompt.edits)
    const reply = view.prompt.show === 'do' ? ({ say: 'done' } as const) : person.answer(view.prompt)
    const taken = await session.reply(reply)
    if (!taken.ok) throw new Error(taken.refusal.problem)
  }
  return prompts
}

/** What a log's replay gives, as far as a person sees it. */
const shape = (job: Job) => ({
  evidence: job.evidence.map((e) => [e.kind, e.seq, e.error]),
  trail: job.trail.map((t) => [t.seq, t.reply, t.read]),
  told: job.told,
  suspects: job.suspects,
  pending: job.pending,
})

describe('a reading handed into a job', () => {
  test('answers the look over the speeds, marks the answer as read, and costs no minutes', async () => {
    const { session } = await memorySession(plan, 'zero-rpm')
    expect(session.view().prompt?.id).toBe('map rpm')
    expect(await session.reply(read)).toEqual({ ok: true })
    const view = session.view()
    expect(view.trail).toMatchObject([{ prompt: { id: 'map rpm' }, reply: ['board.SYS1:zero'], read: 3 }])
    expect(view.minutes).toBe(0)
    expect(view.prompt?.id).toBe('map spins')
    expect(view.told.at(-1)).toMatchObject({ kind: 'read', facts: { source: 'sensors' } })
  })

  test('leads to the same fault with fewer questions', async () => {
    const without = await memorySession(plan, 'zero-rpm')
    const plainly = await toTheEnd(without.session)
    const { session } = await memorySession(plan, 'zero-rpm')
    await session.reply(read)
    const helped = await toTheEnd(session)
    expect(session.view().end?.outcome).toBe('fixed')
    expect(session.view().end?.suspects[0]?.faults).toEqual(fault)
    expect(helped.length).toBeLessThan(plainly.length)
    expect(session.view().minutes).toBeLessThan(without.session.view().minutes)
  })

  test('is weighed with less doubt than a person, and once only', async () => {
    const { session, log } = await memorySession(plan, 'zero-rpm')
    await session.reply(read)
    const job = log.events.reduce(apply, begin(groundFor(plan, 'zero-rpm')))
    const rpm = job.evidence.filter((e) =>
      e.kind === 'many' ? e.marks[0]?.observe.what === 'rpm' : e.id.startsWith('read rpm'),
    )
    expect(rpm.map((e) => [e.kind, e.error])).toEqual([['many', 0.01]])
  })

  test('is in the log whole, and a replay of the log gives the same job', async () => {
    const ground = groundFor(plan, 'zero-rpm')
    const { session, log } = await memorySession(plan, 'zero-rpm', ground)
    await session.reply(read)
    await session.reply({ say: 'answer', ids: ['F1:no'] })
    const line = log.events.find((e) => e.e === 'read')
    expect(line).toMatchObject({
      text: figures,
      named: [
        { name: 'fan1', ref: 'board.SYS1' },
        { name: 'fan2', ref: 'board.SYS2' },
      ],
    })
    const again = log.events.reduce(apply, begin(ground))
    const once = JSON.parse(JSON.stringify(log.events)) as typeof log.events
    expect(shape(once.reduce(apply, begin(ground)))).toEqual(shape(again))
    expect(again.pending?.prompt).toEqual(session.view().prompt)
  })

  test('may come in the middle: the question that it does not settle stands', async () => {
    const { session } = await memorySession(plan, 'fan-still')
    const before = session.view().prompt
    expect(before?.id).toBe('map spins')
    expect(await session.reply(read)).toEqual({ ok: true })
    expect(session.view().prompt).toBe(before)
    expect(session.view().trail).toEqual([])
  })

  test('needs its names only once in a job', async () => {
    const { session } = await memorySession(plan, 'fan-still')
    expect((await session.reply(read)).ok).toBe(true)
    expect((await session.reply({ ...read, as: [] })).ok).toBe(true)
  })

  test('needs no names at all where the plan has them, and goes by what is said where both speak', async () => {
    const known = {
      ...plan,
      readings: [
        { name: 'fan1', ref: 'board.SYS1' },
        { name: 'fan2', ref: 'board.SYS2' },
      ],
    }
    const taken = (names: readonly string[]) => {
      const taking = tryReading(known, { text: figures, as: names })
      if (!taking.ok) throw new Error(taking.reading.is)
      return taking.body.taken.flatMap((t) => (t.observe.what === 'rpm' ? [`${t.from} ${t.observe.at}`] : []))
    }
    expect(taken([])).toEqual(['fan1 board.SYS1', 'fan2 board.SYS2'])
    // Where the name or the place is said otherwise, the plan's word for it does not count.
    expect(taken(['fan1=SYS2'])).toEqual(['fan1 board.SYS2'])
    expect(taken(['fan2=SYS1'])).toEqual(['fan2 board.SYS1'])
    const { session } = await memorySession(known, 'zero-rpm', groundFor(known, 'zero-rpm'))
    expect(await session.reply({ say: 'read', text: figures, as: [] })).toEqual({ ok: true })
    expect(session.view().trail.map((t) => [t.prompt.id, t.read !== undefined])).toEqual([['map rpm', true]])
  })

  test('is asked of a person after all when its answer is taken back', async () => {
    const { session } = await memorySession(plan, 'zero-rpm')
    await session.reply(read)
    expect(await session.reply({ say: 'undo' })).toEqual({ ok: true })
    const { prompt, trail } = session.view()
    expect(prompt?.id).toBe('map rpm')
    expect(trail[0]).toMatchObject({ undone: true, read: 3 })
    expect(await session.reply({ say: 'answer', ids: ['board.SYS2:zero'] })).toEqual({ ok: true })
    expect(session.view().trail.at(-1)?.read).toBeUndefined()
  })

  test('with the power off is refused, and says nothing of a build that was changed since', async () => {
    const { session } = await memorySession(plan, 'fan-still')
    await session.reply(read)
    const person = personAt(plan, fault)
    for (let i = 0; i < 20; i++) {
      const { prompt, power } = session.view()
      if (!prompt || power === 'off') break
      if (prompt.show === 'do') person.did(prompt.edits)
      await session.reply(prompt.show === 'do' ? { say: 'done' } : person.answer(prompt))
    }
    expect(session.view().power).toBe('off')
    expect(await session.reply(read)).toMatchObject({ ok: false, refusal: { reading: { is: 'power-off' } } })
    await toTheEnd(session)
    const looks = session.view().trail.filter((t) => t.prompt.show === 'ask' && t.prompt.stage === 'proof')
    expect(looks.length).toBeGreaterThan(0)
    for (const look of looks) expect(look.read).toBeUndefined()
  })

  test.each([
    ['no names given', { text: figures, as: [] }, 'nothing-taken'],
    ['a name for a header that is not there', { text: figures, as: ['fan1=SYS9'] }, 'name'],
    ['text that is no reading', { text: 'hello', as }, 'unreadable'],
  ])('is refused with %s, before any log is made', (_, given, is) => {
    expect(tryReading(plan, given)).toMatchObject({ ok: false, reading: { is } })
  })
})
