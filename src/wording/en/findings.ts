/** Findings of the audit in English. */
import type { FindingWords } from '../findings.ts'
import { air } from './findings/air.ts'
import { control } from './findings/control.ts'
import { currents } from './findings/currents.ts'
import { lightData } from './findings/light-data.ts'
import { planSense } from './findings/plan-sense.ts'
import { tach } from './findings/tach.ts'
import { unknowns } from './findings/unknowns.ts'
import { usb } from './findings/usb.ts'
import { voltages } from './findings/voltages.ts'
import { HEADER_KIND, PART_KIND, unlessNamed } from './kinds.ts'

const list = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
const some = (n: number, what: string): string[] => (n === 0 ? [] : [`${n} ${what}`])

export const findingWords: FindingWords = {
  rules: {
    ...voltages,
    ...currents,
    ...control,
    ...tach,
    ...lightData,
    ...usb,
    ...air,
    ...planSense,
    ...unknowns,
  },
  severity: {
    'will-damage': 'will damage',
    'will-not-work': 'will not work',
    'may-not-work': 'may not work',
    untidy: 'untidy',
    unknown: 'not known',
  },
  doing: {
    stop: 'Do not switch on before this is changed',
    rewire: 'Leads to move or plug in',
    part: 'Parts to change or add',
    setting: 'Settings to change',
    write: 'Plan to complete or correct',
    know: 'Good to know',
  },
  families: {
    voltages: 'Voltages',
    currents: 'Currents',
    control: 'Control',
    tach: 'Tach',
    'light data': 'Light data',
    usb: 'USB',
    air: 'Mechanics and air',
    'plan sense': 'Sense of the plan',
    unknowns: 'What the plan does not say',
  },
  kinds: {
    part: (kind, id) => unlessNamed(PART_KIND[kind], id),
    header: HEADER_KIND,
    several: (kind) => `${kind}s`,
    said: /\b(?:channel|lead) $/,
  },
  list,
  assumed: (paths) =>
    `(rests on ${paths.length === 1 ? 'an assumed value' : `${paths.length} assumed values`}: ${list(paths.slice(0, 3))}${paths.length > 3 ? ' …' : ''})`,
  clean: 'Nothing to change. The plan keeps every limit that can be checked.',
  counted: (n) =>
    list([
      ...some(n['will-damage'], 'will damage'),
      ...some(n['will-not-work'], 'will not work'),
      ...some(n['may-not-work'], 'may not work'),
      ...some(n.untidy, 'untidy'),
      ...some(n.unknown, 'not known'),
    ]),
  heads: { todo: 'do', rule: 'Rule', source: 'Source', severity: 'Severity', limit: 'Limit', at: 'At' },
  page: {
    title: 'Rules of the audit',
    about: [
      'What `whichlead check` looks for in a wiring plan, with the limit and where it comes from. The severity is the usual one; a finding may be milder or worse by how far a limit is broken, and one that rests on an assumed value is never worse than “may not work”.',
    ],
  },
}
