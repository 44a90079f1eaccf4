/**
 * A job as it went, page by page, for teaching: what was told, what was asked or to be done, what was answered, and
 * what was suspected after it. Made from the report of its log, so it says what the report says, in the order of the job.
 */
import type { Report, ReportStep, Telling } from '../job/report/record.ts'
import { clean } from './clean.ts'
import type { Language, Scene } from './language.ts'
import { ranked } from './report/suspects.ts'
import type { ReportWords } from './report/words.ts'

export interface ReplayMatter {
  readonly report: Report
  readonly language: Language
  readonly words: ReportWords
  readonly scene: Scene
}

/** First what job it is, then a page a step, then the end. */
export function replayPages(matter: ReplayMatter): string[][] {
  const { report, language, words } = matter
  const last = report.toldLast.flatMap((t) => toldLines(t, matter))
  const minutes = language.labels.minutes(report.minutes)
  return [
    [words.title(clean(report.build), language.symptoms(report.symptoms))],
    ...report.steps.map((step) => stepPage(step, matter)),
    [...last, `${words.ended[report.outcome]} (${minutes})`, ...standing(report.suspects, matter)],
  ]
}

const toldLines = ({ record, text }: Telling, { language, scene }: ReplayMatter): string[] => {
  if (text !== undefined) return [clean(text)]
  return record.show === 'note' ? language.note(record, scene) : language.verdict(record, scene)
}

function stepPage(step: ReportStep, matter: ReplayMatter): string[] {
  const { language, words } = matter
  const { prompt } = step
  const power = language.labels.power[prompt.power]
  const head = `${language.labels.step} ${step.step}. ${words.figure(step.prompt.minutes)} min, ${power}, ${language.labels.hands[prompt.hands]}.`
  return [
    ...step.told.flatMap((t) => toldLines(t, matter)),
    head,
    ...wanted(step, matter),
    `  = ${replyText(step, matter)}${mark(step, words)}`,
    ...step.notes.map((n) => `  ${language.labels.note}: ${clean(n.text)}`),
    ...standing(step.suspects, matter).map((line) => `  ${line}`),
  ]
}

function wanted({ prompt, text, answers }: ReportStep, { language, scene }: ReplayMatter): string[] {
  if (prompt.show === 'do') {
    if (text !== undefined) return [clean(text)]
    const step = language.step(prompt, scene)
    return [step.title, ...step.lines.map((l) => `  ${l}`)]
  }
  const title = text === undefined ? language.question(prompt, scene).title : clean(text)
  // A look over everything has a mark for each thing and way; which were chosen is enough.
  if (prompt.many) return [title]
  const ids = 'about' in prompt ? prompt.choices : prompt.answers.map((a) => a.id)
  return [title, ...ids.map((id) => `  - ${clean(answers?.[id] ?? language.answer(prompt, id, scene))}`)]
}

function replyText({ prompt, reply, answers }: ReportStep, { language, words, scene }: ReplayMatter): string {
  if (typeof reply === 'string') return words.reply[reply]
  if (reply.length === 0 || prompt.show === 'do') return words.reply.none
  return language.list(reply.map((id) => clean(answers?.[id] ?? language.answer(prompt, id, scene))))
}

const mark = (step: ReportStep, words: ReportWords): string =>
  step.undone ? ` (${words.takenBack})` : step.read === undefined ? '' : ` (${words.byReading})`

function standing(suspects: ReportStep['suspects'], { language, scene }: ReplayMatter): string[] {
  return ranked(suspects)
    .named.slice(0, 3)
    .map((s) => `${language.labels.percent(s.p).padStart(6)}  ${language.suspect(s, scene)}`)
}
