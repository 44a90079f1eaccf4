/** Single turns of a job that the walks would only meet by chance. */
import { describe, expect, test } from 'vitest'
import type { Prompt } from '../../src/core/checks/prompt.ts'
import type { Fault } from '../../src/core/faults/fault.ts'
import type { Reply, Session } from '../../src/job/view.ts'
import { type Person, personAt } from '../support/bench-person.ts'
import { example } from '../support/examples.ts'
import { memorySession, runJob } from '../support/run-job.ts'

const desk = example('small-three-fans')
const fault = (text: string): Fault => {
  const [at = '', mode = ''] = text.split(':')
  return { at, mode }
}

/** Answers as the bench shows, save where `turn` says something else. */
async function drive(
  session: Session,
  person: Person,
  turn: (prompt: Prompt) => Reply | undefined,
): Promise<void> {
  for (let n = 0; n < 150; n++) {
    const { prompt } = session.view()
    if (!prompt) return
    const own = turn(prompt)
    const reply: Reply = own ?? (prompt.show === 'do' ? { say: 'done' } : person.answer(prompt))
    if (prompt.show === 'do' && reply.say === 'done') person.did(prompt.edits)
    expect(await session.reply(reply)).toEqual({ ok: true })
  }
  throw new Error('the job does not end')
}

describe('a job', () => {
  test('asks nothing with hands in any more once somebody can not switch the machine off', async () => {
    const { session } = await memorySession(desk, 'fan-still')
    let refused = false
    await drive(session, personAt(desk, [fault('F2.motor:unplugged')]), (prompt) => {
      if (refused) expect([prompt.hands, prompt.power]).toEqual(['out', 'on'])
      if (prompt.show !== 'do' || prompt.id !== 'power off') return undefined
      refused = true
      return { say: 'cannot' }
    })
    expect(refused).toBe(true)
    const { end, suspects } = session.view()
    expect(end?.outcome).toBe('handed-over')
    expect(suspects.length).toBeGreaterThan(1)
  })

  test('ends when nobody can tell anything, and names no cause as sure', async () => {
    const { session } = await memorySession(desk, 'survey')
    await drive(session, personAt(desk, []), (prompt) =>
      prompt.show === 'ask' ? { say: 'unsure' } : undefined,
    )
    const { end } = session.view()
    expect(['handed-over', 'declined', 'nothing-wrong']).toContain(end?.outcome)
    expect(end?.outcome).not.toBe('fixed')
  })

  test('takes a second symptom in that shows when the first is mended', async () => {
    const both = [fault('F2.light:unplugged'), fault('F1.motor:unplugged')]
    const { end, prompts } = await runJob(desk, 'lights-dark', both)
    expect(end.outcome).toBe('fixed')
    const mended = prompts.flatMap((p) => (p.show === 'do' ? p.edits : []))
    expect(mended).toContainEqual({ do: 'reseat', plug: 'F2.light' })
    expect(mended).toContainEqual({ do: 'reseat', plug: 'F1.motor' })
  })

  test('asks what was taken back once more, and says why', async () => {
    const { session } = await memorySession(desk, 'fan-still')
    const person = personAt(desk, [fault('F2.motor:unplugged')])
    await session.reply({ say: 'answer', ids: ['F2:no'] })
    const before = session.view()
    await session.reply({ say: 'answer', ids: ['suddenly'] })
    await session.reply({ say: 'undo' })
    const after = session.view()
    expect(after.prompt).toEqual(before.prompt)
    expect(after.suspects).toEqual(before.suspects)
    expect(after.trail.at(-1)?.undone).toBe(true)
    await drive(session, person, () => undefined)
    expect(session.view().end?.outcome).toBe('fixed')
  })

  test('leaves out what the build does not have: no lights are asked for where there are none', async () => {
    const plain = example('plain-no-lights')
    const { session } = await memorySession(plain, 'lights-dark')
    const asked: string[] = []
    await drive(session, personAt(plain, []), (prompt) => void asked.push(prompt.id))
    expect(asked.filter((id) => /lit|shows|effect|listed/.test(id))).toEqual([])
    expect(session.view().end?.outcome).toBe('nothing-wrong')
  })

  test('never sets anything with the mains off', async () => {
    for (const text of [
      'host/program:not-running',
      'channels/H1/profile:entry-missing',
      'headers/SYS1/curve:flat-out',
    ]) {
      const { prompts } = await runJob(desk, 'survey', [fault(text)])
      for (const p of prompts)
        if (p.show === 'do' && p.edits.some((e) => e.do === 'set'))
          expect([p.power, p.hands]).toEqual(['on', 'out'])
    }
  })
})
