import { expect, test } from 'vitest'
import { lastThatFit } from '../../../src/ui/text/line.ts'

test('of what was read before, the last that has room stands whole: no page and no half sentence is made of it', () => {
  const texts = [['1. first', 'of two lines'], ['2. second'], ['3. third', 'of two lines']]
  expect(lastThatFit(texts, 9)).toEqual(texts)
  expect(lastThatFit(texts, 4)).toEqual(texts.slice(1))
  expect(lastThatFit(texts, 2)).toEqual(texts.slice(2))
  expect(lastThatFit(texts, 1)).toEqual([])
})
