/** Every kind of part that a plan file may have. A new kind is one form and one line here. */
import type { PartKindName } from '../part.ts'
import { fan, pump, strip } from './fans.ts'
import type { PartForm } from './form.ts'
import { controller, fanHub, fanSplitter, lightHub, lightSplitter } from './hubs.ts'
import { adapter, usbDevice, usbHub } from './others.ts'

export const partForms: { readonly [K in PartKindName]: PartForm<K> } = {
  fan,
  pump,
  strip,
  'fan-splitter': fanSplitter,
  'fan-hub': fanHub,
  'light-hub': lightHub,
  controller,
  'light-splitter': lightSplitter,
  'usb-hub': usbHub,
  adapter,
  'usb-device': usbDevice,
}

export const partKinds = Object.keys(partForms) as PartKindName[]
