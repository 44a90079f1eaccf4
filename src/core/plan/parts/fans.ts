/** Fans, liquid-cooler pumps and light strips: the parts that turn or shine. */
import * as z from 'zod/mini'
import { measure, word } from '../fields.ts'
import type { PartKindName } from '../part.ts'
import { usualMotor, usualPump, usualUsb } from '../usual.ts'
import { common, commonOf, form, given, kindKey } from './form.ts'
import { fanLights, lightKeys, lightsOf, screwedOn, stripLights } from './light.ts'
import { motorOf, motorSchema } from './motor.ts'

export const beforeHost = word('what lights do before a host program speaks', [
  'stored-pattern',
  'dark',
] as const)
export const usbMilliamps = measure('current that it takes from USB, mA', 'milliamps', { min: 0, max: 2000 })

/** Keys that may be `none`: leaving `motor` out of a fan can mean a motor with the usual values. */
export const NONE_KEYS: { readonly [K in PartKindName]?: readonly string[] } = {
  fan: ['motor', 'light', 'lights'],
  pump: ['light', 'lights'],
}

const COOLER = /\b(cpu|processor|cooler|heat ?sink)\b/
const RADIATOR = /\b(radiator|liquid|water)\b/

/** Whether a fan sits on the processor's cooler, by its place or, where that is not given, by its name. */
function onCooler(
  id: string,
  { at, on }: { readonly at?: string | undefined; readonly on?: string | undefined },
): boolean {
  const place = (at ?? id).toLowerCase().replaceAll(/[-_]/g, ' ')
  return on === undefined && COOLER.test(place) && !RADIATOR.test(place)
}

export const fan = form(
  'fan',
  'a fan with a motor, lights, or both',
  () =>
    z.strictObject({
      kind: kindKey('fan'),
      motor: z.optional(motorSchema),
      ...lightKeys,
      flow: word('air goes in or out of the case, or stays inside as on the processor’s cooler', [
        'in',
        'out',
        'inside',
        'unknown',
      ] as const),
      size: measure('frame size, mm', 'length', { min: 20, max: 400, sample: '120 mm' }),
      cfm: measure('air flow at full speed, CFM', 'airflow', { min: 1, max: 1000 }),
      on: screwedOn,
      ...common,
    }),
  (id, input, use) => {
    const lights = lightsOf(input, use, fanLights)
    const motorless = input.motor === undefined && lights.length > 0
    return {
      kind: 'fan',
      ...commonOf(id, input, use),
      ...(motorless
        ? {}
        : { motor: motorOf(input.motor ?? {}, use, { amps: usualMotor.amps, topRpm: usualMotor.topRpm }) }),
      lights,
      flow: use('flow', input.flow, onCooler(id, input) ? ('inside' as const) : ('unknown' as const)),
      ...given('sizeMm', input.size),
      ...given('cfm', input.cfm),
      ...given('on', input.on),
    }
  },
)

export const pump = form(
  'pump',
  'the pump of a liquid cooler, lit or not',
  () =>
    z.strictObject({
      kind: kindKey('pump'),
      motor: z.optional(motorSchema),
      ...lightKeys,
      host: word('usb: it has a USB plug of its own and drives its lights itself', ['usb', 'none'] as const),
      before_host: beforeHost,
      usb_milliamps: usbMilliamps,
      ...common,
    }),
  (id, input, use) => ({
    kind: 'pump',
    ...commonOf(id, input, use),
    motor: motorOf(input.motor ?? {}, use, usualPump),
    lights: lightsOf(input, use, fanLights),
    host: use('host', input.host, 'none' as const),
    beforeHost: use('before_host', input.before_host, 'stored-pattern' as const),
    usbMilliamps: use('usb_milliamps', input.usb_milliamps, usualUsb.device),
  }),
)

export const strip = form(
  'strip',
  'a light strip',
  () => z.strictObject({ kind: kindKey('strip'), ...lightKeys, ...common }),
  (id, input, use) => ({
    kind: 'strip',
    ...commonOf(id, input, use),
    lights: lightsOf(input.light || input.lights ? input : { light: {} }, use, stripLights),
  }),
)
