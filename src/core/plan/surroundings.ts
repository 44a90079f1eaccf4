/** The power supply and the board as a plan file writes them: leads with plugs, and headers with limits. */
import * as z from 'zod/mini'
import { amps, count, described, flag, measure, text, word } from './fields.ts'
import type { LightVolts } from './part.ts'
import { beforeHost } from './parts/fans.ts'
import { given } from './parts/form.ts'
import { dataVolts } from './parts/hubs.ts'
import { voltsField } from './parts/light.ts'
import type { Board, FanHeader, Supply } from './plan.ts'
import { type Notebook, usual } from './problem.ts'
import { usualHeader, usualPlugAmps, usualPlugs, usualUsb } from './usual.ts'

const named = <S extends z.ZodMiniObject>(entry: S, description: string, expected: string) =>
  z.optional(described(z.record(z.string(), entry), { description, expected }))

const supplyLead = z.strictObject({
  kind: word('the plugs on it', ['sata', 'peripheral'] as const),
  plugs: count('how many plugs it has, named 1, 2, … from the supply outward', 1, 12),
  amps_5v: amps('most current at 5 V over the whole lead, A', 40),
  amps_12v: amps('most current at 12 V over the whole lead, A', 40),
  modular: flag('is pushed into the supply by hand, so it can be left out there'),
  mm: measure('its length, mm', 'length', { min: 10, max: 5000 }),
  awg: measure('its gauge', 'gauge', { min: 10, max: 36, whole: true }),
})

export const supplySchema = z.strictObject({
  leads: named(
    supplyLead,
    'leads that bring power to hubs and controllers, by name',
    'a map such as {SA: {kind: sata, plugs: 3}}',
  ),
  watts: measure('rated power, W', 'power', { min: 50, max: 5000 }),
  note: text('anything worth knowing'),
})

const fanHeader = z.strictObject({
  role: word('fan; cpu is watched at power-on; pump is meant to run at full speed', [
    'fan',
    'cpu',
    'pump',
  ] as const),
  pins: count('3 or 4', 3, 4),
  amps: amps('most current, A', 20),
  drive: word('how it can control a fan: by pwm, by dc (its voltage), or auto (chooses by the plug)', [
    'auto',
    'pwm',
    'dc',
  ] as const),
  protected: flag('goes dead when overloaded and comes back, instead of being damaged'),
})

const lightHeader = z.strictObject({
  volts: voltsField('5 (addressable) or 12 (plain four-pin), V'),
  amps: amps('most current, A', 20),
  max_leds: count('most LEDs that it can drive', 1, 20_000),
  data_volts: dataVolts,
})

const usbHeader = z.strictObject({
  kind: word('usb2 (9 pins) or usb3 (19 pins)', ['usb2', 'usb3'] as const),
  ports: count('ports on it, named a, b, …', 1, 4),
  milliamps: measure('current that each of its ports offers, mA', 'milliamps', {
    min: 1,
    max: 5000,
  }),
})

export const boardSchema = z.strictObject({
  fan_headers: named(fanHeader, 'fan headers by name', 'a map such as {SYS1: {amps: 1.0, drive: auto}}'),
  pump_headers: named(
    fanHeader,
    'pump headers by name; fan headers whose role is pump',
    'a map such as {PUMP1: {amps: 2.0}}',
  ),
  light_headers: named(lightHeader, 'light headers by name', 'a map such as {L1: {volts: 5, amps: 3.0}}'),
  usb_headers: named(usbHeader, 'internal USB headers by name', 'a map such as {U1: {kind: usb2, ports: 2}}'),
  before_host: beforeHost,
  note: text('anything worth knowing'),
})

/** The supply, with the trade's usual value, marked as assumed, wherever the plan gives none. */
export function supplyOf(input: z.output<typeof supplySchema>, book: Notebook): Supply {
  const leads = Object.entries(input.leads ?? {}).map(([id, lead]) => {
    const use = <T>(key: string, value: T | undefined, common: T): T =>
      usual(book, `supply.leads.${id}.${key}`, value, common)
    const kind = use('kind', lead.kind, 'sata' as const)
    return {
      id,
      kind,
      plugs: use('plugs', lead.plugs, usualPlugs),
      amps5: use('amps_5v', lead.amps_5v, usualPlugAmps[kind]),
      amps12: use('amps_12v', lead.amps_12v, usualPlugAmps[kind]),
      modular: use('modular', lead.modular, true),
      ...given('mm', lead.mm),
      ...given('awg', lead.awg),
    }
  })
  return { leads, ...given('watts', input.watts) }
}

/** CPU, CPU_FAN, CPU2 are watched at power-on; PUMP, PUMP1 run at full speed. A second name for the same: CPU_OPT. */
function roleByName(id: string): FanHeader['role'] {
  const name = id.toLowerCase()
  return /^cpu([_-]?fan)?[_-]?\d*$/.test(name) ? 'cpu' : name.includes('pump') ? 'pump' : 'fan'
}

/** The board, likewise; a header's role comes from its name where it is not given. */
export function boardOf(input: z.output<typeof boardSchema>, book: Notebook): Board {
  const fanHeaders = (['fan_headers', 'pump_headers'] as const).flatMap((group) =>
    Object.entries(input[group] ?? {}).map(([id, header]): FanHeader => {
      const use = <T>(key: string, value: T | undefined, common: T): T =>
        usual(book, `board.fan_headers.${id}.${key}`, value, common)
      const role = header.role ?? (group === 'pump_headers' ? 'pump' : roleByName(id))
      return {
        id,
        role,
        pins: use('pins', header.pins, 4) as 3 | 4,
        amps: use('amps', header.amps, role === 'pump' ? usualHeader.pumpAmps : usualHeader.fanAmps),
        drive: use('drive', header.drive, header.pins === 3 ? 'dc' : 'auto'),
        protected: use('protected', header.protected, true),
      }
    }),
  )
  const lightHeaders = Object.entries(input.light_headers ?? {}).map(([id, header]) => {
    const path = `board.light_headers.${id}`
    return {
      id,
      volts: usual(book, `${path}.volts`, header.volts, 5) as LightVolts,
      amps: usual(book, `${path}.amps`, header.amps, usualHeader.lightAmps),
      ...given('maxLeds', header.max_leds),
      ...given('dataVolts', header.data_volts),
    }
  })
  const usbHeaders = Object.entries(input.usb_headers ?? {}).map(([id, header]) => {
    const path = `board.usb_headers.${id}`
    const kind = usual(book, `${path}.kind`, header.kind, 'usb2' as const)
    return {
      id,
      kind,
      ports: usual(book, `${path}.ports`, header.ports, 2),
      milliamps: usual(book, `${path}.milliamps`, header.milliamps, usualUsb[kind]),
    }
  })
  return {
    fanHeaders,
    lightHeaders,
    usbHeaders,
    beforeHost: usual(book, 'board.before_host', input.before_host, 'stored-pattern' as const),
  }
}
