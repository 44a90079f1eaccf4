/** A light hub powers its ports and feeds them data from its host, from a light header, or from a stored pattern. */
import type { LightHub } from '../../plan/part.ts'
import { allFrom, names, type PartModel } from './part-model.ts'

export const lightHub: PartModel<LightHub> = {
  inside: (part) =>
    allFrom(
      names(part.ports),
      part.power === 'header' ? 'in' : 'power',
      part.volts === 5 ? ['5V', 'GND'] : ['12V', 'GND'],
    ),
  light: (part) => ({
    does: 'feeds',
    order: part.chain,
    sockets: names(part.ports),
    host: part.host === 'header' ? { from: 'in' } : part.host,
  }),
  poweredBy: (part) => (part.power === 'header' ? 'in' : 'power'),
}
