/** Things of which the same was seen, told together: ten fans that are dark are one line, not ten. */
import { observableKey } from '../../core/bench/observable.ts'
import type { Power } from '../../core/checks/prompt.ts'
import type { Seen } from '../../job/report/record.ts'
import type { Language, Scene } from '../language.ts'

/** Things by a key, in the order in which the keys first came. */
export function grouped<T>(things: readonly T[], keyOf: (thing: T) => string): T[][] {
  const groups = new Map<string, T[]>()
  for (const thing of things) {
    const key = keyOf(thing)
    groups.set(key, [...(groups.get(key) ?? []), thing])
  }
  return [...groups.values()]
}

export interface Alike {
  readonly seen: readonly Seen[]
  readonly steps: readonly number[]
}

const stepsOf = (seen: readonly Seen[]): number[] => [...new Set(seen.map((s) => s.step))]

/** The same sight of the same thing once, with all its steps; things that looked alike in the same steps, together. */
export function alikeIn(seen: readonly Seen[]): Alike[] {
  const things = grouped(seen, (s) => `${observableKey(s.observe)} ${s.value} ${s.power}`)
  const groups = grouped(things, (all) => {
    const [first] = all
    return `${first?.observe.what} ${first?.value} ${first?.power} ${stepsOf(all).join()}`
  })
  return groups.map((alike) => ({
    seen: alike.flatMap((all) => all.slice(0, 1)),
    steps: stepsOf(alike[0] ?? []),
  }))
}

/** "dark: fans F1 (top), F2 (top) and F9 (rear)". */
export function sharedValue(
  alike: readonly Pick<Seen, 'observe' | 'value'>[],
  power: Power,
  language: Language,
  scene: Scene,
): string {
  const [first] = alike
  if (first === undefined) return ''
  const places = alike.map(({ observe }) => observe.at)
  return `${language.value(first.observe, first.value, power, scene)}: ${language.refs(places, scene)}`
}
