/** A reading as a note: told to a person, shown in the report, sent over the line. */
import type { Note } from '../core/checks/prompt.ts'
import type { ReadBody } from './read-body.ts'

/** What it was and what was made of it, as facts: words of a line are parted by tabs. */
export const readingNote = (body: Pick<ReadBody, 'source' | 'taken' | 'left' | 'remarks'>): Note => ({
  show: 'note',
  kind: 'read',
  facts: {
    source: body.source,
    taken: body.taken.map((t) => [t.observe.what, t.observe.at, t.value, t.from, t.figure].join('\t')),
    left: body.left.map((l) => [l.from, l.why, l.figure, l.at ?? ''].join('\t')),
    remarks: body.remarks.map((r) => [r.code, r.at].join('\t')),
  },
})
