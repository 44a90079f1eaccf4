/**
 * Jobs that were left in the middle, one in each format of the log that there was, as the program of that time wrote them. Each
 * must be taken up at the very question it was left at, and come to its end. None of these files is ever written again.
 */
import { copyFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
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

/** To the end, with the bench as the person; the plug of F2's lights is out. */
async function toTheEnd(session: Session): Promise<void> {
  const { plan, trail } = session.view()
  const person = personAt(plan, [{ at: 'F2.light', mode: 'unplugged' }])
  for (const { prompt } of trail) if (prompt.show === 'do') person.did(prompt.edits)
  for (let n = 0; n < 60 && session.view().prompt; n++) {
    const { prompt } = session.view()
    if (prompt?.show === 'do') person.did(prompt.edits)
    await session.reply(prompt?.show === 'ask' ? person.answer(prompt) : { say: 'done' })
  }
}

test('there is one of each format', () => {
  expect(readdirSync(folder).sort()).toEqual(
    Array.from({ length: FORMAT }, (_, i) => `format-${i + 1}.ndjson`),
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
