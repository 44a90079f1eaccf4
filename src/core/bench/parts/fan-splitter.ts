/** A splitter joins supply and control to every way and hands one tach back; without the control wire it splits three. */
import type { FanSplitter } from '../../plan/part.ts'
import { allFrom, names, type PartModel, tachSockets } from './part-model.ts'

export const fanSplitter: PartModel<FanSplitter> = {
  inside: (part) =>
    allFrom(names(part.ways), 'in', part.passesControl ? ['12V', 'GND', 'CONTROL'] : ['12V', 'GND']),
  tach: (part) => ({ out: 'in', from: tachSockets(part.tachFrom, names(part.ways)) }),
}
