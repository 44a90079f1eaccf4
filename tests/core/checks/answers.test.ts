/** The answers that a question offers: what can be seen at that moment, and nothing that cannot. */
import { expect, test } from 'vitest'
import { answersFor } from '../../../src/core/checks/answers.ts'

const ids = (power: 'on' | 'off') =>
  answersFor([{ what: 'spins', at: 'F1' }], [['no']], power).map((a) => a.id)

test('a blade turned by hand has no full speed: nothing drives it', () => {
  expect(ids('on')).toEqual(['no', 'twitches', 'slow', 'normal', 'full'])
  expect(ids('off')).toEqual(['no', 'twitches', 'slow', 'normal'])
})

test('everything that can be seen with power on can be answered', () => {
  expect(answersFor([{ what: 'lit', at: 'F1' }], []).map((a) => a.id)).toEqual([
    'dark',
    'part',
    'whole',
    'flicker',
  ])
})
