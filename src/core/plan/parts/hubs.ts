/** What stands between board and fans: splitters, fan hubs, light hubs and combined controllers. */
import * as z from 'zod/mini'
import { amps, count, described, flag, measure, needed, word } from '../fields.ts'
import type { LightVolts } from '../part.ts'
import { usualHub, usualUsb } from '../usual.ts'
import { beforeHost, usbMilliamps } from './fans.ts'
import { common, commonOf, form, given, kindKey, type Use } from './form.ts'
import { voltsField } from './light.ts'

const tachFrom = described(
  z.union([
    count('the way or port whose tach goes back', 1, 64),
    word('all joins them, none returns none', ['all', 'none'] as const),
  ]),
  {
    description: 'whose tach goes back to the header: the number of a way or port, all (joined), or none',
    expected: 'the number of a way, or all, or none',
  },
)

const plugPower = word('where its power comes from', ['sata', 'peripheral'] as const)
const hubPower = word('where its power comes from: a supply plug, or the header that it hangs on', [
  'sata',
  'peripheral',
  'header',
] as const)
const host = word('who tells it what to show: usb, a board light header (port in), or nobody', [
  'usb',
  'header',
  'none',
] as const)
export const dataVolts = measure('high level of its data line, V', 'voltage', {
  min: 1,
  max: 6,
  sample: '3.3 V',
})
const maxLeds = count('most LEDs that it can drive, over all ports', 1, 20_000)
const lightVolts = (use: Use, volts: number | undefined): LightVolts => use('volts', volts, 5) as LightVolts

export const fanSplitter = form(
  'fan-splitter',
  'a lead that splits one fan header over several fans',
  () =>
    z.strictObject({
      kind: kindKey('fan-splitter'),
      ways: needed(count('sockets for fans', 1, 32)),
      tach_from: z.optional(tachFrom),
      passes_control: flag('carries the control wire'),
      ...common,
    }),
  (id, input, use) => ({
    kind: 'fan-splitter',
    ...commonOf(id, input, use),
    ways: input.ways ?? use('ways', undefined as number | undefined, 2),
    tachFrom: use('tach_from', input.tach_from, 1 as number | 'all' | 'none'),
    passesControl: use('passes_control', input.passes_control, true),
  }),
)

export const fanHub = form(
  'fan-hub',
  'a hub for fan motors, mostly with a supply plug of its own',
  () =>
    z.strictObject({
      kind: kindKey('fan-hub'),
      ports: needed(count('sockets for fans', 1, 64)),
      power: hubPower,
      amps: amps('most current over all ports, A', 40),
      port_amps: amps('most current of one port, A', 10),
      tach_from: z.optional(tachFrom),
      passes_control: flag('carries the control wire'),
      ...common,
    }),
  (id, input, use) => {
    const power = use('power', input.power, 'sata' as const)
    return {
      kind: 'fan-hub',
      ...commonOf(id, input, use),
      ports: input.ports ?? use('ports', undefined as number | undefined, 4),
      power,
      amps: use('amps', input.amps, power === 'header' ? usualHub.headerFedAmps : usualHub.amps),
      portAmps: use('port_amps', input.port_amps, usualHub.fanPortAmps),
      tachFrom: use('tach_from', input.tach_from, 1 as number | 'all' | 'none'),
      passesControl: use('passes_control', input.passes_control, true),
    }
  },
)

export const lightHub = form(
  'light-hub',
  'a hub for lights',
  () =>
    z.strictObject({
      kind: kindKey('light-hub'),
      ports: needed(count('sockets for lights', 1, 64)),
      volts: voltsField('5 (addressable) or 12 (plain four-pin), V'),
      chain: word('series: data goes from port to port; parallel: every port gets the same', [
        'series',
        'parallel',
      ] as const),
      power: hubPower,
      host,
      before_host: beforeHost,
      amps: amps('most current over all ports, A', 40),
      port_amps: amps('most current of one port, A', 10),
      max_leds: maxLeds,
      data_volts: dataVolts,
      usb_milliamps: usbMilliamps,
      ...common,
    }),
  (id, input, use) => {
    const who = use('host', input.host, 'header' as const)
    const power = use('power', input.power, 'sata' as const)
    return {
      kind: 'light-hub',
      ...commonOf(id, input, use),
      ports: input.ports ?? use('ports', undefined as number | undefined, 4),
      volts: lightVolts(use, input.volts),
      chain: use('chain', input.chain, 'parallel' as const),
      power,
      host: who,
      beforeHost: use('before_host', input.before_host, who === 'usb' ? 'stored-pattern' : 'dark'),
      amps: use('amps', input.amps, power === 'header' ? usualHub.splitterAmps : usualHub.amps),
      portAmps: use('port_amps', input.port_amps, usualHub.lightPortAmps),
      ...given('maxLeds', input.max_leds),
      ...given('dataVolts', input.data_volts),
      usbMilliamps: use('usb_milliamps', input.usb_milliamps, usualUsb.device),
    }
  },
)

export const controller = form(
  'controller',
  'a combined controller for fans and lights',
  () =>
    z.strictObject({
      kind: kindKey('controller'),
      fan_ports: count('sockets for fans, named fan1, fan2, …', 0, 64),
      light_ports: count('sockets for lights, named light1, light2, …', 0, 64),
      volts: voltsField('of its lights: 5 or 12, V'),
      chain: word('separate: each light port is a channel; series or parallel: one channel over all', [
        'separate',
        'series',
        'parallel',
      ] as const),
      power: plugPower,
      host: word('who tells its lights what to show: usb, a board light header (port light_in), or nobody', [
        'usb',
        'header',
        'none',
      ] as const),
      fan_control: word('own: it sets its fans; header: the board header that its lead in hangs on', [
        'own',
        'header',
      ] as const),
      tach_from: z.optional(tachFrom),
      before_host: beforeHost,
      fan_amps: amps('most current over all fan ports, A', 40),
      fan_port_amps: amps('most current of one fan port, A', 10),
      light_amps: amps('most current over all light ports, A', 40),
      light_port_amps: amps('most current of one light port, A', 10),
      max_leds: maxLeds,
      data_volts: dataVolts,
      usb_milliamps: usbMilliamps,
      ...common,
    }),
  (id, input, use) => {
    const who = use('host', input.host, 'usb' as const)
    const tach = input.tach_from === 'all' ? 1 : input.tach_from
    return {
      kind: 'controller',
      ...commonOf(id, input, use),
      fanPorts: use('fan_ports', input.fan_ports, 0),
      lightPorts: use('light_ports', input.light_ports, 0),
      volts: lightVolts(use, input.volts),
      chain: use('chain', input.chain, 'separate' as const),
      power: use('power', input.power, 'sata' as const),
      host: who,
      fanControl: use('fan_control', input.fan_control, 'own' as const),
      tachFrom: use('tach_from', tach, 1 as number | 'none'),
      beforeHost: use('before_host', input.before_host, who === 'usb' ? 'stored-pattern' : 'dark'),
      fanAmps: use('fan_amps', input.fan_amps, usualHub.amps),
      fanPortAmps: use('fan_port_amps', input.fan_port_amps, usualHub.fanPortAmps),
      lightAmps: use('light_amps', input.light_amps, usualHub.amps),
      lightPortAmps: use('light_port_amps', input.light_port_amps, usualHub.lightPortAmps),
      ...given('maxLeds', input.max_leds),
      ...given('dataVolts', input.data_volts),
      usbMilliamps: use('usb_milliamps', input.usb_milliamps, usualUsb.device),
    }
  },
)

export const lightSplitter = form(
  'light-splitter',
  'a lead that splits one light socket over several lights, all showing the same',
  () =>
    z.strictObject({
      kind: kindKey('light-splitter'),
      ways: needed(count('sockets for lights', 1, 32)),
      volts: voltsField('5 (addressable) or 12 (plain four-pin), V'),
      amps: amps('most current that its lead carries, A', 40),
      ...common,
    }),
  (id, input, use) => ({
    kind: 'light-splitter',
    ...commonOf(id, input, use),
    ways: input.ways ?? use('ways', undefined as number | undefined, 2),
    volts: lightVolts(use, input.volts),
    amps: use('amps', input.amps, usualHub.splitterAmps),
  }),
)
