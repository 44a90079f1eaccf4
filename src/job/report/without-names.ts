/** A report that can be shown to anybody: no people, no places, no paths, and no notes, since notes name people. */
import type { Report } from './record.ts'

/** `hidden` stands where a text was. */
export function withoutNames(report: Report, hidden: string): Report {
  const { who: _, where: __, ...rest } = report
  const bare = <T extends { readonly text: string }>(note: T): T => ({ ...note, text: hidden })
  return {
    ...rest,
    plan: { ...report.plan, file: report.plan.file.split(/[/\\]/).at(-1) ?? '' },
    notes: report.notes.map(bare),
    steps: report.steps.map((step) => ({ ...step, notes: step.notes.map(bare) })),
  }
}
