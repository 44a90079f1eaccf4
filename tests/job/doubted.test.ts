/** A symptom that seems gone: one slip in the looks neither closes a job whose fault is still there nor leaves another cause named. */
import { expect, test } from 'vitest'
import { faultText, parseFault } from '../../src/core/faults/fault.ts'
import { example } from '../support/examples.ts'
import { type Ran, runJob } from '../support/run-job.ts'

const past = { since: 'new', spare: 'yes', tool: 'yes', consent: 'yes' }

/** @param slip the number of the look that is told wrong */
const ran = (
  build: string,
  symptom: string,
  fault: string,
  slip: number,
  comes: 'yes' | 'no',
): Promise<Ran> => {
  const planted = parseFault(fault) ?? expect.fail()
  const manner = { past: { ...past, 'comes-and-goes': comes }, errs: (look: number) => look === slip }
  return runJob(example(build), symptom, [planted], manner)
}

test('an LED that was seen dark, then not, with nothing done in between, is looked at a third time', async () => {
  const { end, events } = await ran('archive-ten-fans', 'lights-dark', 'P1:led-dark-6', 4, 'no')
  const looks = events.flatMap((e) =>
    e.e === 'shown' && e.prompt.show === 'ask' && !e.prompt.many ? [e.prompt.id] : [],
  )
  expect(looks).toContain('look lit P1')
  expect(end.outcome).toBe('fixed')
  expect(end.suspects[0]?.faults.map(faultText)).toEqual(['P1:led-dark-6'])
})

test('a job is not closed while what comes and goes is likelier still there than gone', async () => {
  const { end, named } = await ran('small-three-fans', 'fans-hunting', 'F1.motor:frayed-12V', 4, 'yes')
  expect([end.outcome, named]).toEqual(['fixed', true])
})
