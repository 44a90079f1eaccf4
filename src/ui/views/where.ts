/**
 * Where it is: the run of the lead in question, drawn from its source to its sink, each joint with its live state in a
 * shape of its own, and the place in question named in words below it.
 */
import type { PathStep } from '../../job/view.ts'
import { type Line, line, lineWidth, type Span, span } from '../text/line.ts'
import { middleCut, width } from '../text/width.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'

interface Piece {
  readonly spans: readonly Span[]
  readonly wide: number
}

/** `[light hub H1] 3 ─●─ light [fan F3]`: ports are called as beside their part, since the part stands next to them. */
function nameOf({ view, words, language }: Model, at: number): string {
  const { path } = view
  const step = path[at]
  if (!step) return ''
  const beside = [path[at - 1], path[at + 1]].find(
    (s) => s?.kind === 'part' && step.ref.startsWith(`${s.ref}.`),
  )
  if (step.kind === 'joint') return beside ? words.tag(step.ref, view) : words.tagAlone(step.ref, view)
  if (step.ref.includes('.')) return words.tagAlone(step.ref, view)
  // In a row of lights one after the other the first says what they are.
  const kind = language.kind(step.ref, view)
  const said = path.slice(0, at).some((s) => s.kind === 'part' && language.kind(s.ref, view) === kind)
  return kind === '' || said ? step.ref : `${kind} ${step.ref}`
}

/** What stands between a step and the one before: a joint's live state before its plug, else a mere link. */
function linkOf(model: Model, path: readonly PathStep[], at: number): Span | undefined {
  const marks = marksOf(model)
  const [before, step, after] = [path[at - 1], path[at], path[at + 1]]
  if (!before || !step) return undefined
  // A socket before its plug, and a plug before its part, hang on the part itself.
  const plug = step.kind === 'joint' && (before.kind === 'joint' || after?.kind !== 'joint')
  if (plug) return span(`${marks.joint[step.state]} `, step.state === 'planned' ? 'dim' : 'strong')
  return before.kind === 'part' && step.kind === 'part' ? span(`${marks.link} `, 'dim') : undefined
}

function piece(model: Model, path: readonly PathStep[], at: number, longest: number): Piece {
  const marks = marksOf(model)
  const step = path[at]
  if (!step) return { spans: [], wide: 0 }
  const link = linkOf(model, path, at)
  const name = middleCut(say(model, nameOf(model, at)), longest, marks.cut)
  const doubted = step.state === 'suspect' && (step.kind === 'part' || link === undefined) ? '?' : ''
  const text = step.kind === 'part' ? `[${name}${doubted}]` : `${name}${doubted}`
  const shown = step.here ? marks.here.join(text) : text
  const tone = step.here || step.state !== 'planned' ? 'strong' : 'plain'
  const spans = [...(link ? [link] : []), span(shown, tone), span(' ')]
  return { spans, wide: spans.reduce((sum, s) => sum + width(s.text), 0) }
}

/** The path over as many lines as it needs, broken between places. */
function pathLines(model: Model, columns: number): Line[] {
  const { path } = model.view
  if (path.length === 0) return []
  const longest = Math.max(8, Math.min(24, columns - 12))
  const rows: Span[][] = [[]]
  let used = 0
  for (const at of path.keys()) {
    const { spans, wide } = piece(model, path, at, longest)
    if (used > 0 && used + wide > columns) {
      rows.push([span('  ')])
      used = 2
    }
    rows.at(-1)?.push(...spans)
    used += wide
  }
  return rows
}

/** What the shapes of joints on the path mean, those that are not as planned; the place in question says its own. */
function legend(model: Model): string {
  const { path } = model.view
  const marks = marksOf(model)
  const here = path.find((s) => s.here)
  const said = here?.state ?? 'planned'
  const states = new Set(path.filter((s) => s.kind === 'joint').map((s) => s.state))
  return [...states]
    .filter((state) => state !== 'planned' && state !== said)
    .map((state) => `   ${marks.joint[state]} ${model.words.joint[state]}`)
    .join('')
}

/** The place in question in words, with its state. */
function hereLine(model: Model, columns: number): Line[] {
  const here = model.view.path.find((s) => s.here)
  if (!here) return []
  const name = model.language.ref(here.ref, model.view)
  const state = here.kind === 'joint' || here.state !== 'planned' ? `: ${model.words.joint[here.state]}` : ''
  const lead = `${marksOf(model).here[0]} `
  const lines = sayLines(model, `${name}${state}`, columns, 'dim', lead)
  const shapes = legend(model)
  const [last] = lines.slice(-1)
  if (shapes === '' || !last || lineWidth(last) + width(shapes) > columns) return lines
  return [...lines.slice(0, -1), line(...last, span(shapes, 'dim'))]
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
