/** A pump is a motor with, at times, lights and a USB host of its own. */
import type { Pump } from '../../plan/part.ts'
import { lightsInside, motorInside } from './fan.ts'
import type { PartModel } from './part-model.ts'

export const pump: PartModel<Pump> = {
  inside: (part) => [...motorInside(part.motor), ...lightsInside(part.lights)],
}
