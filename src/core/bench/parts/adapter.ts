/** An adapter passes what both of its ends have, and hands tach back from its first way. */
import type { Adapter } from '../../plan/part.ts'
import { pinsOf } from '../../plan/ports.ts'
import { allFrom, names, type PartModel } from './part-model.ts'

const outs = (part: Adapter): string[] => (part.outs === 1 ? ['out'] : names(part.outs, 'out'))

export const adapter: PartModel<Adapter> = {
  inside: (part) =>
    allFrom(
      outs(part),
      'in',
      pinsOf[part.to].filter(
        (c) => pinsOf[part.from].includes(c) && c !== 'TACH' && c !== 'DATA' && c !== 'DATA_BACK',
      ),
    ),
  tach: (part) =>
    pinsOf[part.to].includes('TACH') && pinsOf[part.from].includes('TACH')
      ? { out: 'in', from: outs(part).slice(0, 1) }
      : undefined,
  light: (part) =>
    pinsOf[part.to].includes('DATA') && pinsOf[part.from].includes('DATA')
      ? { does: 'splits', from: 'in', sockets: outs(part) }
      : undefined,
}
