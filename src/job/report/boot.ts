/** A first boot point by point: what was expected, what was seen, when; what nobody saw; and who signed for it. */
import { readPointId } from '../../core/checks/boot/point.ts'
import type { Note } from '../../core/checks/prompt.ts'
import type { BootPointSeen, BootRecord, ReportStep } from './record.ts'

const isExpectation = (note: Note, what: string): boolean =>
  note.kind === 'expect' && note.facts.what === what

/** @param steps all of the job, those taken back too; undefined where it has no point of a first boot */
export function bootOf(steps: readonly ReportStep[]): BootRecord | undefined {
  const points: BootPointSeen[] = []
  const told: Note[] = []
  let signed: BootRecord['signed']
  for (const { told: before, prompt, undone, reply, step, at, by } of steps) {
    for (const { record } of before) if (record.show === 'note') told.push(record)
    if (undone) continue
    if (prompt.show === 'do') {
      if (prompt.task === 'sign-off' && reply === 'done')
        signed = { at, step, ...(by === undefined ? {} : { by }) }
      continue
    }
    const point = readPointId(prompt.id)
    if (!point) continue
    const expected = told.findLast(
      (note) => isExpectation(note, point.what) && note.facts.stage === point.stage,
    )
    points.push({ id: prompt.id, step, at, ...(expected ? { expected } : {}) })
  }
  if (points.length === 0) return undefined
  const summary = told.findLast((note) => isExpectation(note, 'sign-off'))
  return { points, ...(signed ? { signed } : {}), ...(summary ? { summary } : {}) }
}
