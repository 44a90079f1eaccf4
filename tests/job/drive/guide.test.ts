/** The guide as a part of the job: what it is told is in the log, is not asked again, and can be taken back. */
import { describe, expect, test } from 'vitest'
import { survey } from '../../../flows/survey.ts'
import { ANYTHING_ELSE, WHICH_SYMPTOM } from '../../../flows/which-symptom.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { apply } from '../../../src/job/drive/apply.ts'
import { begin, type Ground } from '../../../src/job/drive/job.ts'
import type { LogEvent } from '../../../src/job/log/event.ts'
import { openSession } from '../../../src/job/session.ts'
import type { Reply, Session, View } from '../../../src/job/view.ts'
import { personAt } from '../../support/bench-person.ts'
import { example } from '../../support/examples.ts'
import { groundFor, memoryLog } from '../../support/run-job.ts'

const unnamed = (plan: Plan, told: readonly string[] = []): Ground => ({
  ...groundFor(plan, survey.id),
  told,
})

async function guidedJob(plan: Plan): Promise<{ session: Session; events: LogEvent[]; ground: Ground }> {
  const ground = unnamed(plan)
  const log = memoryLog()
  return { session: await openSession(begin(ground), log, plan), events: log.events, ground }
}

const say = async (session: Session, ...ids: string[]): Promise<View> => {
  for (const id of ids) expect(await session.reply({ say: 'answer', ids: [id] })).toEqual({ ok: true })
  return session.view()
}

const topicOf = ({ prompt }: View): string =>
  prompt?.show === 'ask' && 'about' in prompt
    ? `${prompt.about} ${prompt.at ?? ''}`.trim()
    : (prompt?.id ?? '')

const small = example('small-three-fans')

describe('a job whose symptom nobody can name', () => {
  test('begins with the guide and goes on with the flow that it finds', async () => {
    const { session, events } = await guidedJob(small)
    expect(session.view()).toMatchObject({ symptom: WHICH_SYMPTOM, symptoms: [], state: 'naming' })
    expect(topicOf(session.view())).toBe('symptom whatIsOff')
    expect(topicOf(await say(session, 'lights'))).toBe('symptom whatTheLightsDo')
    expect(topicOf(await say(session, 'dark'))).toBe(`symptom ${ANYTHING_ELSE}`)
    const view = await say(session, 'that-is-all')
    expect(view).toMatchObject({ symptom: 'lights-dark', symptoms: ['lights-dark'], queued: [] })
    expect(topicOf(view)).toBe('map lit')
    expect(events.filter((e) => e.e === 'symptoms')).toMatchObject([{ now: ['lights-dark'], later: [] }])
    expect(view.told.some((t) => t.show === 'note' && t.kind === 'symptom')).toBe(true)
  })

  test('does not ask again what was told: all of it dead is on both maps already', async () => {
    const { session, events } = await guidedJob(small)
    const view = await say(session, 'nothing-at-all')
    expect(view.symptoms).toEqual(['all-dead'])
    expect(topicOf(view)).toBe('since')
    const told = events.filter((e) => e.e === 'replied' && e.told !== undefined)
    expect(told).toHaveLength(2)
    const maps = view.trail.filter((t) => t.told !== undefined)
    expect(maps.map((t) => t.prompt.id)).toEqual(['map spins', 'map lit'])
    for (const { prompt, reply } of maps) {
      const things = prompt.show === 'ask' && prompt.many ? prompt.marks.map((m) => m.observe.at) : []
      expect(reply).toHaveLength(new Set(things).size)
    }
  })

  test('does not ask whether it comes and goes who said that it is right at first', async () => {
    const { session } = await guidedJob(small)
    const view = await say(session, 'later', 'that-is-all')
    expect(view.trail.find((t) => t.prompt.id === 'comes-and-goes')).toMatchObject({ reply: ['yes'] })
    expect(topicOf(view)).toBe('map spins')
  })

  test('has everything looked over for who cannot tell', async () => {
    const { session } = await guidedJob(small)
    expect(await session.reply({ say: 'unsure' })).toEqual({ ok: true })
    expect(session.view().symptoms).toEqual(['survey'])
  })

  test('is handed over in the middle of the guide where the technician wants that', async () => {
    const { session } = await guidedJob(small)
    await say(session, 'lights')
    expect(await session.reply({ say: 'hand-over' })).toEqual({ ok: true })
    expect(session.view()).toMatchObject({ prompt: null, end: { outcome: 'handed-over' } })
  })

  test('takes answers back over the guide, and what came of them goes with them', async () => {
    const { session } = await guidedJob(small)
    await say(session, 'lights', 'dark', 'that-is-all')
    await session.reply({ say: 'answer', ids: ['F1:dark'] })
    const undo = async (): Promise<string> => {
      expect(await session.reply({ say: 'undo' })).toEqual({ ok: true })
      return topicOf(session.view())
    }
    expect(await undo()).toBe('map lit')
    expect(await undo()).toBe(`symptom ${ANYTHING_ELSE}`)
    expect(session.view().symptoms).toEqual([])
    expect(await undo()).toBe('symptom whatTheLightsDo')
    expect(topicOf(await say(session, 'other-colours', 'that-is-all'))).toBe('map shows')
    expect(session.view().symptoms).toEqual(['wrong-colours'])
  })

  test('asks in person what was told, once that is taken back by its number', async () => {
    const { session } = await guidedJob(small)
    const before = await say(session, 'nothing-at-all')
    const lit = before.trail.find((t) => t.prompt.id === 'map lit')
    expect(await session.reply({ say: 'undo', seq: lit?.seq ?? 0 })).toEqual({ ok: true })
    expect(topicOf(session.view())).toBe('map lit')
    // Without a number the last word of the person goes, and with it what it told.
    expect(await session.reply({ say: 'undo' })).toEqual({ ok: true })
    expect(topicOf(session.view())).toBe('symptom whatIsOff')
  })

  test('takes an answer of the guide back from among the checks, as long as nothing was done to the build', async () => {
    const { session } = await guidedJob(small)
    await say(session, 'lights', 'dark', 'that-is-all')
    const person = personAt(small, [{ at: 'F2.light', mode: 'unplugged' }])
    const seq = session.view().trail[1]?.seq ?? 0
    let taken = 0
    for (let view = session.view(); view.prompt && taken < 12; view = session.view(), taken++) {
      const { prompt } = view
      if (view.state.startsWith('isolating') && prompt.show === 'do') break
      expect(session.without(seq)).not.toBeNull()
      const reply: Reply = prompt.show === 'do' ? { say: 'done' } : person.answer(prompt)
      await session.reply(reply)
    }
    expect(session.view().state).toMatch(/^isolating/)
    expect(await session.reply({ say: 'undo', seq })).toEqual({ ok: true })
    expect(topicOf(session.view())).toBe('symptom whatTheLightsDo')
    expect(session.view().suspects).toEqual([])
    await say(session, 'dark', 'that-is-all')
    for (let view = session.view(); view.prompt; view = session.view()) {
      if (view.prompt.show === 'do') person.did(view.prompt.edits)
      await session.reply(view.prompt.show === 'do' ? { say: 'done' } : person.answer(view.prompt))
      const done = session.view().trail.some((t) => !t.undone && t.prompt.show === 'do' && t.reply === 'done')
      if (done && session.view().prompt) expect(session.without(seq)).toBeNull()
    }
    expect(session.view().end?.outcome).toBe('fixed')
  })

  test('stands at every point of it just as its log says', async () => {
    const { session, events, ground } = await guidedJob(small)
    const same = async (): Promise<void> => {
      const again = await openSession(events.reduce(apply, begin(ground)), memoryLog(events), small)
      expect(again.view()).toEqual(session.view())
    }
    await same()
    for (const id of ['fans', 'stand-still', 'more', 'lights', 'dark', 'that-is-all']) {
      await say(session, id)
      await same()
    }
    await session.reply({ say: 'answer', ids: ['F1:no'] })
    await same()
    await session.reply({ say: 'undo' })
    await session.reply({ say: 'undo' })
    await same()
  })
})
