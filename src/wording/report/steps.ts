/** The steps of a job in a report: what was asked, what was answered, and the table of all of them. */
import type { Note } from '../../core/checks/prompt.ts'
import type { ReportStep } from '../../job/report/record.ts'
import { clean } from '../clean.ts'
import { figuresIn } from '../localised.ts'
import { grouped, sharedValue } from './alike.ts'
import type { Block, Cell, PageMatter } from './block.ts'
import type { ReportWords } from './words.ts'

export const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

export const flat = (text: string): string => clean(text)

/** What was asked or to be done, as it is put today. */
export function promptWords(prompt: ReportStep['prompt'], { language, scene }: PageMatter): string {
  if (prompt.show === 'ask') return language.question(prompt, scene).title
  const { title, lines } = language.step(prompt, scene)
  return [title, ...(prompt.edits.length > 1 ? lines : [])].join(' ')
}

/** Notes of the program itself, each once. */
export function toldNotes(
  { report, language, scene }: PageMatter,
  isWanted: (note: Note) => boolean,
): string[] {
  const all = [...report.steps.flatMap((step) => step.told), ...report.toldLast]
  const lines = all.flatMap(({ record, text }) =>
    record.show === 'note' && isWanted(record)
      ? [text === undefined ? language.note(record, scene).map(clean).join(' ') : flat(text)]
      : [],
  )
  return [...new Set(lines)]
}

/** As it was shown, where the log has it. */
export const asked = (step: ReportStep, matter: PageMatter): string =>
  step.text === undefined ? promptWords(step.prompt, matter) : flat(step.text)

/** The reply in words; as it was shown then, where the log has that. */
export function replied(
  { prompt, reply, answers }: ReportStep,
  { language, words, scene }: PageMatter,
): string {
  if (typeof reply === 'string') return words.reply[reply]
  if (reply.length === 0) return words.reply.none
  if (answers === undefined && prompt.show === 'ask' && prompt.many && reply.length > 1) {
    const marks = prompt.marks.filter((m) => reply.includes(m.id))
    const groups = grouped(marks, (m) => `${m.observe.what} ${m.value}`)
    return groups.map((alike) => upper(clean(sharedValue(alike, prompt.power, language, scene)))).join('; ')
  }
  const one = (id: string): string => {
    const shown = answers?.[id]
    if (shown !== undefined) return flat(shown)
    return prompt.show === 'ask' ? language.answer(prompt, id, scene) : clean(id)
  }
  return language.list(reply.map(one))
}

/** The table of all steps, those taken back too. */
export function path(matter: PageMatter): Block[] {
  const { report, words } = matter
  const { table } = words
  let day = ''
  const rows = report.steps.map((step): Cell[] => {
    const [date, clock] = [figuresIn(matter.language).day(step.at), figuresIn(matter.language).clock(step.at)]
    // The date once a day is enough; the clock says the rest.
    const time = date === day ? clock : `${date}\n${clock}`
    day = date
    const struck = step.undone ? { struck: true as const } : {}
    const minutes = words.figure(step.read === undefined ? step.prompt.minutes : 0)
    return [
      { text: String(step.step), right: true },
      { text: time, fixed: true },
      { text: asked(step, matter), ...struck },
      { text: replied(step, matter), ...struck, ...after(step, words) },
      { text: minutes, right: true, ...struck },
    ]
  })
  const head: Cell[] = [
    { text: table.step, right: true },
    { text: table.time },
    { text: table.asked },
    { text: table.answer },
    { text: table.minutes, right: true },
  ]
  const blocks: Block[] = [{ is: 'table', head, rows }]
  if (report.steps.some((step) => step.undone)) blocks.push({ is: 'text', text: words.struck })
  return blocks
}

const after = (step: ReportStep, words: ReportWords): { after?: string } =>
  step.undone ? { after: words.takenBack } : step.read === undefined ? {} : { after: words.byReading }
