/** A USB hub passes data down and feeds its ports from the bus or from a supply plug of its own. */
import type { UsbDevice, UsbHub } from '../../plan/part.ts'
import { allFrom, names, type PartModel } from './part-model.ts'

export const usbHub: PartModel<UsbHub> = {
  inside: (part) => [
    ...allFrom(names(part.ports), part.power === 'bus' ? 'usb' : 'power', ['5V', 'GND']),
    ...allFrom(names(part.ports), 'usb', ['USB']),
  ],
  poweredBy: (part) => (part.power === 'bus' ? 'usb' : 'power'),
}

export const usbDevice: PartModel<UsbDevice> = { inside: () => [] }
