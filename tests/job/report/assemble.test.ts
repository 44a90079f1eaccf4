/** What a report knows of a job, against the sample job as its lines tell it to a reader. */
import { describe, expect, test } from 'vitest'
import { decodeLog } from '../../../src/job/log/decode.ts'
import type { LogBody } from '../../../src/job/log/event.ts'
import { assembleReport } from '../../../src/job/report/assemble.ts'
import type { Report } from '../../../src/job/report/record.ts'
import { withoutNames } from '../../../src/job/report/without-names.ts'
import { jobBodies, planCopy, writtenJob } from '../../support/job-log.ts'

function reportOf(bodies: readonly LogBody[]): Report {
  const report = assembleReport(decodeLog(writtenJob(bodies).text))
  if (report === undefined) throw new Error('no report')
  return report
}

const whole = reportOf(jobBodies)

describe('the report of a job', () => {
  test('has the steps in the order they were answered, with what was taken back', () => {
    expect(whole.steps.map((s) => [s.step, s.prompt.id, s.reply, s.undone])).toEqual([
      [1, 'which-dark', ['F1', 'F2', 'F3'], true],
      [2, 'which-dark', ['F1', 'F2'], false],
      [3, 'since', ['changed'], false],
      [4, 'power-off', 'done', false],
      [5, 'seated-F1.light', ['no'], false],
      [6, 'reseat-F1.light', 'done', false],
      [7, 'proof-lit', ['whole'], false],
    ])
  })

  test('counts as seen only what was answered and stands', () => {
    expect(whole.seen.map((s) => [s.step, s.observe.what, s.observe.at, s.value, s.power])).toEqual([
      [2, 'lit', 'F1', 'dark', 'on'],
      [2, 'lit', 'F2', 'dark', 'on'],
      [5, 'seated', 'F1.light', 'no', 'off'],
      [7, 'lit', 'F1', 'whole', 'on'],
      [7, 'lit', 'F2', 'whole', 'on'],
    ])
  })

  test('puts the proof beside its repair, and notes beside the step they were made at', () => {
    expect(whole.repairs).toEqual([{ step: 6, proof: [7] }])
    expect(whole.steps.filter((s) => s.notes.length > 0).map((s) => s.step)).toEqual([3])
    expect(whole.notes.length).toBe(1)
  })

  test('a look taken back and made again after the repair is a proof of it too', () => {
    const again = reportOf(
      jobBodies.map(
        (body): LogBody =>
          body.e === 'shown' && body.prompt.show === 'ask' && body.prompt.id === 'proof-lit'
            ? { ...body, prompt: { ...body.prompt, stage: 'scope', again: 'undone' } }
            : body,
      ),
    )
    expect(again.repairs).toEqual([{ step: 6, proof: [7] }])
  })

  test('knows how it ended, who and where, and that it was interrupted once', () => {
    expect(whole).toMatchObject({
      build: 'Reading room workstation',
      symptom: 'lights-dark',
      who: 'early shift',
      where: 'bench 2',
      outcome: 'fixed',
      minutes: 5.7,
      tools: ['0.1.0', '0.1.1'],
      handedOver: false,
      beyond: 0,
      problems: [],
      pauses: [{ how: 'interrupted', planChanged: false, resumed: '2026-03-03T09:36:30.000Z' }],
    })
    expect(whole.suspects[0]?.faults).toEqual([{ at: 'F1.light', mode: 'loose' }])
    expect(whole.waiting).toBeUndefined()
  })

  test('ranks suspects after the step that moved them', () => {
    expect(whole.rankings.map((r) => [r.step, r.minutes])).toEqual([
      [1, 0.5],
      [2, 0.5],
      [5, 3.7],
    ])
  })
})

describe('the report of a job at any point', () => {
  test('can be made after every line, and never counts a step that has no answer', () => {
    for (let lines = 1; lines <= jobBodies.length; lines++) {
      const report = reportOf(jobBodies.slice(0, lines))
      expect(report.steps.length).toBe(jobBodies.slice(0, lines).filter((b) => b.e === 'replied').length)
      expect(report.outcome).toBe(lines === jobBodies.length ? 'fixed' : 'open')
      const last = jobBodies[lines - 1]
      if (last?.e === 'shown') expect(report.waiting?.prompt).toEqual(last.prompt)
      if (last?.e === 'replied') expect(report.waiting).toBeUndefined()
    }
  })

  test('says that a stop left no word when the next line is a taking up', () => {
    const cutShort = jobBodies.filter((body) => body.e !== 'left')
    expect(reportOf(cutShort).pauses).toMatchObject([{ how: 'not-known' }])
  })

  test('that went on with another plan says so and names that plan', () => {
    const changed = { ...planCopy, file: 'new.build.yaml' }
    const bodies = jobBodies.map(
      (body): LogBody => (body.e === 'resumed' ? { ...body, digest: 'f'.repeat(64), plan: changed } : body),
    )
    const report = reportOf(bodies)
    expect(report.pauses[0]?.planChanged).toBe(true)
    expect(report.plan).toEqual({ file: 'new.build.yaml', digest: 'f'.repeat(64) })
  })

  test('of a damaged log keeps to what is sound and tells what it leaves out', () => {
    const { lines } = writtenJob()
    const log = lines.map((line, i) => (i === 10 ? line.replace('quick', 'QUICK') : line)).join('\n')
    const report = assembleReport(decodeLog(log))
    expect(report?.steps.length).toBe(2)
    expect(report?.problems).toMatchObject([{ line: 11, code: 'changed' }])
    expect(report?.beyond).toBe(lines.length - 11)
  })

  test('is none where there is no job', () => {
    expect(assembleReport(decodeLog(''))).toBeUndefined()
    expect(assembleReport(decodeLog('build: x\n'))).toBeUndefined()
  })
})

test('without names nothing is left of people, places, paths and notes', () => {
  const bare = JSON.stringify(withoutNames(whole, '–'))
  for (const word of ['early shift', 'bench 2', 'benches/', 'front panel', 'quick look']) {
    expect(JSON.stringify(whole)).toContain(word)
    expect(bare).not.toContain(word)
  }
  expect(bare).toContain('reading-room.build.yaml')
})
