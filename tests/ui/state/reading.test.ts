/** A reading handed in from the screen in the middle of a job: fetched by name, taken, or refused with what is missing. */
import { describe, expect, test } from 'vitest'
import { build } from '../../support/build.ts'
import { memorySession } from '../../support/run-job.ts'
import { screenOver } from './screen-at.ts'

const plan = build('Sound archive workstation')
  .header('SYS1')
  .header('SYS2')
  .fan('F1..F2', { light: undefined })
  .lead('F1.motor', 'board.SYS1')
  .lead('F2.motor', 'board.SYS2')
  .settings({ celsius: 30 })
  .plan()

const figures = '{"nct6798-isa-0290":{"Adapter":"x","a":{"fan1_input":0},"b":{"fan2_input":610}}}'

async function atJob() {
  const asked: string[] = []
  const { session } = await memorySession(plan, 'zero-rpm')
  const at = screenOver(session, {
    fetch: async (from) => {
      asked.push(from)
      return from === 'nowhere.json'
        ? { ok: false, trouble: { code: 'missing', path: from, facts: {} } }
        : { ok: true, text: figures }
    },
  })
  return { at, asked, session }
}

describe('a reading handed in from the screen', () => {
  test('answers the question that stands, marked as read', async () => {
    const { at, asked, session } = await atJob()
    const before = session.view().prompt
    await at.type('r')
    expect(at.text()).toContain('Hand in a reading')
    await at.type('"my fans.json" fan1=SYS1 fan2=SYS2⏎')
    await at.settle()
    await at.settle()
    expect(asked).toEqual(['my fans.json'])
    expect(session.view().prompt).not.toEqual(before)
    expect(session.view().trail[0]).toMatchObject({ reply: ['board.SYS1:zero'], read: expect.any(Number) })
    expect(at.text()).toContain('fan1 (0 RPM)')
  })

  test('stays open with the reason and what was typed where it is not taken, and is taken once that is put right', async () => {
    const { at, session } = await atJob()
    await at.type('rfans.json⏎')
    await at.settle()
    await at.settle()
    expect(at.text()).toContain('Say which is which')
    expect(at.text()).toContain('> fans.json_')
    expect(session.view().trail).toEqual([])
    await at.type(' fan1=SYS1 fan2=SYS2⏎')
    await at.settle()
    await at.settle()
    expect(session.view().trail.length).toBe(1)
  })

  test('says what is wrong with the file, and Escape goes back to the question', async () => {
    const { at } = await atJob()
    await at.type('rnowhere.json⏎')
    await at.settle()
    expect(at.text()).toContain('there is no such file')
    await at.type('⎋')
    expect(at.text()).toContain('Which speeds')
    await at.type('r')
    expect(at.text()).not.toContain('there is no such file')
    await at.type('⌫⌫⌫⌫⌫⌫⌫⌫⌫⌫⌫⌫⏎')
    expect(at.text()).toContain('Name a file')
  })
})
