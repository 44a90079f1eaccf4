/**
 * The whole screen as lines: head, body, remark, keys. Never taller than the terminal less one row, never wider than it;
 * below 60×20 a plain message instead. With it come the facts that a key needs of what is drawn.
 */

import { hasPicture } from '../pictures/connector.ts'
import type { Facts } from '../state/facts.ts'
import { kindOf } from '../state/rows.ts'
import { BLANK, cutLine, type Line, line, span } from '../text/line.ts'
import { filterLine } from './answers.ts'
import { header, rule } from './header.ts'
import { type Drawn, drawJob } from './job.ts'
import { keyBar } from './keybar.ts'
import { messageLine } from './message.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'
import { emptyTrail, paneLines, trailRows } from './panes.ts'
import { sidePanel } from './side.ts'
import { canFold } from './told.ts'
import { aroundRow, scrolledLines, scrollMax } from './window.ts'

const LEAST = { columns: 60, rows: 20 }
/** From here on a column at the right shows suspects and the path so far beside the question. */
const WIDE = 116

export interface Frame {
  readonly lines: readonly Line[]
  readonly facts: Facts
}

function drawPane(model: Model, columns: number, height: number): Drawn {
  const head = line(span(say(model, model.words.head[model.cursor.mode]), 'strong'))
  const filter = filterLine(model)
  const top = [head, BLANK, ...filter]
  const room = Math.max(1, height - top.length)
  const none = { rows: [], map: {}, page: room }
  if (model.cursor.mode === 'trail') {
    const rows = trailRows(model, columns)
    const at = Math.max(
      0,
      rows.findIndex((r) => r.seq === model.cursor.seq),
    )
    const blocks = rows.map((r) => r.lines)
    const body = rows.length === 0 ? emptyTrail(model) : aroundRow(model, blocks, at, room)
    return { ...none, lines: [...top, ...body], scrollMax: 0 }
  }
  const text = paneLines(model, columns)
  const max = scrollMax(text.length, room)
  return {
    ...none,
    lines: [...top, ...scrolledLines(model, text, room, model.cursor.scroll)],
    scrollMax: max,
  }
}

/** Draws everything. Pure: the same model gives the same lines. */
export function frame(model: Model): Frame {
  const { columns, rows } = model.size
  const small = columns < LEAST.columns || rows < LEAST.rows
  const height = Math.max(1, rows - 1)
  // Always two lines for the keys, so that nothing moves when their number changes.
  const bodyHeight = Math.max(3, height - 3 - 2)
  const wide = columns >= WIDE && model.cursor.mode === 'job'
  const side = wide ? Math.min(64, Math.floor(columns * 0.36)) : 0
  const bodyColumns = Math.min(wide ? columns - side - 3 : columns, 140)
  const drawn =
    model.cursor.mode === 'job'
      ? drawJob(model, bodyColumns, bodyHeight)
      : drawPane(model, bodyColumns, bodyHeight)
  const bar = keyBar(model, columns, 2, drawn.scrollMax > model.cursor.scroll)
  const body = wide ? sidePanel(model, drawn.lines, columns - side - 3, side, bodyHeight) : drawn.lines
  const filler = Array.from({ length: Math.max(0, bodyHeight - body.length) }, () => BLANK)
  const whole = small
    ? model.words.tooSmall(columns, rows).flatMap((t) => sayLines(model, t, columns))
    : [header(model), rule(model), ...body, ...filler, messageLine(model), ...bar, BLANK].slice(0, height)
  return {
    lines: whole.slice(0, height).map((l) => cutLine(l, columns, marksOf(model).cut)),
    facts: factsOf(model, drawn),
  }
}

function factsOf(model: Model, drawn: Drawn): Facts {
  const { view } = model
  const counted = model.cursor.mode === 'trail' ? trailRows(model, model.size.columns) : []
  // What hands have done stays done: only answers can be taken back.
  const standing = view.trail.filter((e) => !e.undone && e.prompt.show === 'ask').map((e) => e.seq)
  return {
    kind: kindOf(view.prompt),
    rows: drawn.rows,
    map: drawn.map,
    scrollMax: drawn.scrollMax,
    page: drawn.page,
    seqs:
      model.cursor.mode === 'trail'
        ? counted.map((r) => r.seq).filter((s) => standing.includes(s))
        : standing,
    canUndo: view.canUndo,
    picture: hasPicture(model),
    told: view.told.length > 0,
    folded: canFold(view) ? view.folded : null,
    signs: view.prompt?.show === 'do' && view.prompt.task === 'sign-off' ? (view.who ?? '') : null,
  }
}
