/**
 * The first line: power, always at the same place, in words and in shape; where the hands are; how far the job is. On
 * narrow screens the symptom gives way, never the power.
 */
import { type Line, line, lineWidth, span, spread } from '../text/line.ts'
import { type Model, marksOf, say } from './model.ts'

export function header(model: Model): Line {
  const { view, words, language } = model
  const marks = marksOf(model)
  const on = view.power === 'on'
  // Before a first boot nobody knows; it is treated as on.
  const unknown = view.prompt?.show === 'do' && view.prompt.task === 'never-on'
  const chip = unknown
    ? `[${marks.on} ${words.powerUnknown}]`
    : `[${on ? marks.on : marks.off} ${words.power[view.power]}${on ? ' ' : ''}]`
  const narrow = model.size.columns < 80
  const hands = narrow ? words.handsShort[view.hands] : words.hands[view.hands]
  const power: Line = line(
    span(chip, on ? 'picked' : 'strong'),
    span(`  ${hands}`, view.hands === 'in' ? 'strong' : 'plain'),
  )
  const minutes = language.labels.minutes(view.minutes)
  const far = view.end
    ? language.labels.outcome[view.end.outcome]
    : view.walk && view.opened === null
      ? words.walked(view.walk.n, view.walk.of, narrow ? null : minutes)
      : view.minutes === 0
        ? language.labels.left(view.left)
        : narrow
          ? words.farShort(view.left, view.minutes)
          : `${language.labels.left(view.left)}, ${minutes}`
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

export const rule = (model: Model, columns = model.size.columns): Line =>
  line(span(marksOf(model).rule.repeat(Math.max(0, columns)), 'dim'))
