/** Working out what follows an answer before it is given changes nothing of a job, and leaves nothing to do when it is given. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parseFault } from '../../src/core/faults/fault.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { apply } from '../../src/job/drive/apply.ts'
import { begin, type Ground, type Job } from '../../src/job/drive/job.ts'
import { likelyReplies } from '../../src/job/drive/likely.ts'
import type { LogEvent } from '../../src/job/log/event.ts'
import type { Session } from '../../src/job/view.ts'
import { personAt } from '../support/bench-person.ts'
import { SMALL, TEN } from '../support/program.ts'
import { groundFor, memorySession } from '../support/run-job.ts'

const plan = (file: string) => {
  const read = readPlan(readFileSync(file, 'utf8'), file)
  if (!read.ok) throw new Error(`${file} does not read`)
  return read.value
}

/** A clock by which every look at it comes a second after the one before: nobody answers at once, and each piece is one part. */
function slowClock(): () => number {
  let seconds = 0
  return () => 1000 * seconds++
}

/** Everything that can be worked out; a bound, so that a session that never ends shows. */
function lookAhead(session: Session): number {
  let worked = 1
  while (session.ahead() && worked < 100_000) worked++
  return worked
}

const standing = (ground: Ground, { events }: { readonly events: readonly LogEvent[] }): Job =>
  events.reduce(apply, begin(ground))

/** A whole job with the bench as the person. @param before each reply  @param meanwhile the disk is busy with what is written */
async function job(
  file: string,
  symptom: string,
  planted: string,
  before: (session: Session) => void,
  meanwhile: (session: Session, write: number) => void = () => {},
  now = slowClock(),
) {
  const fault = parseFault(planted)
  const own = groundFor(plan(file), symptom)
  let asked = 0
  // Whoever reasons looks up what is known.
  const known = new Proxy(own.known, {
    get: (of, key) => {
      asked++
      return Reflect.get(of, key)
    },
  })
  const { session, log } = await memorySession(plan(file), symptom, { ...own, known }, now)
  const { append } = log
  let writes = 0
  log.append = async (bodies) => {
    const done = await append(bodies)
    meanwhile(session, writes++)
    return done
  }
  const person = personAt(plan(file), fault ? [fault] : [])
  let duringReplies = 0
  for (let i = 0; i < 60 && session.view().end === null; i++) {
    before(session)
    const { prompt } = session.view()
    if (!prompt) break
    if (prompt.show === 'do') person.did(prompt.edits)
    const reply = prompt.show === 'do' ? ({ say: 'done' } as const) : person.answer(prompt)
    const words = reply.say === 'answer' ? reply.ids : reply.say
    const likely = likelyReplies(standing(own, log)).some(
      (one) => JSON.stringify(one) === JSON.stringify(words),
    )
    const [events, asks] = [log.events.length, asked]
    expect(await session.reply(reply)).toEqual({ ok: true })
    expect(log.events.length).toBeGreaterThan(events)
    if (likely) duringReplies += asked - asks
  }
  return { events: log.events, duringReplies, end: session.view().end }
}

describe('looking ahead', () => {
  it.each([
    [SMALL, 'lights-dark', 'F3.light:open-DATA'],
    [SMALL, 'lights-stuck', 'host/program:not-running'],
    [SMALL, 'first-boot', 'F2.light:unplugged'],
    [TEN, 'zero-rpm', 'F7.motor:open-TACH'],
  ])('%s, %s with %s: the log is the same to the letter', async (file, symptom, planted) => {
    const plain = await job(file, symptom, planted, () => {})
    const ahead = await job(file, symptom, planted, lookAhead)
    expect(plain.end).not.toBeNull()
    expect(ahead.events).toEqual(plain.events)
    // What was worked out is not worked out again. On a walk reasoning begins with what is marked, which nobody foresees.
    expect(plain.duringReplies > 0).toBe(symptom !== 'first-boot')
    expect(ahead.duringReplies).toBe(0)
  })

  it('keeps nothing of what was worked out while the disk was busy: the question is another one then', async () => {
    const [file, symptom, planted] = [SMALL, 'first-boot', 'F2.light:unplugged'] as const
    const plain = await job(file, symptom, planted, () => {})
    for (const busy of [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]) {
      const ahead = await job(file, symptom, planted, lookAhead, (session, write) => {
        if (write === busy) lookAhead(session)
      })
      expect(ahead.events).toEqual(plain.events)
    }
  })

  it('does each likely reply once, and begins anew once something else was said', async () => {
    const { session } = await memorySession(plan(SMALL), 'lights-dark', undefined, slowClock())
    for (const ids of [['F3:dark'], ['new']])
      expect(await session.reply({ say: 'answer', ids })).toEqual({ ok: true })
    expect(lookAhead(session)).toBeGreaterThan(1)
    expect(lookAhead(session)).toBe(1)
    expect(await session.reply({ say: 'note', text: 'by torchlight' })).toEqual({ ok: true })
    expect(lookAhead(session)).toBeGreaterThan(1)
  })

  it('leaves what is asked as it is, and has nothing to do once the job is left', async () => {
    const { session, log } = await memorySession(plan(SMALL), 'lights-dark')
    const [view, events] = [session.view(), [...log.events]]
    lookAhead(session)
    expect(session.view()).toEqual(view)
    expect(log.events).toEqual(events)
    await session.reply({ say: 'leave' })
    expect(session.ahead()).toBe(false)
  })

  it('comes back after a few parts of a thought, so that a key never waits for a whole one', async () => {
    const ground = groundFor(plan(TEN), 'lights-dark')
    const { session, log } = await memorySession(plan(TEN), 'lights-dark', ground, slowClock())
    for (const ids of [['F3:dark'], ['new']])
      expect(await session.reply({ say: 'answer', ids })).toEqual({ ok: true })
    const likely = likelyReplies(standing(ground, log))
    expect(lookAhead(session)).toBeGreaterThan(2 * likely.length)
  })
})

describe('answers that come at once', () => {
  /** A clock that stands still: all answers come at once, and there is no end of time for what comes later. */
  const still = () => 0

  it.each([
    { told: 'at once', now: still, begun: 1 },
    { told: 'after a while', now: slowClock(), begun: 0 },
  ])(
    '$told: what needs no thought begins with what will $begun times, and is taken also where that fails',
    async ({ now, begun }) => {
      const own = groundFor(plan(SMALL), 'lights-dark')
      let asked = 0
      const choose = (): never => {
        asked++
        throw new Error('nothing to choose from')
      }
      const ground = { ...own, known: { ...own.known, choose } }
      const { session } = await memorySession(plan(SMALL), 'lights-dark', ground, now)
      expect(await session.reply({ say: 'answer', ids: ['F3:dark'] })).toEqual({ ok: true })
      expect(asked).toBe(begun)
    },
  )

  it('are followed by the same', async () => {
    const [atOnce, slowly] = await Promise.all(
      [still, slowClock()].map((now) =>
        job(
          SMALL,
          'lights-dark',
          'F3.light:open-DATA',
          () => {},
          () => {},
          now,
        ),
      ),
    )
    expect(atOnce?.events).toEqual(slowly?.events)
    expect(atOnce?.end?.outcome).toBe('fixed')
  })
})

describe('thinking past replies that need none', () => {
  it('begins once something is known to be wrong', async () => {
    const own = groundFor(plan(TEN), 'works-then-stops')
    let asked = 0
    const known = new Proxy(own.known, {
      get: (of, key) => {
        if (key === 'sights') asked++
        return Reflect.get(of, key)
      },
    })
    const ground = { ...own, known }
    const { session } = await memorySession(plan(TEN), 'works-then-stops', ground, slowClock())
    const thoughts: boolean[] = []
    for (const ids of [['no'], ['F3:no']]) {
      expect(await session.reply({ say: 'answer', ids })).toEqual({ ok: true })
      const before = asked
      lookAhead(session)
      thoughts.push(asked > before)
    }
    // It does not come back, and F3 stands still; the lights are still to be looked at.
    expect(thoughts).toEqual([false, true])
    expect(session.view().prompt).toMatchObject({ stage: 'scope', many: true })
  })
})

describe('what is likely to be said', () => {
  it('is after a repair that all is well, then that all is as it was; and that nothing comes and goes', async () => {
    const ground = groundFor(plan(TEN), 'fan-still')
    const { session, log } = await memorySession(plan(TEN), 'fan-still', ground)
    const person = personAt(plan(TEN), [{ at: 'F3.motor', mode: 'open-12V' }])
    for (let i = 0; i < 40; i++) {
      const { prompt } = session.view()
      if (!prompt) throw new Error('ended without a look after a repair')
      const likely = likelyReplies(standing(ground, log))
      if (prompt.id === 'comes-and-goes') expect(likely).toEqual([['no'], ['yes'], 'unsure'])
      if (prompt.show === 'do') person.did(prompt.edits)
      const reply = prompt.show === 'do' ? ({ say: 'done' } as const) : person.answer(prompt)
      if (prompt.show === 'ask' && prompt.stage === 'proof') {
        expect(likely).toEqual([[], ['F3:no'], 'unsure'])
        return
      }
      await session.reply(reply)
    }
    throw new Error('no repair was looked over')
  })
})
