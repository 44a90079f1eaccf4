/** A fan hub takes 12 V from its own supply plug (or the header), control from the header, and reports one port's tach. */
import type { FanHub } from '../../plan/part.ts'
import { allFrom, names, type PartModel, tachSockets } from './part-model.ts'

export const fanHub: PartModel<FanHub> = {
  inside: (part) => [
    ...allFrom(names(part.ports), part.power === 'header' ? 'in' : 'power', ['12V', 'GND']),
    ...(part.passesControl ? allFrom(names(part.ports), 'in', ['CONTROL']) : []),
  ],
  tach: (part) => ({ out: 'in', from: tachSockets(part.tachFrom, names(part.ports)) }),
  poweredBy: (part) => (part.power === 'header' ? 'in' : 'power'),
}
