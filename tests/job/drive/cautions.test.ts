/** Cautions in full hold for the build at hand: of 5 V light plugs nothing is said where there are none. */
import { expect, test } from 'vitest'
import { cautionsInFull } from '../../../src/job/drive/cautions.ts'
import { example } from '../../support/examples.ts'

test('the 5 V light lead is warned of where the build has one, all else everywhere', () => {
  const lit = cautionsInFull(example('small-three-fans'))
  expect(lit).toContain('five-volt-on-twelve')
  const plain = cautionsInFull(example('plain-no-lights'))
  expect(plain).toEqual(lit.filter((id) => id !== 'five-volt-on-twelve'))
  expect(plain).toContain('never-open-supply')
})
