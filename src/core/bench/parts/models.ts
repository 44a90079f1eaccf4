/** One entry a kind of part: the table that the compiler reads. A new kind is one file here and one line. */
import type { Part } from '../../plan/part.ts'
import { adapter } from './adapter.ts'
import { controller } from './controller.ts'
import { fan, strip } from './fan.ts'
import { fanHub } from './fan-hub.ts'
import { fanSplitter } from './fan-splitter.ts'
import { lightHub } from './light-hub.ts'
import { lightSplitter } from './light-splitter.ts'
import type { PartModel, PartModels } from './part-model.ts'
import { pump } from './pump.ts'
import { usbDevice, usbHub } from './usb-hub.ts'

const models: PartModels = {
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

export const modelOf = (part: Part): PartModel => models[part.kind] as PartModel
