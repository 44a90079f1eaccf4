/**
 * Where it is: the run of the lead in question, drawn from its source to its sink, each joint with its live state in a
 * shape of its own, and the place in question named in words below it.
 */
import type { PathStep } from '../../job/view.ts'
import { type Line, line, type Span, span } from '../text/line.ts'
import { middleCut, width } from '../text/width.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'

interface Piece {
  readonly spans: readonly Span[]
  readonly wide: number
  readonly here: boolean
}

/** `supply.SA.1` stays, `H1.3` stays: what stands on the label and beside the socket. */
const shortRef = (model: Model, ref: string): string => say(model, ref.replace(/^board\./, ''))

function piece(model: Model, step: PathStep, longest: number): Piece {
  const marks = marksOf(model)
  const tone = step.here ? 'strong' : step.state === 'planned' ? 'plain' : 'strong'
  const name = middleCut(shortRef(model, step.ref), longest, marks.cut)
  const text = step.kind === 'part' ? `[${name}]` : name
  const joint = step.kind === 'joint' ? marks.joint[step.state] : marks.link
  const shown = step.here ? marks.here.join(text) : text
  return {
    spans: [span(`${joint} `, step.state === 'planned' ? 'dim' : 'bad'), span(shown, tone), span(' ')],
    wide: width(joint) + 1 + width(shown) + 1,
    here: step.here,
  }
}

/** The path over as many lines as it needs, broken between places. */
export function pathLines(model: Model, columns: number): Line[] {
  const { path } = model.view
  if (path.length === 0) return []
  const longest = Math.max(8, Math.min(24, columns - 12))
  const rows: Span[][] = [[]]
  let used = 0
  for (const [i, step] of path.entries()) {
    const p = piece(model, step, longest)
    const spans = i === 0 ? p.spans.slice(1) : p.spans
    const wide = i === 0 ? p.wide - width(p.spans[0]?.text ?? '') : p.wide
    if (used > 0 && used + wide > columns) {
      rows.push([span('  ')])
      used = 2
    }
    rows.at(-1)?.push(...spans)
    used += wide
  }
  return rows
}

/** The place in question in words, with its state. */
function hereLine(model: Model, columns: number): Line[] {
  const here = model.view.path.find((s) => s.here)
  if (!here) return []
  const name = model.language.ref(here.ref, model.view)
  const state = here.kind === 'joint' || here.state !== 'planned' ? `: ${model.words.joint[here.state]}` : ''
  return sayLines(model, `${name}${state}`, columns, 'dim', `${marksOf(model).here[0]} `)
}

/** Both, behind a head; at most `most` lines, the words giving way first. */
export function whereLines(model: Model, columns: number, most: number): Line[] {
  const drawn = pathLines(model, columns - 7)
  if (drawn.length === 0 || most < 1) return []
  const head = say(model, model.words.where)
  const all = [
    ...drawn.map((l, i) => line(span((i === 0 ? head : '').padEnd(7), 'dim'), ...l)),
    ...hereLine(model, columns - 7).map((l) => line(span(' '.repeat(7)), ...l)),
  ]
  if (all.length <= most) return all
  // Too long for the room: the lines around the place in question.
  const at = Math.max(
    0,
    drawn.findIndex((l) => l.some((s) => s.text.startsWith(marksOf(model).here[0]))),
  )
  const from = Math.min(Math.max(0, at - Math.floor((most - 1) / 2)), Math.max(0, drawn.length - most))
  return all.slice(from, from + most)
}
