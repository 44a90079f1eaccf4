/**
 * What addressable lights show that lose their data while they have power: each LED keeps the last value it took until it
 * gets another, or its power goes (data sheets of one-wire LEDs: the value is latched when the line rests). After the next
 * power-on there is nothing to keep, and they stay dark. Plain coloured lights have no memory.
 */
import type { Build } from './build.ts'
import type { Edit } from './edit.ts'
import { lightNow, powered } from './light-data.ts'
import { momentOf } from './moment.ts'
import type { World } from './world.ts'

/** How many LEDs show something, by the plug of their lights. */
type Pictures = ReadonlyMap<number, number>

const MOVES: ReadonlySet<Edit['do']> = new Set(['unplug', 'plug', 'swap', 'reseat'])

/** What is shown before a plug is moved with the machine running; undefined where nothing can be lost by the edit. */
export function picturesBefore(build: Build, world: World, edit: Edit): Pictures | undefined {
  if (!world.power || !MOVES.has(edit.do)) return undefined
  const moment = momentOf(build, world)
  return new Map(
    build.parts.flatMap((part, index) =>
      part.lights
        .filter(({ light }) => light.volts === 5)
        .map((light) => [light.plug, lightNow(moment, index, light).reached] as const),
    ),
  )
}

/** Lights that have lost their data since, but not their power, hold their picture. */
export function holdPictures(build: Build, world: World, before: Pictures): void {
  world.held = new Map()
  const moment = momentOf(build, world)
  const held = new Map<number, number>()
  for (const [index, part] of build.parts.entries())
    for (const light of part.lights) {
      const reached = before.get(light.plug)
      if (!reached || !powered(moment, light.light.volts, light.plug)) continue
      if (lightNow(moment, index, light).stream === null) held.set(light.plug, reached)
    }
  world.held = held
}
