/** A combined controller drives fans and lights from one supply plug, told by USB or by board headers. */
import type { Controller } from '../../plan/part.ts'
import { allFrom, names, type PartModel, tachSockets } from './part-model.ts'

export const controller: PartModel<Controller> = {
  inside: (part) => [
    ...allFrom(names(part.fanPorts, 'fan'), 'power', ['12V', 'GND']),
    ...(part.fanControl === 'header' ? allFrom(names(part.fanPorts, 'fan'), 'in', ['CONTROL']) : []),
    ...allFrom(names(part.lightPorts, 'light'), 'power', part.volts === 5 ? ['5V', 'GND'] : ['12V', 'GND']),
  ],
  tach: (part) =>
    part.fanControl === 'header'
      ? { out: 'in', from: tachSockets(part.tachFrom, names(part.fanPorts, 'fan')) }
      : undefined,
  light: (part) =>
    part.lightPorts > 0
      ? {
          does: 'feeds',
          order: part.chain,
          sockets: names(part.lightPorts, 'light'),
          host: part.host === 'header' ? { from: 'light_in' } : part.host,
        }
      : undefined,
  poweredBy: () => 'power',
}
