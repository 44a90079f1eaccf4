/** The screen works ahead only while nobody presses a key, piece by piece, and never where it would be felt. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { lookingAhead } from '../../src/ui/look-ahead.ts'
import type { Screen } from '../../src/ui/screen.ts'

const READS_MS = 20

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

/** A screen that only counts. @param takes milliseconds for each piece @param pieces until all is worked out */
function counted(takes: number, pieces: number, fails = false) {
  const calls = { key: 0, drawn: 0, close: 0, ahead: 0 }
  let clock = 0
  const screen = {
    key: () => void calls.key++,
    drawn: () => void calls.drawn++,
    close: () => void calls.close++,
  } as unknown as Screen
  const session = {
    ahead: () => {
      calls.ahead++
      clock += takes
      if (fails) throw new Error('no way on')
      return calls.ahead < pieces
    },
  }
  return { calls, screen: lookingAhead(screen, session, () => clock) }
}

const press = { input: 'x' } as unknown as Parameters<Screen['key']>[0]

describe('looking ahead', () => {
  it('begins once a question has stood for a while, and does each piece once', () => {
    const { calls, screen } = counted(20, 4)
    screen.drawn()
    vi.advanceTimersByTime(READS_MS - 1)
    expect(calls.ahead).toBe(0)
    vi.advanceTimersByTime(60_000)
    expect(calls).toEqual({ key: 0, drawn: 1, close: 0, ahead: 4 })
  })

  it('stops for a key, and goes on once none has come for a moment', () => {
    const { calls, screen } = counted(20, 1000)
    screen.drawn()
    vi.advanceTimersByTime(READS_MS)
    const before = calls.ahead
    expect(before).toBeGreaterThan(0)
    for (let i = 0; i < 10; i++) {
      screen.key(press)
      vi.advanceTimersByTime(READS_MS - 1)
    }
    expect(calls).toMatchObject({ key: 10, ahead: before })
    vi.advanceTimersByTime(1)
    expect(calls.ahead).toBeGreaterThan(before)
  })

  it('gives up for good where pieces take so long that a key would wait for them', () => {
    const { calls, screen } = counted(2000, 1000)
    for (let i = 0; i < 5; i++) {
      screen.drawn()
      vi.advanceTimersByTime(60_000)
    }
    expect(calls.ahead).toBe(3)
  })

  it('does nothing after the screen was closed, and takes no harm from what can’t be worked out', () => {
    const { calls, screen } = counted(20, 1000, true)
    screen.drawn()
    vi.advanceTimersByTime(60_000)
    expect(calls.ahead).toBe(1)
    screen.drawn()
    screen.close()
    vi.advanceTimersByTime(60_000)
    expect(calls).toMatchObject({ close: 1, ahead: 1 })
  })
})
