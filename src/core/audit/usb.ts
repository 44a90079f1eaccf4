/** USB: ports, current and depth on the way from each lighting or fan controller to the board. */
import type { Family } from './finding.ts'
import { usbCurrent } from './usb-current.ts'
import { usbPorts } from './usb-ports.ts'

export const usb: Family = {
  family: 'usb',
  rules: [...usbCurrent, ...usbPorts],
}
