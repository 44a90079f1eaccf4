import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { heldEnter } from '../../../src/ui/keys/held-enter.ts'

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }))
afterEach(() => void vi.useRealTimers())

/** Questions of which each Enter that is meant answers the one that stands there; what was answered when, in milliseconds. */
function questions() {
  const held = heldEnter(() => performance.now())
  const began = performance.now()
  const answered: number[] = []
  let not = 0
  const enter = () =>
    held.pressed(
      answered.length,
      () => answered.push(Math.round(performance.now() - began)),
      () => void not++,
    )
  return { held, answered, enter, not: () => not }
}

/** Common settings of keyboards: until the first repeat and between the next, milliseconds (common practice, no source). */
const KEYBOARDS = [
  [250, 92],
  [250, 33],
  [500, 33],
  [500, 90],
  [660, 40],
  [990, 25],
] as const

describe('an Enter held down', () => {
  test.each(KEYBOARDS)('answers once, where it repeats after %i ms and then every %i ms', (first, next) => {
    const { answered, enter, not } = questions()
    enter()
    vi.advanceTimersByTime(first)
    enter()
    for (let i = 0; i < 30; i++) {
      vi.advanceTimersByTime(next)
      enter()
    }
    vi.advanceTimersByTime(5000)
    expect(answered).toEqual([0])
    expect(not()).toBe(31)
    enter()
    expect(answered).toHaveLength(2)
  })

  test('for little more than the wait of a quick keyboard answers once', () => {
    const { answered, enter } = questions()
    enter()
    vi.advanceTimersByTime(252)
    enter()
    vi.advanceTimersByTime(5000)
    expect(answered).toEqual([0])
  })
})

describe('an Enter by itself', () => {
  test('counts at once where the last one was a second ago', () => {
    const { answered, enter } = questions()
    enter()
    vi.advanceTimersByTime(1000)
    enter()
    expect(answered).toEqual([0, 1000])
  })

  test.each([320, 500, 900])('counts once it is known that no more follow, %i ms after the last', (gap) => {
    const { answered, enter, not } = questions()
    enter()
    vi.advanceTimersByTime(gap)
    enter()
    expect(answered).toEqual([0])
    vi.advanceTimersByTime(150)
    expect(answered).toEqual([0, gap + 120])
    expect(not()).toBe(0)
  })

  test('counts before the key that comes after it', () => {
    const { held, answered, enter } = questions()
    enter()
    vi.advanceTimersByTime(400)
    enter()
    vi.advanceTimersByTime(20)
    held.broken()
    expect(answered).toEqual([0, 420])
    enter()
    expect(answered).toEqual([0, 420, 420])
  })

  test('counts at once where nothing new has come since the last', () => {
    const held = heldEnter(() => performance.now())
    let meant = 0
    for (let i = 0; i < 9; i++) {
      held.pressed(
        'the same',
        () => meant++,
        () => {},
      )
      vi.advanceTimersByTime(i < 5 ? 40 : 400)
    }
    expect(meant).toBe(9)
  })
})
