/** The first boot on the screen: explanations folded away and shown again, and the signature at the end. */
import { expect, test } from 'vitest'
import type { Session } from '../../../src/job/view.ts'
import { personAt } from '../../support/bench-person.ts'
import { example } from '../../support/examples.ts'
import { memorySession } from '../../support/run-job.ts'
import { screenOver } from './screen-at.ts'

const desk = example('small-three-fans')

/** Does what is asked and says what the bench shows, up to a prompt. */
async function goTo(session: Session, id: string): Promise<void> {
  const person = personAt(desk, [])
  for (let view = session.view(); view.prompt && view.prompt.id !== id; view = session.view()) {
    if (view.prompt.show === 'do') person.did(view.prompt.edits)
    await session.reply(view.prompt.show === 'do' ? { say: 'done' } : person.answer(view.prompt))
  }
}

test('f folds why and what it means if not, for the points that follow too, and shows them again', async () => {
  const { session } = await memorySession(desk, 'first-boot')
  await goTo(session, 'walk before-power blades')
  const at = screenOver(session)
  expect(at.text()).toContain('Why:')
  expect(at.text()).toContain('If not:')
  await at.type('f')
  expect(session.view().folded).toBe(true)
  expect(at.text()).not.toContain('Why:')
  expect(at.text()).toContain('Folded for the rest of the job')
  expect(at.text()).toContain('Turn each by a finger.')
  await at.type('⏎⏎')
  expect(session.view().prompt?.id).toBe('power on')
  await at.type('m')
  expect(at.text()).toContain('First boot 6 of')
  expect(at.text()).not.toContain('Why:')
  await at.type('f')
  expect(at.text()).toContain('Why:')
})

test('a first boot tells how far it is, and what power is before anybody has looked', async () => {
  const { session } = await memorySession(desk, 'first-boot')
  const at = screenOver(session)
  await at.type('⏎⏎⏎')
  expect(at.lines()[0]).toContain('POWER ?')
  expect(at.lines()[0]).toMatch(/point 1 of \d+/)
  await session.reply({ say: 'done' })
  expect(screenOver(session).lines()[0]).toContain('POWER OFF')
})

test('the end is signed with a name that is typed, and Escape takes the pen away again', async () => {
  const { session, log } = await memorySession(desk, 'first-boot')
  await goTo(session, 'set walk cold-start sign-off')
  const at = screenOver(session)
  await at.type('⏎')
  expect(at.text()).toContain('Type your name')
  await at.type('Q⎋')
  expect(session.view().end).toBeNull()
  await at.type('⏎late shift⏎')
  expect(session.view().end?.outcome).toBe('nothing-wrong')
  expect(log.events.flatMap((e) => (e.e === 'replied' && e.by ? [e.by] : []))).toEqual(['late shift'])
})

test('f does nothing where nothing can be folded', async () => {
  const { session } = await memorySession(desk, 'lights-dark')
  const at = screenOver(session)
  await at.type('⏎f')
  expect(session.view().folded).toBe(false)
})
