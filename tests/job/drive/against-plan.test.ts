/** What the plan has to say to what was seen to be wrong. */
import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { against } from '../../../src/job/drive/against-plan.ts'
import { example } from '../../support/examples.ts'

const desk = compile(example('small-three-fans'))
const shared = (...bad: { what: 'lit' | 'flickers' | 'steady' | 'spins' | 'rpm'; at: string }[]) =>
  against.shared(desk, bad, [])[0]

describe('what parts share', () => {
  test('is told of two or more', () => {
    expect(shared({ what: 'lit', at: 'F1' }, { what: 'lit', at: 'F2' })).toMatchObject({
      what: 'shared',
      parts: ['F1', 'F2'],
    })
    expect(shared({ what: 'flickers', at: 'F1' }, { what: 'flickers', at: 'F2' })).toMatchObject({
      what: 'shared',
      parts: ['F1', 'F2'],
    })
    expect(shared({ what: 'spins', at: 'F1' }, { what: 'spins', at: 'F2' })).toMatchObject({
      what: 'nothing-shared',
    })
  })

  test('and not of one that was looked at in two ways, at itself or at its header', () => {
    expect(shared({ what: 'lit', at: 'F3' }, { what: 'flickers', at: 'F3' })).toBeNull()
    expect(shared({ what: 'steady', at: 'F1' }, { what: 'rpm', at: 'board.SYS1' })).toBeNull()
  })
})
