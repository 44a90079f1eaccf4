import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { toGet } from '../../../src/core/checks/to-get.ts'
import { english } from '../../../src/wording/en/english.ts'
import { planOf } from '../../support/build.ts'
import { runJob } from '../../support/run-job.ts'

const plan = (headers: string, more = '') =>
  planOf(`
build: Ticket office desk
board: {fan_headers: {${headers}}}
parts:
  F1: {kind: fan, motor: {pins: 4, amps: 0.3, rpm: [450, 1500]}}
  F2: {kind: fan, motor: {pins: 4, amps: 0.4, rpm: [450, 1500]}}
${more}
leads: [F1.motor -> board.SYS1, F2.motor -> board.SYS2]
`)
const full = plan('SYS1: {amps: 1.0}, SYS2: {amps: 1.0}')
const dead = { at: 'board.SYS1', mode: 'dead' }

describe('a dead header with no free one beside it', () => {
  test('calls for a splitter on a header that carries both fans', () => {
    // 0.3 A and 0.4 A on a header of 1 A.
    expect(toGet(compile(full), dead)).toEqual({
      plug: 'F1.motor',
      splitter: { on: 'board.SYS2', amps: 0.7, limit: 1 },
    })
  })

  test('calls for no splitter where the other header cannot carry both', () => {
    const tight = plan('SYS1: {amps: 1.0}, SYS2: {amps: 0.6}')
    expect(toGet(compile(tight), dead)).toEqual({ plug: 'F1.motor', splitter: null })
  })

  test('calls for nothing where a free header or a free way of a splitter is there', () => {
    expect(toGet(compile(plan('SYS1: {amps: 1}, SYS2: {amps: 1}, SYS3: {amps: 1}')), dead)).toBeUndefined()
    expect(toGet(compile(full), { at: 'F1.motor', mode: 'unplugged' })).toBeUndefined()
  })

  test('is handed over with that said plainly', async () => {
    const { end, events } = await runJob(full, 'fan-still', [dead], { past: { since: 'suddenly' } })
    expect(end.outcome).toBe('handed-over')
    const note = events.flatMap((e) =>
      e.e === 'told' && e.record.show === 'note' && e.record.facts.what === 'to-get' ? [e.record] : [],
    )[0]
    expect(note?.facts).toMatchObject({ at: 'board.SYS1', from: 'board.SYS2', figure: 0.7, limit: 1 })
    const [line] = note ? english.note(note, { plan: full }) : []
    expect(line).toContain('a fan splitter for header SYS2 on the board, which then carries 0.7 of its 1 A')
  })
})
