/**
 * The first line: power, always at the same place, in words and in shape; where the hands are; how far the job is. On
 * narrow screens the symptom gives way first, then how far the job is; power and hands never.
 */
import { powerUnknown } from '../../job/power-unknown.ts'
import { type Line, line, lineWidth, span, spread } from '../text/line.ts'
import { width } from '../text/width.ts'
import { type Model, marksOf, say } from './model.ts'

export function header(model: Model): Line {
  const { view, words, language } = model
  const marks = marksOf(model)
  const on = view.power === 'on'
  // What nobody knows is treated as on.
  const chip = powerUnknown(view)
    ? `[${marks.on} ${words.powerUnknown}]`
    : `[${on ? marks.on : marks.off} ${words.power[view.power]}${on ? ' ' : ''}]`
  const narrow = model.size.columns < 80
  const hands = narrow ? words.handsShort[view.hands] : words.hands[view.hands]
  const power: Line = line(
    span(chip, on ? 'picked' : 'strong'),
    span(`  ${hands}`, view.hands === 'in' ? 'strong' : 'plain'),
  )
  const fits = (text: string): boolean => lineWidth(power) + width(say(model, text)) + 2 <= model.size.columns
  const far = farTexts(model).find(fits) ?? ''
  const right = line(span(say(model, far), 'strong'))
  const symptom = say(
    model,
    view.opened ? language.symptom(view.opened).name : language.symptoms(view.symptoms),
  )
  // A name that is cut tells less than none.
  const named = line(...power, span(`   ${symptom}`, 'dim'))
  const left = lineWidth(named) + lineWidth(right) + 2 <= model.size.columns ? named : power
  return spread(left, right, model.size.columns, marks.cut)
}

/** How far the job is, in full and shorter. */
function farTexts({ view, words, language: { labels } }: Model): readonly string[] {
  if (view.end) return [labels.outcome[view.end.outcome]]
  const walk = view.opened === null ? view.walk : null
  const far = walk ? words.walked(walk.n, walk.of) : labels.left(view.left)
  if (view.minutes === 0) return [far]
  const short = walk ? far : words.farShort(view.left, view.minutes)
  return [`${far}, ${words.spent(labels.minutes(view.minutes))}`, short]
}

export const rule = (model: Model, columns = model.size.columns): Line =>
  line(span(marksOf(model).rule.repeat(Math.max(0, columns)), 'dim'))
