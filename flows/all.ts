/** Every flow there is, in the order in which a person is offered them. */
import { alarm } from './alarm.ts'
import { allDead } from './all-dead.ts'
import { fanStill } from './fan-still.ts'
import { fansFull } from './fans-full.ts'
import { fansHunting } from './fans-hunting.ts'
import { firstBoot } from './first-boot.ts'
import { globalEffect } from './global-effect.ts'
import { lightsDark } from './lights-dark.ts'
import { lightsFlicker } from './lights-flicker.ts'
import { lightsOrder } from './lights-order.ts'
import { lightsStuck } from './lights-stuck.ts'
import { notListed } from './not-listed.ts'
import { oddReading } from './odd-reading.ts'
import type { Flow } from './shared/flow.ts'
import { together } from './shared/together.ts'
import { survey } from './survey.ts'
import { worksThenStops } from './works-then-stops.ts'
import { wrongColours } from './wrong-colours.ts'
import { zeroRpm } from './zero-rpm.ts'

export const flows: readonly Flow[] = [
  lightsDark,
  fanStill,
  zeroRpm,
  lightsStuck,
  lightsOrder,
  wrongColours,
  globalEffect,
  notListed,
  fansFull,
  oddReading,
  fansHunting,
  lightsFlicker,
  alarm,
  allDead,
  worksThenStops,
  survey,
  firstBoot,
]

/** The flow of a symptom by its id, or undefined. */
export const flowOf = (id: string): Flow | undefined => flows.find((flow) => flow.id === id)

/** The flow of several symptoms at once, or undefined where one of them is unknown. */
export function flowOfAll(ids: readonly string[]): Flow | undefined {
  const [first, ...rest] = ids.map(flowOf)
  if (rest.length === 0) return first
  const all = [first, ...rest].filter((f) => f !== undefined)
  return all.length === ids.length ? together(all) : undefined
}
