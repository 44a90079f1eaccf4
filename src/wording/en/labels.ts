/** Short words that stand on keys, lists and heads; and figures as they are read. */
import { figures } from '../figures.ts'
import type { Labels } from '../language.ts'

/** Minutes to the half under five, whole above: more would pretend to a precision that a bench does not have. */
function minutes(value: number): string {
  const rounded = value < 5 ? Math.round(value * 2) / 2 : Math.round(value)
  if (rounded < 0.5) return 'under half a minute'
  if (rounded === 0.5) return 'half a minute'
  return rounded === 1 ? '1 minute' : `${figures().number(rounded, 1)} minutes`
}

/** Never 0 % or 100 %: a person's word does not prove that much. */
function percent(p: number): string {
  if (p > 0.99) return 'over 99 %'
  if (p < 0.01) return 'under 1 %'
  return `${figures().number(p * 100, 0)} %`
}

export const labels: Labels = {
  power: { on: 'on', off: 'off' },
  hands: { in: 'hands in the case', out: 'hands out of the case' },
  outcome: {
    fixed: 'fixed and proven',
    'nothing-wrong': 'nothing is wrong',
    'handed-over': 'handed over',
    declined: 'no known cause fits',
    left: 'left, to be taken up again',
  },
  done: 'Done',
  unsure: "Can't tell",
  cannot: "Can't do this here",
  undo: 'Undo',
  why: 'Why this?',
  note: 'Add a note',
  handOver: 'Hand over',
  leave: 'Leave',
  none: 'None of them',
  step: 'Step',
  left: (n) =>
    n === 0 ? 'nothing known yet' : n === 1 ? 'one cause left' : `${n} causes still to tell apart`,
  minutes,
  percent,
  figure: (value, decimals) => figures().number(value, decimals),
  moment: (at, zoned) => figures().moment(at, zoned),
  noted: 'Noted',
}
