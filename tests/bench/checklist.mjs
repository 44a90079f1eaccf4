// An expert's fixed order: for each symptom a list of what to look at, gone through from the top whatever the answers
// were (common practice, no source). Only looks that can still tell something are made. As soon as one repair would mend
// what is now held likely enough, it is made; when the list is through, repairs follow by probability over cost.
import { repairsOnly } from './rivals.mjs'

const FANS = ['setting', 'alarm', 'rpm', 'spins', 'seated', 'by hand', 'goes', 'try', 'follows', 'volts']
const READINGS = ['rpm', 'setting', 'alarm', 'spins', 'seated', 'goes', 'try', 'follows', 'by hand', 'volts']
const LIGHTS = ['lit', 'shows', 'setting', 'listed', 'seated', 'goes', 'answers', 'effect', 'try', 'volts']
const USB = ['listed', 'setting', 'seated', 'goes', 'volts', 'try', 'lit', 'shows']

const LISTS = {
  'fan-still': FANS,
  'all-dead': ['setting', 'listed', 'seated', 'volts', 'rpm', 'goes', 'by hand', 'try'],
  'fans-full': ['setting', 'follows', 'rpm', 'seated', 'goes', 'try', 'volts'],
  'fans-hunting': ['setting', 'rpm', 'follows', 'seated', 'by hand', 'try', 'volts'],
  'zero-rpm': READINGS,
  'odd-reading': READINGS,
  alarm: READINGS,
  'lights-dark': LIGHTS,
  'lights-order': ['setting', 'answers', 'effect', 'goes', 'shows', 'lit', 'seated', 'try'],
  'lights-stuck': ['setting', 'listed', 'shows', 'lit', 'seated', 'goes', 'effect', 'try', 'volts'],
  'wrong-colours': ['setting', 'shows', 'effect', 'seated', 'goes', 'lit', 'try'],
  'global-effect': ['setting', 'effect', 'answers', 'goes', 'lit', 'shows', 'seated', 'try'],
  'not-listed': USB,
  'works-then-stops': [
    'spins',
    'lit',
    'listed',
    'rpm',
    'seated',
    'setting',
    'volts',
    'goes',
    'try',
    'by hand',
  ],
}
const OTHERS = [
  'spins',
  'lit',
  'shows',
  'rpm',
  'listed',
  'setting',
  'seated',
  'goes',
  'by hand',
  'try',
  'volts',
]

const kindOf = (id) =>
  id.startsWith('try ') ? 'try' : id.endsWith(' by hand') ? 'by hand' : (id.split(' ')[1] ?? '')

/** @param sure a repair is made once it would mend this share of what is believed */
export const checklist = (sure) => (symptom) => (problem, standing) => {
  const { belief, checksLeft, repairsLeft } = standing
  const cured = (r) =>
    problem.repairs[r].fixes.reduce((sum, fixes, s) => sum + (fixes === 1 ? belief[s] : 0), 0)
  if (repairsLeft.some((r) => cured(r) >= sure)) return repairsOnly(problem, standing)
  const list = LISTS[symptom] ?? OTHERS
  const place = (c) => {
    const at = list.indexOf(kindOf(problem.checks[c].id))
    return at < 0 ? list.length : at
  }
  const [first] = [...checksLeft].sort(
    (a, b) => place(a) - place(b) || (problem.checks[a].id < problem.checks[b].id ? -1 : 1),
  )
  return first === undefined ? repairsOnly(problem, standing) : { do: 'check', index: first }
}
