/** Any answer can be taken back, not only the last; and what that would change is told before it is done. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Ask } from '../../src/core/checks/prompt.ts'
import { faultText, parseFault } from '../../src/core/faults/fault.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { following } from '../../src/job/drive/ahead.ts'
import { apply } from '../../src/job/drive/apply.ts'
import { begin } from '../../src/job/drive/job.ts'
import type { Reply, Session } from '../../src/job/view.ts'
import { personAt } from '../support/bench-person.ts'
import { SMALL } from '../support/program.ts'
import { groundFor, memorySession } from '../support/run-job.ts'

const read = readPlan(readFileSync(SMALL, 'utf8'), SMALL)
if (!read.ok) throw new Error('the small example does not read')
const plan = read.value

/** A job on this fault, its first `steps` prompts answered as the bench would. */
async function jobAt(steps: number, text = 'F3.light:open-DATA') {
  const fault = parseFault(text)
  const { session } = await memorySession(plan, 'lights-dark')
  const person = personAt(plan, fault ? [fault] : [])
  const answer = async (): Promise<void> => {
    const { prompt } = session.view()
    if (!prompt) return
    if (prompt.show === 'do') person.did(prompt.edits)
    const taken = await session.reply(prompt.show === 'do' ? { say: 'done' } : person.answer(prompt))
    expect(taken.ok).toBe(true)
  }
  for (let i = 0; i < steps; i++) await answer()
  return { session, answer }
}

const standing = (session: Session) =>
  session.view().trail.filter((e) => !e.undone && e.prompt.show === 'ask')

/** Each suspect with its share, the groups taken apart into their first names. */
const shares = (suspects: ReturnType<Session['view']>['suspects']) =>
  new Map(
    suspects.map((s) => [
      [s, ...s.alike]
        .map((a) => a.faults.map(faultText).join())
        .sort()
        .join(' or '),
      s.p,
    ]),
  )

describe('taking an answer back', () => {
  it('during the first questions takes those after it too, since they are asked in order', async () => {
    const { session } = await jobAt(2)
    const [first] = standing(session)
    const without = session.without(first?.seq ?? 0)
    expect(without?.takes).toEqual(
      standing(session)
        .map((e) => e.seq)
        .reverse(),
    )
    expect(await session.reply({ say: 'undo', seq: first?.seq ?? 0 })).toEqual({ ok: true })
    expect(standing(session)).toEqual([])
    expect(session.view().prompt?.id).toBe(first?.prompt.id)
  })

  it('later takes only the one, and asks it again; the others stay', async () => {
    for (const steps of [4, 6, 8]) {
      const { session } = await jobAt(steps)
      if (session.view().end) continue
      for (const { seq, prompt } of standing(session).slice(0, -1)) {
        const { session: again } = await jobAt(steps)
        const before = standing(again).map((e) => e.seq)
        expect(again.without(seq)?.takes).toEqual([seq])
        expect(await again.reply({ say: 'undo', seq })).toEqual({ ok: true })
        expect(standing(again).map((e) => e.seq)).toEqual(before.filter((s) => s !== seq))
        // It comes again, behind the gate where power has to change first.
        for (let i = 0; i < 3 && again.view().prompt?.show === 'do'; i++) await again.reply({ say: 'done' })
        expect(again.view().prompt?.show).toBe('ask')
        if (prompt.show === 'ask' && prompt.stage !== 'proof')
          expect(again.view().prompt).toMatchObject({ id: prompt.id, again: 'undone' })
      }
    }
  })

  it('all that was seen before a repair leaves it a repair: with nothing wrong any more the job ends as fixed', async () => {
    const { session, answer } = await jobAt(0, 'F3.light:unplugged')
    const repairAsked = () => {
      const { prompt } = session.view()
      return prompt?.show === 'do' && prompt.purpose === 'repair'
    }
    for (let i = 0; i < 20 && !repairAsked(); i++) await answer()
    expect(repairAsked()).toBe(true)
    await answer()
    for (;;) {
      const last = standing(session).at(-1)
      if (!last) break
      expect(await session.reply({ say: 'undo', seq: last.seq })).toEqual({ ok: true })
    }
    for (let i = 0; i < 30 && session.view().end === null; i++) await answer()
    expect(session.view().end?.outcome).toBe('fixed')
  })

  it('what it would change is what it does change: with "can\'t tell" in its place the suspects are those foretold', async () => {
    const { session } = await jobAt(6)
    for (const { seq } of standing(session)) {
      const { session: again, answer } = await jobAt(6)
      const foretold = shares(again.without(seq)?.suspects ?? [])
      await again.reply({ say: 'undo', seq })
      while (again.view().prompt?.show === 'do') await answer()
      await again.reply({ say: 'unsure' })
      const is = shares(again.view().suspects)
      for (const [names, p] of [...foretold].slice(0, 3)) expect(is.get(names), names).toBeCloseTo(p, 5)
    }
  })

  it('what hands did, a number that nobody has, and an answer taken back already cannot be', async () => {
    const { session } = await jobAt(6)
    const did = session.view().trail.find((e) => e.prompt.show === 'do')
    expect(did).toBeDefined()
    for (const seq of [did?.seq ?? 0, 9999]) {
      expect(session.without(seq)).toBeNull()
      const taken = await session.reply({ say: 'undo', seq })
      expect(taken).toMatchObject({ ok: false, refusal: { problem: 'nothing-to-undo' } })
    }
    const seq = standing(session)[0]?.seq ?? 0
    await session.reply({ say: 'undo', seq })
    expect(session.without(seq)).toBeNull()
  })
})

it('and given again leads to what whoever thinks of it for the first time finds', async () => {
  const { session, log } = await memorySession(plan, 'lights-dark')
  const again: number[] = []
  const told: string[] = []
  for (let i = 0; i < 8; i++) {
    const { prompt } = session.view()
    if (!prompt) break
    const reply: Reply = prompt.show === 'do' ? { say: 'done' } : { say: 'answer', ids: [atOdds(prompt)] }
    expect(await session.reply(reply)).toEqual({ ok: true })
    if (prompt.show === 'do' || prompt.stage === 'scope') continue
    if (!(await session.reply({ say: 'undo' })).ok) continue
    again.push(log.events.length)
    expect(await session.reply(reply)).toEqual({ ok: true })
    told.push(...session.view().told.map((t) => (t.show === 'note' ? t.kind : t.show)))
  }
  expect(told).toContain('conflict')
  for (const at of again) {
    const anew = log.events.slice(0, at + 1).reduce(apply, begin(groundFor(plan, 'lights-dark')))
    const follows = following(anew, [], at + 2)
    expect(log.events.slice(at + 1, at + 1 + follows.length)).toMatchObject(follows)
  }
})

/** One thing marked, and of every question the last answer: no fault shows all that. */
function atOdds(prompt: Ask): string {
  if (prompt.many) return prompt.marks[0]?.id ?? ''
  return ('about' in prompt ? prompt.choices.at(-1) : prompt.answers.at(-1)?.id) ?? ''
}
