/** The motor of a fan or pump as a plan file writes it, with the usual values of the four-wire fan spec. */
import * as z from 'zod/mini'
import {
  amps,
  count,
  described,
  flag,
  isNumberOrText,
  measure,
  readFrom,
  readMeasure,
  word,
} from '../fields.ts'
import type { Motor } from '../part.ts'
import { shown } from '../problem.ts'
import { usualMotor } from '../usual.ts'
import { given, type Use } from './form.ts'

const TOP = 30_000
const expectedSpeeds = `two speeds, lowest first, such as [450, 1500], each up to ${TOP} rpm`

/** `400-1500`, as labels have it. */
const RANGE = /^(\d+)\s*(?:rpm)?\s*(?:-|–|—|\.{2,3}|to|\/)\s*(\d+)\s*(?:rpm)?$/i

const oneSpeed = `a speed from 1 to ${TOP} rpm, such as 1500 rpm`
const speedsMeta = {
  description:
    'lowest and highest speed at 12 V, rpm; or the highest alone, the lowest is then taken as 30 % of it',
  expected: expectedSpeeds,
  anyOf: [{ type: 'array', items: { type: ['number', 'string'] } }, { type: ['number', 'string'] }],
}
const isSpeeds = (input: unknown): input is OneSpeed | OneSpeed[] =>
  Array.isArray(input) ? input.every(isNumberOrText) : isNumberOrText(input)
type OneSpeed = number | string
type Speeds = readonly [number | undefined, number | undefined]

/** One speed is the highest; two are the lowest and the highest. */
const speeds = readFrom(isSpeeds, speedsMeta, (input, tell): Speeds => {
  const wrong = (found: string, todo: string) => tell({ found, expected: expectedSpeeds, todo })
  const range = typeof input === 'string' ? RANGE.exec(input.trim()) : null
  if (range) return wrong(shown(input), `write [${range[1]}, ${range[2]}]`)
  const list = Array.isArray(input) ? input : [input]
  if (list.length === 0 || list.length > 2)
    wrong(`a list of ${list.length}`, 'write the lowest and the highest speed')
  const read = list.map((value, i) => {
    if (value === 'unknown') return undefined
    const got = readMeasure(value, 'speed', { min: 1, max: TOP }, oneSpeed)
    return typeof got === 'number' ? got : tell(got, Array.isArray(input) ? i : undefined)
  })
  const [low, high] = list.length === 2 ? read : [undefined, read[0]]
  if (low !== undefined && high !== undefined && low > high)
    wrong(`[${low}, ${high}]`, `write [${high}, ${low}] if that is meant`)
  return [low, high]
})

export const motorSchema = described(
  z.strictObject({
    pins: count('holes in its plug: 4 with control, 3 without, 2 without tach', 2, 4),
    amps: amps('steady current at full speed, A', 6),
    start_amps: amps('current in the first second, A', 12),
    locked_amps: amps('current with the blades held fast, A', 12),
    rpm: speeds,
    start_volts: measure('lowest voltage at which it starts, V', 'voltage', {
      min: 1,
      max: 12,
      sample: '7 V',
    }),
    start_duty: measure('lowest duty at which it starts, %', 'percent', { min: 0, max: 100 }),
    below_min: word(
      'what it does under its lowest duty: keeps its minimum, keeps it but stops at 0, or stops',
      ['keeps', 'stops-at-zero', 'stops'] as const,
    ),
    pulses: count('tach pulses a turn', 1, 8),
    tach: word('what the third wire says: pulses, a steady level (running or locked), or nothing', [
      'pulses',
      'level',
      'none',
    ] as const),
    passes_on: flag('has a socket motor_out for the next fan'),
    feed: word('where its 12 V comes from: the motor lead, or a supply plug of its own (port power)', [
      'lead',
      'sata',
      'peripheral',
    ] as const),
  }),
  {
    description: 'the motor and its lead',
    expected: 'a map such as {pins: 4, amps: 0.25, rpm: [450, 1500]}',
  },
)

export type MotorInput = z.output<typeof motorSchema>

function rpmOf(input: MotorInput['rpm'], topRpm: number, use: Use): [number, number] {
  const [low, high] = input ?? [undefined, undefined]
  const top = use('motor.rpm', high, Math.max(topRpm, low ?? 0))
  return [use('motor.rpm', low, Math.round(top * usualMotor.minShare)), top]
}

/** The motor with everything filled in; `usuals` differ between fans and pumps. */
export function motorOf(input: MotorInput, use: Use, usuals: { amps: number; topRpm: number }): Motor {
  const pins = use('motor.pins', input.pins, usualMotor.pins) as 2 | 3 | 4
  const steady = use('motor.amps', input.amps, Math.min(usuals.amps, input.start_amps ?? usuals.amps))
  return {
    feed: input.feed ?? 'lead',
    pins,
    amps: steady,
    startAmps: use('motor.start_amps', input.start_amps, steady * usualMotor.startFactor),
    ...given('lockedAmps', input.locked_amps),
    rpm: rpmOf(input.rpm, usuals.topRpm, use),
    startVolts: use('motor.start_volts', input.start_volts, usualMotor.startVolts),
    startDuty: use('motor.start_duty', input.start_duty, usualMotor.startDuty),
    belowMin: use('motor.below_min', input.below_min, usualMotor.belowMin),
    pulses: use('motor.pulses', input.pulses, usualMotor.pulses),
    tach: pins === 2 ? 'none' : use('motor.tach', input.tach, 'pulses' as const),
    passesOn: input.passes_on ?? false,
  }
}
