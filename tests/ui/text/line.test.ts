import { expect, test } from 'vitest'
import { lastThatFit, wrap } from '../../../src/ui/text/line.ts'

test('of what was read before, the last that has room stands whole: no page and no half sentence is made of it', () => {
  const texts = [['1. first', 'of two lines'], ['2. second'], ['3. third', 'of two lines']]
  expect(lastThatFit(texts, 9)).toEqual(texts)
  expect(lastThatFit(texts, 4)).toEqual(texts.slice(1))
  expect(lastThatFit(texts, 2)).toEqual(texts.slice(2))
  expect(lastThatFit(texts, 1)).toEqual([])
})

test('a figure and its unit stay on one line', () => {
  expect(wrap('set the curve to 30 °C: 35 %, 70 °C', 20)).toEqual(['set the curve to', '30 °C: 35 %, 70 °C'])
  expect(wrap('it takes 2 A at 12 V', 12)).toEqual(['it takes 2 A', 'at 12 V'])
  expect(wrap('1 Alarm and 2 Vents', 8)).toEqual(['1 Alarm', 'and 2', 'Vents'])
})
