/** A report that can be shown to anybody: no people, no places, no paths, and no notes, since notes name people. */
import type { BootRecord, Report } from './record.ts'

/** That it was signed, and when; not by whom. */
function unsigned(boot: BootRecord): BootRecord {
  if (!boot.signed) return boot
  const { by: _, ...signed } = boot.signed
  return { ...boot, signed }
}

/** `hidden` stands where a text was. */
export function withoutNames(report: Report, hidden: string): Report {
  const { who: _, where: __, ...rest } = report
  const bare = <T extends { readonly text: string }>(note: T): T => ({ ...note, text: hidden })
  return {
    ...rest,
    plan: { ...report.plan, file: report.plan.file.split(/[/\\]/).at(-1) ?? '' },
    notes: report.notes.map(bare),
    steps: report.steps.map(({ by: _, ...step }) => ({ ...step, notes: step.notes.map(bare) })),
    ...(report.boot ? { boot: unsigned(report.boot) } : {}),
  }
}
