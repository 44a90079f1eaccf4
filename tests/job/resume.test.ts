/** A job taken up again: after its plan was changed, and from a log that holds what its flow could not have taken. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../../src/core/plan/read.ts'
import { decodeLog } from '../../src/job/log/decode.ts'
import { encodeLine } from '../../src/job/log/encode.ts'
import type { LogEvent } from '../../src/job/log/event.ts'
import { openJob, resumeJob } from '../../src/job/open.ts'
import type { Session } from '../../src/job/view.ts'
import { english } from '../../src/wording/en/english.ts'
import { personAt } from '../support/bench-person.ts'
import { ownFolder } from '../support/own-folder.ts'

const file = 'small-three-fans.build.yaml'
const text = readFileSync(new URL(`../../docs/examples/${file}`, import.meta.url), 'utf8')
const clock = () => Date.UTC(2026, 2, 3, 9, 30)

function given(changed = text) {
  const read = readPlan(changed, file)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return { plan: read.value, copy: { file, text: changed, includes: [] } }
}

const FAULT = { at: 'F2.light', mode: 'unplugged' }

/** Answers as the bench shows, for so many prompts or to the end. */
async function drive(session: Session, most = 99): Promise<void> {
  const person = personAt(session.view().plan, [FAULT])
  for (const { prompt } of session.view().trail) if (prompt.show === 'do') person.did(prompt.edits)
  for (let n = 0; n < most; n++) {
    const { prompt } = session.view()
    if (!prompt) return
    if (prompt.show === 'do') person.did(prompt.edits)
    const taken = await session.reply(prompt.show === 'do' ? { say: 'done' } : person.answer(prompt))
    expect(taken).toEqual({ ok: true })
  }
}

/** The log of a job that was left after so many replies. */
async function leftAfter(replies: number): Promise<string> {
  const log = join(ownFolder(), 'job.ndjson')
  const opened = await openJob({ ...given(), symptom: 'lights-dark', log: { file: log }, tool: '0', clock })
  if (!opened.ok) throw new Error(opened.trouble.kind)
  await drive(opened.session, replies)
  await opened.session.close()
  return log
}

async function resumed(path: string, changed?: string, salvage = false) {
  const opening = await resumeJob({
    path,
    tool: '1',
    clock,
    salvage,
    ...(changed === undefined ? {} : { planNow: () => given(changed) }),
  })
  if (!opening.ok) throw new Error(JSON.stringify(opening.trouble))
  return opening.session
}

const notes = (session: Session): string =>
  session
    .view()
    .told.flatMap((r) => (r.show === 'note' ? english.note(r, session.view()) : []))
    .join('\n')

describe('taken up again with a changed plan, a job', () => {
  const moved = text
    .replace('F1.motor -> board.SYS1', 'F1.motor -> board.SYS2')
    .replace('F2.motor -> board.SYS2', 'F2.motor -> board.SYS1')

  test('says what differs and keeps every answer that still has its place', async () => {
    const path = await leftAfter(4)
    const session = await resumed(path, moved)
    expect(notes(session)).toContain('not to')
    expect(notes(session)).toContain('All answers still count')
    expect(session.view().trail.filter((t) => t.undone)).toEqual([])
    expect(session.view().plan.leads.find((l) => l.plug === 'F1.motor')?.socket).toBe('board.SYS2')
    await drive(session)
    expect(session.view().end?.outcome).toBe('fixed')
    await session.close()
  })

  test.each([1, 5, 7])(
    'goes on to its end without a part that the plan no longer has, left after %i replies',
    async (replies) => {
      const path = await leftAfter(replies)
      const without = text
        .replace(/ {2}F3: .*\n/, '')
        .replace(/.*F3\..*\n/g, '')
        .replace('[8, 8, 8]', '[8, 8]')
        .replace('[F1, F2, F3]', '[F1, F2]')
      const session = await resumed(path, without)
      expect(notes(session)).toContain('F3')
      const { prompt } = session.view()
      expect(JSON.stringify(prompt)).not.toContain('F3')
      await drive(session)
      expect(session.view().end?.outcome).toBe('fixed')
      await session.close()
      // What is replayed from the log is the same job, plan and all.
      const { events } = decodeLog(readFileSync(path))
      expect(events.filter((e) => e.e === 'resumed' && e.plan !== undefined).length).toBe(1)
    },
  )

  test('stands where it stood when it is taken up once more', async () => {
    const path = await leftAfter(5)
    const first = await resumed(path, moved)
    const { trail, suspects, prompt } = first.view()
    await first.close()
    const second = await resumed(path, moved)
    expect([second.view().trail, second.view().suspects, second.view().prompt]).toEqual([
      trail,
      suspects,
      prompt,
    ])
    await second.close()
  })

  test('keeps to the plan in its log where only comments differ, or the file is of another build', async () => {
    for (const other of [`${text}\n# measured again\n`, text.replace('Listening desk', 'Editing desk')]) {
      const path = await leftAfter(3)
      const session = await resumed(path, other)
      expect(notes(session)).not.toContain('was changed')
      expect(session.view().plan.build).toBe('Listening desk')
      await session.close()
    }
  })

  test('keeps to the plan in its log where the new one has nothing left that it is about', async () => {
    const path = await leftAfter(3)
    const dark = text
      .replace(/ {4}light: .*\n/, '')
      .replace(/.*\.light .*\n/g, '')
      .replace(/ {2}channels:\n.*\n/, '')
      .replace(/light_order.*\n/, '')
    const session = await resumed(path, dark)
    expect(notes(session)).toContain('goes on with the plan as it was')
    await session.close()
  })
})

describe('a log with sums that fit, put together by hand,', () => {
  /** The log with an event changed and all sums worked out anew. */
  function forged(path: string, change: (event: LogEvent) => LogEvent): void {
    let sum = '0'.repeat(16)
    const lines = decodeLog(readFileSync(path)).events.map((event) => {
      const encoded = encodeLine(change(event), sum)
      sum = encoded.sum
      return encoded.line
    })
    writeFileSync(path, `${lines.join('\n')}\n`)
  }

  test.each([
    ['answers what was not asked', 'reply', (e: LogEvent) => (e.e === 'replied' ? { ...e, to: 1 } : e)],
    [
      'has an answer that was not offered',
      'reply',
      (e: LogEvent) => (e.e === 'replied' && Array.isArray(e.reply) ? { ...e, reply: ['F9:dark'] } : e),
    ],
    [
      'proposes a step before its turn',
      'flow',
      (e: LogEvent): LogEvent =>
        e.e === 'shown' ? { e: 'step', step: { kind: 'end', outcome: 'fixed' }, seq: e.seq, at: e.at } : e,
    ],
    [
      'takes back what was never said',
      'undo',
      (e: LogEvent): LogEvent => (e.e === 'replied' ? { e: 'undone', of: 1, seq: e.seq, at: e.at } : e),
    ],
  ] as const)('is refused by its line where it %s, and cut there when asked to', async (_, why, change) => {
    const path = await leftAfter(3)
    const { events } = decodeLog(readFileSync(path))
    const line = events.find((e) => JSON.stringify(change(e)) !== JSON.stringify(e))?.seq
    forged(path, change)
    const before = readFileSync(path, 'utf8')
    const refused = await resumeJob({ path, tool: '1', clock })
    expect(refused).toMatchObject({ ok: false, trouble: { kind: 'misfit', line, why } })
    expect(readFileSync(path, 'utf8')).toBe(before)
    const session = await resumed(path, undefined, true)
    await session.close()
    const after = readFileSync(path, 'utf8')
    const kept = before.split('\n').slice(0, (line ?? 0) - 1)
    expect(after.startsWith(`${kept.join('\n')}\n`)).toBe(true)
    const gone = Buffer.byteLength(before) - Buffer.byteLength(`${kept.join('\n')}\n`)
    expect(decodeLog(after).events.find((e) => e.e === 'resumed')).toMatchObject({
      cut: { line, bytes: gone },
    })
    expect(readFileSync(`${path}.rest`, 'utf8')).toBe(
      `${before.slice(Buffer.byteLength(kept.join('\n')) + 1)}\n`,
    )
  })
})
