/**
 * A plan's text after what was done at the bench: leads moved, taken out or put in, settings changed. Everything else
 * stays as the person wrote it, to the letter. What comes out is read again; an edit that cannot be, changes nothing.
 */
import { isMap, parseDocument, type YAMLMap } from 'yaml'
import { isList, type Piece, plugged, unplugged } from './edit-leads.ts'
import { setTo } from './edit-settings.ts'
import { given } from './parts/form.ts'
import type { PortRef } from './plan.ts'
import type { Problem } from './problem.ts'
import { type Include, readPlan } from './read.ts'

export type PlanEdit =
  | { readonly do: 'plug'; readonly plug: PortRef; readonly socket: PortRef }
  | { readonly do: 'unplug'; readonly plug: PortRef }
  | { readonly do: 'swap'; readonly a: PortRef; readonly b: PortRef }
  | { readonly do: 'set'; readonly setting: string; readonly value: string }

export type Edited =
  | { readonly ok: true; readonly text: string }
  | {
      readonly ok: false
      /** The edit that could not be made, counted from 0. */
      readonly edit: number
      readonly why: 'not-a-plan' | 'no-such-lead' | 'no-list-of-leads' | 'does-not-fit'
      /** What of the edited text does not fit, and what would. */
      readonly trouble?: Problem
    }

const spliced = (text: string, { from, to, text: put }: Piece): string =>
  text.slice(0, from) + put + text.slice(to)

type Step = string | Extract<Edited, { ok: false }>['why']
const NO_LEADS = 'no-list-of-leads'

const rootOf = (text: string): YAMLMap | undefined => {
  const { contents } = parseDocument(text, { prettyErrors: false, logLevel: 'error' })
  return isMap(contents) ? (contents as unknown as YAMLMap) : undefined
}

/** The socket that a plug is written into. */
function socketIn(
  text: string,
  file: string,
  plug: PortRef,
  include: Include | undefined,
): PortRef | undefined {
  const read = readPlan(text, file, include)
  return read.ok ? read.value.leads.find((lead) => lead.plug === plug)?.socket : undefined
}

/** `board.SYS1` and `SYS1` may both be written; what stands in the file is kept. */
function placed(root: YAMLMap, [section = '', place, key]: readonly string[]): string[] {
  if (key === undefined) return ['settings', section, place ?? '']
  const other = place?.startsWith('board.') ? place.slice(6) : `board.${place}`
  const written = root.getIn(['settings', section, other]) === undefined ? place : other
  return ['settings', section, written ?? '', key]
}

function made(text: string, edit: PlanEdit, file: string, include: Include | undefined): Step {
  const root = rootOf(text)
  if (!root) return 'not-a-plan'
  if (edit.do === 'set')
    return spliced(text, setTo(text, root, placed(root, edit.setting.split('/')), edit.value))
  const leads = root.get('leads', true)
  if (!isList(leads)) return NO_LEADS
  switch (edit.do) {
    case 'plug':
      return spliced(text, plugged(text, leads, edit.plug, edit.socket))
    case 'unplug': {
      const piece = unplugged(text, leads, edit.plug)
      return piece ? spliced(text, piece) : 'no-such-lead'
    }
    case 'swap': {
      const [a, b] = [socketIn(text, file, edit.a, include), socketIn(text, file, edit.b, include)]
      if (a === undefined || b === undefined) return 'no-such-lead'
      const half = spliced(text, plugged(text, leads, edit.a, b))
      const after = rootOf(half)?.get('leads', true)
      return isList(after) ? spliced(half, plugged(half, after, edit.b, a)) : NO_LEADS
    }
  }
}

const REASONS: ReadonlySet<string> = new Set(['not-a-plan', 'no-such-lead', NO_LEADS])

/** The text after all edits, in their order, or the first that could not be made. */
export function editPlan(text: string, edits: readonly PlanEdit[], file: string, include?: Include): Edited {
  let now = text
  for (const [i, edit] of edits.entries()) {
    const next = made(now, edit, file, include)
    if (REASONS.has(next)) return { ok: false, edit: i, why: next as 'not-a-plan' }
    const read = readPlan(next, file, include)
    if (!read.ok) return { ok: false, edit: i, why: 'does-not-fit', ...given('trouble', read.problems[0]) }
    now = next
  }
  return { ok: true, text: now }
}
