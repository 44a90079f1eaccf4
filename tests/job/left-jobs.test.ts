/**
 * Jobs that were left in the middle, one in each format of the log that there was, as the program of that time wrote them. Each
 * must be taken up at the very question it was left at, and come to its end. None of these files is ever written again.
 */
import { copyFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import type { Fault } from '../../src/core/faults/fault.ts'
import { FORMAT } from '../../src/job/log/event.ts'
import { resumeJob } from '../../src/job/open.ts'
import type { Session } from '../../src/job/view.ts'
import { personAt } from '../support/bench-person.ts'
import { ownFolder } from '../support/own-folder.ts'

const folder = fileURLToPath(new URL('../fixtures/left-jobs/', import.meta.url))

async function takenUp(name: string): Promise<Session> {
  const path = join(ownFolder(), name)
  copyFileSync(join(folder, name), path)
  const opening = await resumeJob({ path, tool: '1', clock: () => Date.UTC(2027, 0, 5) })
  if (!opening.ok) throw new Error(JSON.stringify(opening.trouble))
  expect(opening.problems).toEqual([])
  return opening.session
}

/** To the end, with the bench as the person; the plug of fan F2's lights is out, unless something else is. */
async function toTheEnd(
  session: Session,
  fault: Fault = { at: 'F2.light', mode: 'unplugged' },
): Promise<void> {
  const { plan, trail } = session.view()
  const person = personAt(plan, [fault])
  for (const { prompt } of trail) if (prompt.show === 'do') person.did(prompt.edits)
  for (let n = 0; n < 60 && session.view().prompt; n++) {
    const { prompt } = session.view()
    if (prompt?.show === 'do') person.did(prompt.edits)
    await session.reply(prompt?.show === 'ask' ? person.answer(prompt) : { say: 'done' })
  }
}

test('there is one of each format', () => {
  expect(readdirSync(folder)).toEqual(
    expect.arrayContaining(Array.from({ length: FORMAT }, (_, i) => `format-${i + 1}.ndjson`)),
  )
})

test('one of format 1 stands at the gate with its answers, one of them taken back, and ends fixed', async () => {
  const session = await takenUp('format-1.ndjson')
  const view = session.view()
  expect(view).toMatchObject({ symptom: 'lights-dark', symptoms: ['lights-dark'], queued: [] })
  expect(view.prompt?.id).toBe('power off')
  expect(view.trail.map((t) => [t.prompt.id, t.reply, t.undone])).toEqual([
    ['map lit', ['F2:dark'], false],
    ['since', ['new'], false],
    ['comes-and-goes', ['no'], true],
    ['comes-and-goes', ['no'], false],
    ['look shows F2', ['nothing'], false],
  ])
  await toTheEnd(session)
  expect(session.view().end?.outcome).toBe('fixed')
  await session.close()
})

test('one of format 2 stands in the middle of the guide, and ends fixed', async () => {
  const session = await takenUp('format-2.ndjson')
  expect(session.view()).toMatchObject({ state: 'naming', symptoms: [] })
  expect(session.view().prompt).toMatchObject({ about: 'symptom', at: 'whatIsOff', of: ['lights-dark'] })
  await session.reply({ say: 'answer', ids: ['fans'] })
  await session.reply({ say: 'answer', ids: ['stand-still'] })
  await session.reply({ say: 'answer', ids: ['that-is-all'] })
  expect(session.view().symptoms).toEqual(['lights-dark'])
  expect(session.view().queued).toEqual(['fan-still'])
  await toTheEnd(session)
  expect(session.view().queued).toEqual([])
  expect(session.view().end?.outcome).toBe('fixed')
  await session.close()
})

test('one of format 2 had looked at hunting fans before a minute of watching was asked for, and goes on where it was', async () => {
  const session = await takenUp('format-2-fans-hunting.ndjson')
  expect(session.view().prompt?.id).toBe('look spins F1')
  expect(session.view().trail.map((t) => t.prompt.id)).toEqual([
    'map spins',
    'map rpm',
    'comes-and-goes',
    'since',
  ])
  await toTheEnd(session, { at: 'F1.motor', mode: 'loose' })
  expect(session.view().end?.outcome).toBe('fixed')
  await session.close()
})

test('one of format 3 has watched lights flicker and stands at the gate, and ends fixed', async () => {
  const session = await takenUp('format-3.ndjson')
  const { symptoms, prompt, trail } = session.view()
  expect([symptoms, prompt?.id]).toEqual([['lights-flicker'], 'power off'])
  expect(trail.find((t) => t.prompt.id === 'map flickers')?.reply).toEqual([
    'F2:flickers-yes',
    'F3:flickers-yes',
  ])
  await toTheEnd(session, { at: 'F2.light', mode: 'loose' })
  expect(session.view().end?.outcome).toBe('fixed')
  await session.close()
})
