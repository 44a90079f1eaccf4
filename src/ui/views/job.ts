/**
 * The prompt itself: what was told, what to do or look at, where, and the rows to choose from. The question and the
 * highlighted row are always there; what is left of the height goes first to the answers, then to where it is, to hints
 * and to remarks.
 */

import { probeLines } from '../pictures/connector.ts'
import type { Facts } from '../state/facts.ts'
import { highlighted } from '../state/moves.ts'
import { kindOf, type Row, rowsOf } from '../state/rows.ts'
import { BLANK, beside, type Line, line, lineWidth, span } from '../text/line.ts'
import { answerRows, filterLine, filterRows } from './answers.ts'
import { caseMap } from './case-map.ts'
import { markLines } from './marked.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'
import { spotList } from './spot-list.ts'
import { stepLines } from './step.ts'
import { toldNeedsPage, toldShort } from './told.ts'
import { whereLines } from './where.ts'
import { aroundRow, scrolledLines, scrollMax } from './window.ts'

/** Lines, and what a key needs to know of them. */
export interface Drawn {
  readonly lines: readonly Line[]
  readonly rows: readonly Row[]
  readonly map: Facts['map']
  readonly scrollMax: number
  readonly page: number
}

interface Asked {
  readonly title: Line[]
  readonly again: Line[]
  /** Each whole or not at all, the first first. */
  readonly hints: Line[][]
}

function asked(model: Model, columns: number): Asked {
  const { prompt, end } = model.view
  const { language, view } = model
  if (prompt === null) {
    const [first = '', ...rest] = end ? language.end(end, view) : []
    return {
      title: sayLines(model, first, columns, 'strong'),
      again: rest.flatMap((l) => sayLines(model, l, columns)),
      hints: [],
    }
  }
  if (prompt.show === 'do')
    return {
      title: sayLines(model, language.step(prompt, view).title, columns, 'strong'),
      again: [],
      hints: [],
    }
  const q = language.question(prompt, view)
  return {
    title: sayLines(model, q.title, columns, 'strong'),
    again: q.again ? sayLines(model, q.again, columns, 'strong', `${marksOf(model).warn} `) : [],
    hints: q.hints.map((h) => sayLines(model, h, columns, 'dim')),
  }
}

/** What the rows need when all is shown, and the least that is of use. */
interface Body {
  readonly full: number
  readonly least: number
  draw(height: number): Omit<Drawn, 'rows'>
}

const still = (lines: Line[]): Omit<Drawn, 'rows'> => ({ lines, map: {}, scrollMax: 0, page: lines.length })

function answersBody(model: Model, rows: readonly Row[], columns: number): Body {
  const blocks = answerRows(model, rows, columns)
  const current = highlighted(model.cursor, rows)
  const at = Math.max(0, current ? rows.indexOf(current) : 0)
  const alone = blocks.reduce((sum, b) => sum + b.length, 0)
  // Short answers leave room for the connector beside them.
  const wide = Math.max(0, ...blocks.flat().map(lineWidth)) + 3
  const picture = probeLines(model, columns - wide - 1)
  const full = Math.max(alone, picture.lines.length)
  return {
    full,
    least: Math.min(full, Math.max(5, (blocks[at]?.length ?? 1) + 2)),
    draw: (height) => {
      const list = aroundRow(model, blocks, at, height)
      const drawn = picture.lines.length > 0 && picture.least <= height
      return still(drawn ? beside(list, picture.lines.slice(0, height), wide, ' ') : list)
    },
  }
}

function spotsBody(model: Model, rows: readonly Row[], columns: number): Body {
  const wide = Math.min(columns, 100)
  const map = caseMap(model, rows, wide, Number.POSITIVE_INFINITY)
  return {
    full: map ? map.lines.length : rows.length,
    least: Math.min(rows.length, 6),
    draw: (height) => {
      if (map && map.lines.length <= height)
        return { lines: map.lines, map: map.places, scrollMax: 0, page: height }
      return { ...spotList(model, rows, columns, height), scrollMax: 0, page: height }
    },
  }
}

function stepBody(model: Model, rows: readonly Row[], columns: number): Body {
  const { prompt } = model.view
  const text = prompt?.show === 'do' ? stepLines(model, prompt, columns) : []
  const waiting = prompt?.show === 'do' && prompt.purpose === 'gate' && !model.cursor.settled
  // A gate that has just come up takes no answer yet, and shows none.
  const below = waiting
    ? [line(span(`  ${say(model, model.words.settling)}`, 'dim')), ...rows.slice(1).map(() => BLANK)]
    : answerRows(model, rows, columns).flat()
  const gap = text.length > 0 ? [BLANK] : []
  return {
    full: text.length + gap.length + below.length,
    least: Math.min(text.length + gap.length + below.length, 4 + below.length),
    draw: (height) => {
      const room = Math.max(1, height - below.length - gap.length)
      const max = scrollMax(text.length, room)
      return {
        lines: [...scrolledLines(model, text, room, model.cursor.scroll), ...gap, ...below],
        map: {},
        scrollMax: max,
        page: room,
      }
    },
  }
}

function bodyOf(model: Model, rows: readonly Row[], columns: number): Body {
  const { prompt } = model.view
  if (prompt?.show === 'do') return stepBody(model, rows, columns)
  if (prompt?.show === 'ask' && prompt.many) return spotsBody(model, rows, columns)
  return answersBody(model, rows, columns)
}

/** The prompt in `columns` and exactly at most `height` lines. */
export function drawJob(model: Model, columns: number, height: number): Drawn {
  const all = rowsOf(model.view.prompt)
  const rows = filterRows(model, all)
  const { title, again, hints } = asked(model, columns)
  const body = bodyOf(model, rows, columns)
  const question = title.slice(0, Math.max(2, Math.floor(height / 2)))
  const told = toldShort(model, columns)
  const where = (most: number): Line[] => whereLines(model, columns, most)
  const filter = filterLine(model)
  const marked =
    kindOf(model.view.prompt) === 'many' ? markLines(model, rows, all, Math.min(columns, 100)) : []
  let room = height - question.length - filter.length - marked.length - body.least
  const give = (lines: Line[], cut = false): Line[] => {
    const taken = lines.length <= room ? lines : cut ? lines.slice(0, Math.max(0, room)) : []
    room -= taken.length
    return taken
  }
  // A gate concerns the whole machine, no lead.
  const placed = kindOf(model.view.prompt) !== 'gate'
  const givenWhere = placed && room >= 1 ? give(where(Math.min(room, 4)), true) : []
  const givenAgain = give(again, true)
  const { toldMore, toldAgain } = model.words
  const toldText = (model.cursor.toldRead ? toldAgain : toldMore)(model.view.told.length)
  const toldLine = told.length > 0 ? [line(span(say(model, toldText), 'dim'))] : []
  // What has been read on a page of its own stands here once more only where everything else has its room too.
  const unused = room - (body.full - body.least) - hints.flat().length - 2
  const spare = toldNeedsPage(model) ? unused : Math.max(unused, Math.min(room, 6))
  const givenTold = told.length > 0 && told.length <= spare ? give(told) : give(toldLine)
  const givenHints = hints.flatMap((hint) => give(hint))
  const extra = Math.max(0, Math.min(room, body.full - body.least))
  room -= extra
  const gap = (): Line[] => give([BLANK])
  const [gapBody, gapWhere, gapTold] = [gap(), gap(), gap()]
  const drawn = body.draw(body.least + extra)
  const lines = [
    ...givenTold,
    ...(givenTold.length > 0 ? gapTold : []),
    ...question,
    ...givenAgain,
    ...givenHints,
    ...(givenWhere.length > 0 ? gapWhere : []),
    ...givenWhere,
    ...filter,
    ...gapBody,
    ...drawn.lines,
    ...marked,
  ]
  return { ...drawn, lines: lines.slice(0, height), rows }
}
