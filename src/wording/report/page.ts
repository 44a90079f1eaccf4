/**
 * A report as a page of plain blocks: headings, facts, lists, tables, commands. Markdown and HTML are made from the
 * same page, so they say the same. `short` leaves out the inner workings, for a customer.
 */
import { cautionsInFull } from '../../job/drive/cautions.ts'
import { clean } from '../clean.ts'
import { shellWord } from '../shell-word.ts'
import type { Block, PageMatter } from './block.ts'
import { bootBlocks } from './boot.ts'
import { facts, isClosed, isToGet, left, repair, result, seen } from './result.ts'
import { path, toldNotes } from './steps.ts'
import { suspectsOverTime } from './suspects.ts'
import type { ReportWords } from './words.ts'

export function reportPage(matter: PageMatter): Block[] {
  const { report, language, words } = matter
  const page: Block[] = [
    { is: 'title', text: words.title(clean(report.build), language.symptoms(report.symptoms)) },
    { is: 'facts', facts: facts(matter) },
    section(words, 'result'),
    ...result(matter),
    ...bootBlocks(matter),
    section(words, 'seen'),
    ...seen(matter),
    section(words, 'repair'),
    ...repair(matter),
  ]
  if (!isClosed(report) || !matter.short) page.push(section(words, 'left'), ...left(matter))
  if (matter.short) return page
  page.push({ is: 'wiring' })
  if (report.notes.length > 0)
    page.push(section(words, 'notes'), {
      is: 'list',
      items: report.notes.map((note) => `${matter.language.labels.moment(note.at)}: ${clean(note.text)}`),
    })
  page.push(section(words, 'path'), ...path(matter))
  const suspects = suspectsOverTime(matter)
  if (suspects.length > 0) page.push(section(words, 'suspects'), ...suspects)
  const fromPlan = told(matter)
  if (fromPlan.length > 0) page.push(section(words, 'plan'), { is: 'list', items: fromPlan })
  page.push(section(words, 'cautions'), ...cautions(matter))
  page.push(section(words, 'goingOn'), ...goingOn(matter))
  page.push(section(words, 'log'), ...aboutLog(matter))
  return page
}

const section = (words: ReportWords, id: keyof ReportWords['section']): Block => ({
  is: 'section',
  id,
  text: words.section[id],
})

/** Cautions have a section of their own, the points of a first boot too. */
const TOLD_ELSEWHERE: ReadonlySet<string> = new Set(['caution', 'expect', 'opens', 'returns'])

/** Findings, cross-checks, what did not fit together. */
const told = (matter: PageMatter): string[] =>
  toldNotes(matter, (note) => !TOLD_ELSEWHERE.has(note.kind) && !isToGet(note))

/** What every page that somebody may work from carries, and what the job showed besides. */
function cautions({ report, language, scene }: PageMatter): Block[] {
  const shown = report.steps.flatMap(({ prompt }) => (prompt.show === 'do' ? prompt.cautions : []))
  const ids = [...new Set([...cautionsInFull(scene.plan), ...shown])]
  return [
    {
      is: 'list',
      items: ids.map((id) => {
        const { title, lines } = language.caution(id)
        return `${title}. ${lines.join(' ')}`
      }),
    },
  ]
}

function goingOn({ report, words, log }: PageMatter): Block[] {
  const file = shellWord(clean(log))
  const blocks: Block[] = []
  if (report.ended === undefined)
    blocks.push({ is: 'text', text: words.takeUp }, { is: 'command', text: `whichlead resume ${file}` })
  blocks.push({ is: 'text', text: words.again }, { is: 'command', text: `whichlead report ${file}` })
  if (!isClosed(report)) blocks.push({ is: 'text', text: words.withoutTool })
  return blocks
}

function aboutLog({ report, words, logWords, language }: PageMatter): Block[] {
  const items = report.pauses.map((pause) => words.pause(pause, (at) => language.labels.moment(at)))
  items.push(...report.problems.map(logWords.problem))
  if (report.beyond > 0) items.push(words.beyond(report.beyond))
  if (report.problems.length === 0) items.push(words.intact)
  return [{ is: 'list', items }]
}
