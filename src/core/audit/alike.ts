/** What is wrong with several fans or channels in the same way is one finding that names them all: it has one remedy. */
import type { Fact, Finding } from './finding.ts'
import { placeKey } from './places.ts'

/** The fact of a rule that names the thing; findings that differ by nothing else are told as one. */
const NAMED: Readonly<Record<string, string>> = {
  'three-pin-on-pwm': 'fan',
  'control-not-passed': 'fan',
  'four-pin-on-dc': 'fan',
  'curve-under-start-duty': 'fan',
  'curve-never-starts': 'fan',
  'dc-under-start-volts': 'fan',
  'dc-never-starts': 'fan',
  'fan-over-specification': 'fan',
  'fan-drop': 'fan',
  'light-drop': 'part',
  'light-drop-low-rail': 'part',
  'light-run-long': 'part',
  'leads-one-label': 'other',
  'names-alike': 'other',
  'program-absent': 'channel',
}

const names = (fact: Fact | undefined): readonly string[] =>
  typeof fact === 'object' ? fact : fact === undefined ? [] : [String(fact)]

/** The findings, alike ones joined where the first of them stands. */
export function alikeTogether(found: readonly Finding[]): Finding[] {
  const told = new Map<string, Finding>()
  for (const [i, finding] of found.entries()) {
    const name = NAMED[finding.rule]
    const { rule, severity, figure, limit } = finding
    const rest = name === undefined ? i : { ...finding.facts, [name]: '' }
    const key = JSON.stringify([rule, severity, figure, limit, finding.assumed.length > 0, rest])
    const first = told.get(key)
    told.set(key, first && name !== undefined ? joined(first, finding, name) : finding)
  }
  return [...told.values()]
}

function joined(first: Finding, next: Finding, name: string): Finding {
  const at = new Map([...first.at, ...next.at].map((place) => [placeKey(place), place]))
  return {
    ...first,
    at: [...at.values()],
    refs: [...new Set([...first.refs, ...next.refs])],
    facts: { ...first.facts, [name]: [...names(first.facts[name]), ...names(next.facts[name])] },
    assumed: [...new Set([...first.assumed, ...next.assumed])],
  }
}
