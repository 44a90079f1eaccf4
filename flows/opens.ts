/** Which flow something unexpected on a first boot opens: that of the symptom by which a technician would come with it. */
import type { Observable, Value } from '../src/core/bench/observable.ts'

export interface Deviation {
  readonly observe: Observable
  readonly value: Value
}

/** By what was looked at, then by what was seen; `*` for whatever else. The first that holds opens its flow. */
const OPENS: readonly (readonly [what: Observable['what'], seen: string, symptom: string])[] = [
  ['spins', 'no', 'fan-still'],
  ['spins', 'twitches', 'fan-still'],
  ['spins', 'full', 'fans-full'],
  ['spins', '*', 'odd-reading'],
  ['steady', '*', 'fans-hunting'],
  ['flickers', '*', 'lights-flicker'],
  ['alarm', '*', 'alarm'],
  ['rpm', 'zero', 'zero-rpm'],
  ['rpm', 'none', 'zero-rpm'],
  ['rpm', '*', 'odd-reading'],
  ['follows', '*', 'fans-full'],
  ['listed', '*', 'not-listed'],
  ['lit', 'part', 'lights-order'],
  ['lit', '*', 'lights-dark'],
  ['shows', 'global', 'global-effect'],
  ['shows', 'wrong-colours', 'wrong-colours'],
  ['shows', 'nothing', 'lights-dark'],
  ['shows', '*', 'lights-stuck'],
  ['effect', '*', 'lights-order'],
  ['answers', '*', 'lights-order'],
]

/** What only a watch over a minute shows has a flow of its own, warm or not. */
const WATCHED: readonly Observable['what'][] = ['steady', 'flickers']

/** After a soak it was right before and is not any more. */
const AFTER_SOAK = 'works-then-stops'

/**
 * @param warm the look was one after a soak or a cold start: everything had been right before
 * @param looked how many things were looked over; where every one of them is dead, nothing has power
 * @returns undefined where no flow is about it
 */
export function opens(seen: readonly Deviation[], warm: boolean, looked: number): string | undefined {
  const row = OPENS.find(([what, value]) =>
    seen.some((d) => d.observe.what === what && (value === '*' || d.value === value)),
  )
  if (row === undefined) return undefined
  const [what, , first] = row
  if (warm && !WATCHED.includes(what)) return AFTER_SOAK
  const dead = seen.filter((d) => d.value === 'no' || d.value === 'dark').length
  return dead > 1 && dead === looked ? 'all-dead' : first
}
