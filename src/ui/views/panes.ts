/** What lies over the prompt: reasons, the path so far, help, remarks, and the questions before something ends. */
import { connectorLines } from '../pictures/connector.ts'
import { BLANK, type Line, line, paragraph, span } from '../text/line.ts'
import { expectedLines } from './expected.ts'
import { keysHere } from './keybar.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'
import { takeBackLines } from './take-back.ts'
import { toldLines } from './told.ts'
import { wiringLines } from './wiring.ts'

/** The text of a pane, wrapped to `columns`; the path so far has its rows in `trailRows`. */
export function paneLines(model: Model, columns: number): Line[] {
  const { cursor, words, view, language } = model
  const texts = (lines: readonly string[]): Line[] => lines.flatMap((t) => sayLines(model, t, columns))
  switch (cursor.mode) {
    case 'told':
      return view.told.length > 0 ? toldLines(model, columns) : texts([words.nothingTold])
    case 'why':
      return whyLines(model, columns)
    case 'help':
      return helpLines(model, columns)
    case 'note':
      return [...texts([words.noteHow]), BLANK, ...paragraph(`${cursor.note}_`, columns, 'strong', '> ')]
    case 'sign':
      return [...texts([words.signHow]), BLANK, ...paragraph(`${cursor.note}_`, columns, 'strong', '> ')]
    case 'reading':
      return [
        ...paragraph(`${cursor.reading}_`, columns, 'strong', '> '),
        BLANK,
        ...(cursor.unread === '' ? [] : [...texts([cursor.unread]), BLANK]),
        ...texts(words.readingHow),
      ]
    case 'leave':
      return texts(words.leaveHow(view.log))
    case 'hand-over':
      return [...texts(words.handOverHow), BLANK, ...texts(language.handingOver(view))]
    case 'take-back':
      return takeBackLines(model, columns)
    case 'wiring':
      return wiringLines(model, columns)
    case 'picture':
      return connectorLines(model, columns)
    case 'expected':
      return expectedLines(model, columns)
    case 'trail':
    case 'job':
      return []
  }
}

/** Reasons: lines that end in a colon are heads. */
function whyLines(model: Model, columns: number): Line[] {
  if (!model.why) return sayLines(model, model.words.said['not-here'], columns)
  return model.language
    .why(model.why, model.view)
    .flatMap((text, i) =>
      /:$/.test(text) && !/^ /.test(text)
        ? [BLANK, ...sayLines(model, text, columns, 'strong')]
        : sayLines(model, text, columns, i === 0 ? 'strong' : 'plain'),
    )
}

function helpLines(model: Model, columns: number): Line[] {
  const keys = keysHere({ ...model, cursor: { ...model.cursor, mode: 'job' } }).filter(
    (k) => k.name !== 'help',
  )
  const terms = model.language
    .terms(model.view)
    .flatMap((term) => sayLines(model, term, columns, 'plain', `${marksOf(model).bullet} `))
  return [
    ...terms,
    ...(terms.length > 0 ? [BLANK] : []),
    ...keys.flatMap(({ cap, name }) =>
      sayLines(model, model.words.help[name] ?? model.words.key[name], columns, 'plain', cap.padEnd(7)),
    ),
  ]
}

/** The path so far, one block a step, with notes; taken-back ones keep their place, struck out by a mark. */
export function trailRows(model: Model, columns: number): { readonly seq: number; readonly lines: Line[] }[] {
  const marks = marksOf(model)
  const wanted = model.cursor.filter.trim().toLocaleLowerCase()
  return model.view.trail
    .map((e) => ({ e, text: model.language.trail(e, model.view) }))
    .filter(({ text }) => text.toLocaleLowerCase().includes(wanted))
    .map(({ e, text }) => {
      const picked = e.seq === model.cursor.seq
      const lead = `${picked ? marks.pointer : ' '}${e.undone ? marks.struck : ' '} `
      const said = paragraph(say(model, text), columns, picked ? 'picked' : e.undone ? 'dim' : 'plain', lead)
      const notes = e.notes.flatMap((note) => sayLines(model, note, columns, 'dim', `    ${marks.bullet} `))
      return { seq: e.seq, lines: [...said, ...notes] }
    })
}

export const emptyTrail = (model: Model): Line[] => [line(span(say(model, model.words.trailEmpty), 'dim'))]
