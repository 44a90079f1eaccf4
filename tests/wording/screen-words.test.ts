/** What the screen says on one line is not cut on the narrowest screen there is: 60 columns. */
import { describe, expect, test } from 'vitest'
import { width } from '../../src/ui/text/width.ts'
import { english } from '../../src/wording/en/english.ts'

const { said, choose } = english.screen

describe('one-line remarks and the keys of a menu', () => {
  test.each([...Object.values(said), choose.how, choose.several])('%s', (line) => {
    expect(width(line)).toBeLessThanOrEqual(60)
  })
})
