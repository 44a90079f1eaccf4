/**
 * The wiring sheet to print: each lead with both ends, its length and the label to stick on it, in the order in which
 * to plug. Fans and lights go into their hubs first, hubs into headers next, USB then, and supply plugs last, so that
 * nothing has power while hands are in the case. What would do damage stands on top, and its leads are marked: the
 * sheet goes to the bench alone.
 */
import type { Finding } from '../../core/audit/finding.ts'
import { LINES, type Line, plugOrder } from '../../core/audit/plug-order.ts'
import type { Plan, PlannedLead } from '../../core/plan/plan.ts'
import { clean } from '../clean.ts'
import { type FindingWords, findingText } from '../findings.ts'
import type { DrawingWords } from './text.ts'

export interface SheetLead {
  readonly n: number
  readonly line: Line
  readonly from: string
  readonly to: string
  readonly label: string
  readonly mm?: number
}

/** Leads in the order in which to plug them: by kind, from the leaves inward, then as in the plan. */
export function sheetLeads(plan: Plan): SheetLead[] {
  return plugOrder(plan).map(({ lead, line }, i) => {
    const mm = lead.mm ?? lightLength(plan, lead)
    return {
      n: i + 1,
      line,
      from: lead.plug,
      to: lead.socket,
      label: `${i + 1} ${lead.plug} > ${lead.socket}`,
      ...(mm === undefined ? {} : { mm }),
    }
  })
}

const lightLength = (plan: Plan, lead: PlannedLead): number | undefined => {
  const part = plan.parts.find((p) => lead.plug.startsWith(`${p.id}.`))
  return part && 'lights' in part
    ? part.lights.find((l) => `${part.id}.${l.port}` === lead.plug)?.mm
    : undefined
}

/** The sheet as text in columns. */
export function sheetText(
  plan: Plan,
  findings: readonly Finding[],
  words: DrawingWords,
  findingWords: FindingWords,
): string[] {
  const { sheet } = words
  const leads = sheetLeads(plan)
  const stops = findings.filter((f) => f.severity === 'will-damage')
  const marked = new Set(stops.flatMap((f) => f.refs))
  const cells = leads.map((lead) => [
    marked.has(lead.from) || marked.has(lead.to) ? '[✖]' : '[ ]',
    String(lead.n),
    clean(lead.from),
    clean(lead.to),
    lead.mm === undefined ? '' : sheet.length(lead.mm),
    clean(lead.label),
  ])
  const head = [
    sheet.columns.done,
    sheet.columns.n,
    sheet.columns.from,
    sheet.columns.to,
    sheet.columns.mm,
    sheet.columns.label,
  ]
  const widths = head.map((title, i) => Math.max(title.length, ...cells.map((row) => row[i]?.length ?? 0)))
  const row = (of: readonly string[]): string =>
    of
      .map((cell, i) => cell.padEnd(widths[i] ?? 0))
      .join('  ')
      .trimEnd()
  const lines = [sheet.title(clean(plan.build)), '', ...sheet.about]
  if (stops.length > 0) lines.push('', findingWords.doing.stop)
  for (const { says, severity, todo } of stops.map((f) => findingText(findingWords, f, plan)))
    lines.push(`✖ ${severity}: ${says}`, `  ${findingWords.heads.todo}: ${todo}`)
  const used = LINES.filter((line) => leads.some((lead) => lead.line === line))
  for (const [n, line] of used.entries()) {
    const here = leads.flatMap((lead, i) => (lead.line === line ? [cells[i] ?? []] : []))
    lines.push('', `${n + 1}. ${sheet.steps[line]}`, row(head), ...here.map(row))
  }
  return lines
}
