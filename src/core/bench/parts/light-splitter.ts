/** A light splitter joins everything to every way: all branches take the same first frames. */
import type { LightSplitter } from '../../plan/part.ts'
import { allFrom, names, type PartModel } from './part-model.ts'

export const lightSplitter: PartModel<LightSplitter> = {
  inside: (part) =>
    allFrom(names(part.ways), 'in', part.volts === 5 ? ['5V', 'GND'] : ['12V', 'R', 'G', 'B']),
  light: (part) => ({ does: 'splits', from: 'in', sockets: names(part.ways) }),
}
