/** A fan passes its supply and control on where it has a `motor_out`; a lit part passes light supply on where it can. */
import type { Fan, Light, Motor, Strip } from '../../plan/part.ts'
import type { Inside, PartModel } from './part-model.ts'

export const motorInside = (motor: Motor | undefined): readonly Inside[] =>
  motor?.passesOn
    ? [
        {
          socket: 'motor_out',
          from: 'motor',
          conductors: motor.pins === 4 ? ['12V', 'GND', 'CONTROL'] : ['12V', 'GND'],
        },
      ]
    : []

export const lightsInside = (lights: readonly Light[]): readonly Inside[] =>
  lights
    .filter((light) => light.passesOn)
    .map((light) => ({
      socket: `${light.port}_out`,
      from: light.port,
      conductors: light.volts === 5 ? ['5V', 'GND'] : ['12V', 'R', 'G', 'B'],
    }))

export const fan: PartModel<Fan> = {
  inside: (part) => [...motorInside(part.motor), ...lightsInside(part.lights)],
}

export const strip: PartModel<Strip> = {
  inside: (part) => lightsInside(part.lights),
}
