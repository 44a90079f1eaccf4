/** The lights of a fan, pump or strip as a plan file writes them: one (`light:`) or several by name (`lights:`). */
import * as z from 'zod/mini'
import { amps, count, described, flag, measure, text, word } from '../fields.ts'
import type { Light, LightVolts } from '../part.ts'
import { usualLight } from '../usual.ts'
import { given, type Use } from './form.ts'

export const COLOURS = ['GRB', 'RGB', 'BRG', 'BGR', 'RBG', 'GBR', 'GRBW', 'RGBW'] as const

export const voltsField = (description: string) =>
  measure(description, 'voltage', { min: 5, max: 12, only: [5, 12] })

export const lightSchema = described(
  z.strictObject({
    volts: voltsField('5 (addressable) or 12 (plain four-pin), V'),
    leds: count('number of LEDs in it', 1, 2000),
    amps: amps('current with all LEDs at full white, A', 40),
    colours: word('the order in which its LEDs take the colours', COLOURS),
    returns: flag('hands the data back to its socket, which a hub in series needs'),
    passes_on: flag('has a socket (its name and _out) for the next light'),
    mm: measure('length of its lead, mm', 'length', { min: 1, max: 20_000 }),
    awg: measure('gauge of its lead', 'gauge', { min: 10, max: 36, whole: true }),
  }),
  {
    description: 'the lights and their lead',
    expected: 'a map such as {volts: 5, leds: 8, amps: 0.32}',
  },
)

export const lightKeys = {
  light: z.optional(lightSchema),
  lights: z.optional(
    described(z.record(z.string(), lightSchema), {
      description: 'several lights by the name of their plug, or a list of them (light, light2, …)',
      expected: 'a map of names to lights, such as {ring: {leds: 12}, hub: {leds: 6}}',
    }),
  ),
}

export type LightInput = z.output<typeof lightSchema>

export interface LightUsuals {
  readonly leds: number
  readonly returns: boolean
}

export const fanLights: LightUsuals = { leds: usualLight.leds, returns: true }
export const stripLights: LightUsuals = { leds: usualLight.stripLeds, returns: false }

function lightOf(port: string, input: LightInput, use: Use, usuals: LightUsuals): Light {
  const volts = use(`${port}.volts`, input.volts, usualLight.volts) as LightVolts
  const leds = use(`${port}.leds`, input.leds, usuals.leds)
  const each = volts === 5 ? usualLight.ampsPerLed5 : usualLight.ampsPerLed12
  return {
    port,
    volts,
    leds,
    amps: use(`${port}.amps`, input.amps, Number((leds * each).toPrecision(6))),
    colours: use(`${port}.colours`, input.colours, usualLight.colours),
    returns: volts === 5 && use(`${port}.returns`, input.returns, usuals.returns),
    passesOn: input.passes_on ?? false,
    ...given('mm', input.mm),
    ...given('awg', input.awg),
  }
}

/** All lights of a part, the single one under the name `light`. */
export function lightsOf(
  input: {
    readonly light?: LightInput | undefined
    readonly lights?: Readonly<Record<string, LightInput>> | undefined
  },
  use: Use,
  usuals: LightUsuals,
): Light[] {
  return [
    ...(input.light ? [lightOf('light', input.light, use, usuals)] : []),
    ...Object.entries(input.lights ?? {}).map(([port, light]) => lightOf(port, light, use, usuals)),
  ]
}

export const screwedOn = text('the radiator that it is screwed to, by your name for it', 80)
