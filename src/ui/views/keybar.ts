/** The keys that work here, most needed first; the bar shows as many as fit on its two lines, help shows all. */
import type { KeyName } from '../../wording/screen.ts'
import { hasPicture } from '../pictures/connector.ts'
import { kindOf } from '../state/rows.ts'
import { type Line, line, lineWidth, type Span, span } from '../text/line.ts'
import { type Model, say } from './model.ts'
import { canFold } from './told.ts'

export interface KeyHint {
  readonly cap: string
  readonly name: KeyName
}

const key = (cap: string, name: KeyName): KeyHint => ({ cap, name })

const jobKeys = (model: Model, more: boolean): KeyHint[] => {
  const { view } = model
  const kind = kindOf(view.prompt)
  if (kind === 'ended')
    return [key('Enter', 'take-exit'), key('p', 'trail'), key('e', 'expected'), key('d', 'wiring')]
  const asks = kind === 'one' || kind === 'many'
  return [
    key(
      'Enter',
      kind === 'one' ? 'take-answer' : kind === 'many' ? 'take-marks' : more ? 'take-more' : 'take-done',
    ),
    ...(kind === 'many' ? [key('Space', 'mark'), key('a', 'mark-all')] : []),
    key(model.ascii ? '^v' : '↑↓', 'move'),
    ...(asks ? [key('c', 'unsure')] : []),
    key('x', 'cannot'),
    key('w', 'why'),
    key('p', 'trail'),
    ...(view.canUndo ? [key('u', 'undo')] : []),
    key('n', 'note'),
    key('?', 'help'),
    key('q', 'leave'),
    ...(hasPicture(model) ? [key('v', 'picture')] : []),
    key('d', 'wiring'),
    key('e', 'expected'),
    ...(view.told.length > 0 ? [key('m', 'told')] : []),
    ...(canFold(view) ? [key('f', view.folded ? 'unfold' : 'fold')] : []),
    ...(asks ? [key('/', 'filter')] : []),
    key('h', 'hand-over'),
    key('r', 'reading'),
  ]
}

/** Every key that does something now, in the order of need; `more` tells that there is text below. */
export function keysHere(model: Model, more = false): KeyHint[] {
  const { cursor, view } = model
  if (cursor.filtering) return [key('Enter', 'take-filter'), key('Esc', 'escape')]
  switch (cursor.mode) {
    case 'job':
      return jobKeys(model, more)
    case 'note':
      return [key('Enter', 'take-note'), key('Esc', 'escape')]
    case 'sign':
      return [key('Enter', 'take-sign'), key('Esc', 'escape')]
    case 'reading':
      return [key('Enter', 'take-reading'), key('Esc', 'escape')]
    case 'leave':
    case 'hand-over':
    case 'take-back':
      return [key('Enter', 'take-yes'), key('Esc', 'no')]
    case 'told':
      return [
        key('Enter', more ? 'take-more' : 'take-on'),
        key(model.ascii ? '^v' : '↑↓', 'scroll'),
        ...(canFold(view) ? [key('f', view.folded ? 'unfold' : 'fold')] : []),
        key('Esc', 'escape'),
        key('?', 'help'),
      ]
    case 'trail':
      return [
        key(model.ascii ? '^v' : '↑↓', 'move'),
        ...(view.trail.length > 0 && view.canUndo ? [key('u', 'take-back')] : []),
        key('/', 'filter'),
        key('Esc', 'escape'),
      ]
    default:
      return [
        key(model.ascii ? '^v' : '↑↓', 'scroll'),
        ...(cursor.mode === 'wiring' ? [key('/', 'filter')] : []),
        key('Esc', 'escape'),
      ]
  }
}

/** Without these two nobody finds the rest, or the way out. */
const KEPT: readonly KeyName[] = ['help', 'leave']

/** The bar in at most `most` lines: the last keys give way, `?` and `q` never. */
export function keyBar(model: Model, columns: number, most: number, more: boolean): Line[] {
  let keys = keysHere(model, more)
  for (;;) {
    const lines = barLines(model, keys, columns)
    const last = keys.findLast((k) => !KEPT.includes(k.name))
    if (lines.length <= most || last === undefined) return lines.slice(0, most)
    keys = keys.filter((k) => k !== last)
  }
}

function barLines(model: Model, keys: readonly KeyHint[], columns: number): Line[] {
  const lines: Span[][] = [[]]
  for (const { cap, name } of keys) {
    const item = [span(cap, 'strong'), span(` ${say(model, model.words.key[name])}`)]
    const current = lines.at(-1) ?? []
    const gap = current.length > 0 ? 2 : 0
    if (lineWidth([...current, ...item]) + gap > columns) lines.push(item)
    else current.push(...(gap > 0 ? [span('  ')] : []), ...item)
  }
  return lines.map((l) => line(...l))
}
