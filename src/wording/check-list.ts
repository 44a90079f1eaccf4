/** Findings as a list for people, under headings of what to do; and as records for programs. */
import { type Finding, SEVERITIES, type Severity } from '../core/audit/finding.ts'
import type { Plan } from '../core/plan/plan.ts'
import { wrapped } from './ascii.ts'
import { clean } from './clean.ts'
import { DOINGS, type FindingText, type FindingWords, findingText } from './findings.ts'

/** Never alone: each stands before its word. */
const MARKS: Readonly<Record<Severity, string>> = {
  'will-damage': '✖',
  'will-not-work': '✖',
  'may-not-work': '⚠',
  untidy: '·',
  unknown: '?',
}

export const counted = (findings: readonly Finding[]): Record<Severity, number> =>
  Object.fromEntries(
    SEVERITIES.map((severity) => [severity, findings.filter((f) => f.severity === severity).length]),
  ) as Record<Severity, number>

/** @param width columns to wrap at, Infinity for a pipe */
export function checkLines(
  plan: Plan,
  findings: readonly Finding[],
  words: FindingWords,
  width: number,
): string[] {
  const head = clean(plan.build)
  if (findings.length === 0) return [`${head}: ${words.clean}`]
  const lines = [`${head}: ${words.counted(counted(findings))}`]
  const texts = findings.map((finding) => ({ finding, text: findingText(words, finding, plan) }))
  for (const doing of DOINGS) {
    const here = texts.filter(({ text }) => text.doing === doing)
    if (here.length > 0) lines.push('', words.doing[doing])
    for (const { finding, text } of here) lines.push(...findingLines(finding, text, words, width))
  }
  return lines
}

function findingLines(finding: Finding, text: FindingText, words: FindingWords, width: number): string[] {
  const [at] = finding.at
  const place = at ? `${clean(at.file)}:${at.line}:${at.col}` : ''
  return [
    ...wrapped(`  ${MARKS[finding.severity]} ${text.severity}: ${text.says}`, width, '    '),
    ...wrapped(`    ${words.heads.todo}: ${text.todo}`, width, '      '),
    `    ${place}  ${finding.rule}`,
  ]
}

/** One finding as a record with its sentences, for JSON. */
export const findingRecord = (finding: Finding, words: FindingWords, plan: Plan) => {
  const text = findingText(words, finding, plan)
  const { rule, severity, at, refs, figure, limit, unit, source, facts, assumed } = finding
  return {
    rule,
    severity,
    title: text.title,
    says: text.says,
    todo: text.todo,
    doing: text.doing,
    at,
    refs,
    ...(figure === undefined ? {} : { figure }),
    ...(limit === undefined ? {} : { limit }),
    ...(unit === undefined ? {} : { unit }),
    source,
    facts,
    assumed,
  }
}
