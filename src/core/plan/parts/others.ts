/** USB hubs, adapters, and whatever else takes an internal USB port. */
import * as z from 'zod/mini'
import { count, flag, measure, needed, word } from '../fields.ts'
import { usualUsb } from '../usual.ts'
import { usbMilliamps } from './fans.ts'
import { common, commonOf, form, kindKey } from './form.ts'

export const CONNECTORS = [
  'fan3',
  'fan4',
  'light5',
  'light12',
  'sata',
  'peripheral',
  'usb2',
  'usb2-pair',
  'usb3',
] as const

export const usbHub = form(
  'usb-hub',
  'an internal hub that makes several USB ports out of one',
  () =>
    z.strictObject({
      kind: kindKey('usb-hub'),
      ports: needed(count('ports that it offers, named 1, 2, …', 1, 16)),
      power: word('bus: from the USB port itself; or a supply plug (port power)', [
        'bus',
        'sata',
        'peripheral',
      ] as const),
      port_milliamps: measure('current that it offers on each port, mA', 'milliamps', {
        min: 1,
        max: 5000,
      }),
      own_milliamps: measure('current that it takes itself, mA', 'milliamps', {
        min: 0,
        max: 2000,
      }),
      ...common,
    }),
  (id, input, use) => {
    const power = use('power', input.power, 'bus' as const)
    return {
      kind: 'usb-hub',
      ...commonOf(id, input, use),
      ports: input.ports ?? use('ports', undefined as number | undefined, 4),
      power,
      portMilliamps: use(
        'port_milliamps',
        input.port_milliamps,
        power === 'bus' ? usualUsb.busPort : usualUsb.poweredPort,
      ),
      ownMilliamps: use('own_milliamps', input.own_milliamps, usualUsb.device),
    }
  },
)

const connector = (description: string) => needed(word(description, CONNECTORS))

export const adapter = form(
  'adapter',
  'a short lead with another connector at each end',
  () =>
    z.strictObject({
      kind: kindKey('adapter'),
      from: connector('the plug at its end in, which goes into what feeds it'),
      to: connector('the socket at its end out, which takes another plug'),
      outs: count('number of sockets: out, or out1, out2, …', 1, 8),
      moulded: flag('its plug is cast in one piece, so the contacts cannot be seen'),
      ...common,
    }),
  (id, input, use) => ({
    kind: 'adapter',
    ...commonOf(id, input, use),
    from: input.from ?? use('from', undefined as 'peripheral' | undefined, 'peripheral'),
    to: input.to ?? use('to', undefined as 'sata' | undefined, 'sata'),
    outs: input.outs ?? 1,
    moulded: use('moulded', input.moulded, false),
  }),
)

export const usbDevice = form(
  'usb-device',
  'anything else that takes an internal USB port: front panel, card reader, radio',
  () =>
    z.strictObject({
      kind: kindKey('usb-device'),
      ports: count('1, or 2 where its plug covers both rows of a header', 1, 2),
      usb_milliamps: usbMilliamps,
      ...common,
    }),
  (id, input, use) => ({
    kind: 'usb-device',
    ...commonOf(id, input, use),
    ports: use('ports', input.ports, 1),
    usbMilliamps: use('usb_milliamps', input.usb_milliamps, usualUsb.usb2),
  }),
)
