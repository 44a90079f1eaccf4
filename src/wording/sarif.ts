/**
 * Findings in SARIF 2.1.0 (the open interchange format for results of checking files), so that editors and build
 * servers show them at their lines. Problems that keep a plan from being read come out in the same form.
 */
import type { Finding, Severity } from '../core/audit/finding.ts'
import { allRules } from '../core/audit/rules.ts'
import type { Place, Problem } from '../core/plan/problem.ts'
import { clean } from './clean.ts'
import { type FindingWords, findingText, wordsOf } from './findings.ts'

type Level = 'error' | 'warning' | 'note'

export const LEVELS: Readonly<Record<Severity, Level>> = {
  'will-damage': 'error',
  'will-not-work': 'error',
  'may-not-work': 'warning',
  untidy: 'note',
  unknown: 'note',
}

/** A path as SARIF wants it: with slashes, and safe inside a URI. */
const uri = (file: string): string =>
  file
    .replaceAll('\\', '/')
    .split('/')
    .map((part) => encodeURIComponent(part).replaceAll('%3A', ':'))
    .join('/')

const location = (place: Place) => ({
  physicalLocation: {
    artifactLocation: { uri: uri(place.file) },
    region: { startLine: place.line, startColumn: place.col },
  },
})

const UNREADABLE = 'plan-unreadable'

const log = (version: string, rules: readonly object[], results: readonly object[]) => ({
  $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
  version: '2.1.0',
  runs: [
    {
      tool: { driver: { name: 'whichlead', semanticVersion: version, rules } },
      columnKind: 'utf16CodeUnits',
      results,
    },
  ],
})

/** The whole SARIF log of an audit. */
export function sarifOf(findings: readonly Finding[], words: FindingWords, version: string): object {
  const used = allRules.filter((rule) => findings.some((f) => f.rule === rule.id))
  const rules = used.map((rule) => {
    const { title, limit } = wordsOf(words, rule.id)
    return {
      id: rule.id,
      shortDescription: { text: title },
      fullDescription: {
        text: `${title}. ${words.heads.limit}: ${limit}. ${words.heads.source}: ${rule.source}.`,
      },
      defaultConfiguration: { level: LEVELS[rule.severity] },
    }
  })
  const results = findings.map((finding) => {
    const text = findingText(words, finding)
    const [first, ...others] = finding.at
    return {
      ruleId: finding.rule,
      ruleIndex: used.findIndex((rule) => rule.id === finding.rule),
      level: LEVELS[finding.severity],
      message: { text: `${text.severity}: ${text.says}. ${words.heads.todo}: ${text.todo}.` },
      locations: first ? [location(first)] : [],
      ...(others.length > 0
        ? { relatedLocations: others.map((place, id) => ({ id, ...location(place) })) }
        : {}),
      properties: { severity: finding.severity, refs: finding.refs, facts: finding.facts },
    }
  })
  return log(version, rules, results)
}

/** A plan that could not be read, in the same form. */
export const sarifOfProblems = (problems: readonly Problem[], version: string): object =>
  log(
    version,
    [{ id: UNREADABLE }],
    problems.map((problem) => ({
      ruleId: UNREADABLE,
      ruleIndex: 0,
      level: 'error',
      message: {
        text: [problem.found, problem.expected, problem.todo].filter(Boolean).map(clean).join('; '),
      },
      locations: [location(problem.at)],
    })),
  )
