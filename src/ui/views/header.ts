/**
 * The first line: power, always at the same place, in words and in shape; where the hands are; how far the job is. On
 * narrow screens how far the job is gets shorter first, then the symptom gives way, then that; power and hands never.
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
  const symptom = say(
    model,
    view.opened ? language.symptom(view.opened).name : language.symptoms(view.symptoms),
  )
  // A name that is cut tells less than none.
  const named = line(...power, span(`   ${symptom}`, 'dim'))
  const texts = farTexts(model).map((text) => say(model, text))
  const behind = (left: Line): string | undefined =>
    texts.find((text) => lineWidth(left) + width(text) + 2 <= model.size.columns)
  const far = behind(named)
  const right = line(span(far ?? behind(power) ?? '', 'strong'))
  return spread(far === undefined ? power : named, right, model.size.columns, marks.cut)
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
