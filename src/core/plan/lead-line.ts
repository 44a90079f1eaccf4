/** A lead as it is written, on one line or with keys, and the single leads that its ranges stand for. */
import * as z from 'zod/mini'
import { measure, needed, text } from './fields.ts'
import { given } from './parts/form.ts'
import type { Place } from './problem.ts'
import { type Notebook, report, shown } from './problem.ts'
import { expandReference, isRange } from './ranges.ts'
import { section } from './section.ts'
import type { Node } from './tree-node.ts'

const mm = measure('length, mm', 'length', { min: 1, max: 20_000 })

const end = (description: string) =>
  needed(text(description), { expected: 'a port such as F1.motor or board.SYS1' })

export const leadSchema = z.strictObject({
  from: end('the port at one end'),
  to: end('the port at the other end'),
  mm,
  length: mm,
  awg: measure('gauge', 'gauge', { min: 10, max: 36, whole: true }),
  note: text('anything worth knowing'),
})

export interface Written {
  readonly from: string
  readonly to: string
  readonly mm?: number
  readonly awg?: number
  readonly place: Place
  readonly toPlace: Place
}

const FORM = 'PORT -> PORT, such as F1.motor -> board.SYS1'

/** What an entry of `leads` says; undefined where it is none. */
export function writtenLead(book: Notebook, node: Node): Written | undefined {
  if (node.is === 'scalar' && typeof node.value === 'string') {
    const ends = node.value.split(/->|→/)
    const [from = '', to = ''] = ends.map((end) => end.trim())
    if (ends.length === 2 && /^\S+$/.test(from) && /^\S+$/.test(to))
      return { from, to, place: node.place, toPlace: node.place }
    const todo = ends.length > 2 ? 'write each lead as an entry of its own' : 'write it in this form'
    report(book, node.place, shown(node.value), FORM, todo)
    return undefined
  }
  if (node.is !== 'map') {
    report(book, node.place, node.is === 'list' ? 'a list' : shown(node.value), FORM, 'write it in this form')
    return undefined
  }
  const [only, ...others] = [...node.entries]
  if (only && others.length === 0 && only[0].includes('.')) {
    const to = only[1].value.is === 'scalar' ? String(only[1].value.value) : 'PORT'
    report(book, node.place, shown(`${only[0]}: ${to}`), FORM, `write ${only[0]} -> ${to}`)
    return undefined
  }
  const { value: lead } = section(book, node, leadSchema)
  if (!lead) return undefined
  if (lead.mm !== undefined && lead.length !== undefined)
    report(book, node.place, 'both mm and length', 'one of the two', 'take one of them out')
  return {
    from: lead.from,
    to: lead.to,
    ...given('mm', lead.mm ?? lead.length),
    ...given('awg', lead.awg),
    place: node.place,
    toPlace: node.entries.get('to')?.value.place ?? node.place,
  }
}

/** One end spelled out; undefined where its range is none. */
function spelled(book: Notebook, ref: string, place: Place): string[] | undefined {
  const refs = expandReference(ref)
  if (!refs)
    report(
      book,
      place,
      shown(ref),
      'a range such as F1..F3.motor or Y1.1..3',
      'write first and last with .. between',
    )
  return refs
}

/** The two ends of each lead that one entry stands for. */
export function endsOf(book: Notebook, lead: Written): [string, string][] {
  const from = spelled(book, lead.from, lead.place)
  const to = spelled(book, lead.to, lead.toPlace)
  if (!from || !to) return []
  if (from.length !== to.length) {
    const found = `${from.length} ${isRange(lead.from) ? 'ports' : 'port'} to ${to.length}`
    report(book, lead.place, found, 'as many on the left as on the right', 'count both ranges')
    return []
  }
  return from.map((ref, i) => [ref, to[i] ?? ''])
}
