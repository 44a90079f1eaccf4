/**
 * Audits a plan: every rule of every family over the wiring, worst findings first. A limit that is broken only
 * on the strength of an assumed value is no more than a `may-not-work`.
 */
import { rounded } from '../electrics/overload.ts'
import type { Plan } from '../plan/plan.ts'
import { alikeTogether } from './alike.ts'
import { type Finding, type Hit, type Rule, SEVERITIES, type Severity } from './finding.ts'
import { oncePerCause } from './one-cause.ts'
import { placesOf } from './places.ts'
import { allRules } from './rules.ts'
import { type Wiring, wire } from './wiring.ts'

/** Findings of a plan, in the order of severity, then of the rules, then of the plan. */
export function audit(plan: Plan): Finding[] {
  const wiring = wire(plan)
  const found: Finding[] = []
  for (const rule of allRules) for (const hit of rule.find(wiring)) found.push(finding(wiring, rule, hit))
  const told = alikeTogether(oncePerCause(found))
  return SEVERITIES.flatMap((severity) => told.filter((f) => f.severity === severity))
}

function finding(wiring: Wiring, rule: Rule, hit: Hit): Finding {
  const assumed = (hit.rests ?? []).filter((path) => wiring.plan.assumed.has(path))
  return {
    rule: rule.id,
    severity: softened(hit.severity ?? rule.severity, assumed.length > 0),
    at: placesOf(wiring, hit.refs),
    refs: hit.refs,
    ...(hit.figure === undefined ? {} : { figure: rounded(hit.figure) }),
    ...(hit.limit === undefined ? {} : { limit: rounded(hit.limit) }),
    ...(rule.unit === undefined ? {} : { unit: rule.unit }),
    source: rule.source,
    facts: hit.facts ?? {},
    assumed,
  }
}

const softened = (severity: Severity, onAssumption: boolean): Severity =>
  onAssumption && (severity === 'will-damage' || severity === 'will-not-work') ? 'may-not-work' : severity
