/**
 * A report as a page of plain blocks: headings, facts, lists, tables, commands. Markdown and HTML are made from the
 * same page, so they say the same. `short` leaves out the inner workings, for a customer.
 */
import type { Suspect } from '../core/checks/prompt.ts'
import { NONE_OF_THESE } from '../core/faults/fault.ts'
import type { Ranking, Report, ReportStep } from '../job/report/record.ts'
import { clean } from './clean.ts'
import type { Language, Scene } from './language.ts'
import { figuresIn } from './localised.ts'
import { type Alike, alikeIn, grouped, sharedValue } from './report-alike.ts'
import { bootBlocks } from './report-boot.ts'
import type { LogWords, ReportWords } from './report-words.ts'

export interface Cell {
  readonly text: string
  readonly struck?: true
  /** Said in brackets after a struck text, itself not struck. */
  readonly after?: string
  /** Figures stand to the right. */
  readonly right?: true
  /** Broken at its line ends and nowhere else. */
  readonly fixed?: true
}

export type Block =
  | { readonly is: 'title'; readonly text: string }
  | { readonly is: 'section'; readonly id: keyof ReportWords['section']; readonly text: string }
  | { readonly is: 'facts'; readonly facts: readonly (readonly [label: string, value: string])[] }
  | { readonly is: 'text'; readonly text: string; readonly strong?: true }
  | { readonly is: 'list'; readonly items: readonly string[]; readonly numbered?: true }
  | { readonly is: 'table'; readonly head: readonly Cell[]; readonly rows: readonly (readonly Cell[])[] }
  | { readonly is: 'command'; readonly text: string }
  /** A drawing beside which the same stands in words. */
  | { readonly is: 'chart'; readonly rankings: readonly Ranking[] }
  | { readonly is: 'wiring' }

export interface PageMatter {
  readonly report: Report
  readonly log: string
  readonly language: Language
  readonly words: ReportWords
  readonly logWords: LogWords
  readonly scene: Scene
  /** For a customer: result, what was seen, repair and proof. */
  readonly short?: boolean
}

/** Suspects under this are counted together. */
const WORTH_NAMING = 0.02
const NAMED = 5

/** What every page that somebody may work from carries, besides what the job showed. */
const ALWAYS_BEWARE = [
  'shut-down-full',
  'live-plugging',
  'never-open-supply',
  'five-volt-on-twelve',
  'manuals-first',
]

export function reportPage(matter: PageMatter): Block[] {
  const { report, language, words } = matter
  const page: Block[] = [
    { is: 'title', text: words.title(clean(report.build), language.symptoms(report.symptoms)) },
    { is: 'facts', facts: facts(matter) },
    section(words, 'result'),
    ...result(matter),
    ...bootBlocks(matter, (step) => replied(step, matter)),
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
  if (report.rankings.length > 0) page.push(section(words, 'suspects'), ...suspectsOverTime(matter))
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

const isClosed = (report: Report): boolean => report.outcome === 'fixed' || report.outcome === 'nothing-wrong'

const isNone = (suspect: Suspect): boolean =>
  suspect.faults.length === 1 &&
  suspect.faults[0]?.at === NONE_OF_THESE.at &&
  suspect.faults[0].mode === NONE_OF_THESE.mode

function facts({ report, language, words, scene, log, short }: PageMatter): (readonly [string, string])[] {
  const [first] = report.suspects
  const named = first !== undefined && report.outcome !== 'nothing-wrong' && !isNone(first)
  const cause = named ? names(first, language, scene) : ''
  const head = words.head
  const all: (readonly [string, string])[] = [[head.outcome, words.outcome[report.outcome]]]
  if (named)
    all.push(
      report.outcome === 'fixed'
        ? [head.cause, cause]
        : [head.likely, `${cause} (${language.labels.percent(first.p)})`],
    )
  all.push([head.build, clean(report.build)], [head.began, language.labels.moment(report.began, true)])
  if (report.ended !== undefined) all.push([head.ended, language.labels.moment(report.ended, true)])
  all.push([head.minutes, language.labels.minutes(report.minutes)])
  if (report.who !== undefined) all.push([head.who, clean(report.who)])
  if (report.where !== undefined) all.push([head.where, clean(report.where)])
  if (short) return all
  return [
    ...all,
    [head.plan, `${clean(report.plan.file)} (SHA-256 ${report.plan.digest.slice(0, 12)}…)`],
    [head.log, clean(log)],
    [head.tools, report.tools.map((tool) => `whichlead ${clean(tool)}`).join(', ')],
  ]
}

const names = (suspect: Suspect, language: Language, scene: Scene): string =>
  upper(language.list(suspect.faults.map((fault) => language.fault(fault, scene).name)))

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function result({ report, language, words, scene }: PageMatter): Block[] {
  const blocks: Block[] = [{ is: 'text', text: words.ended[report.outcome], strong: true }]
  const [first] = report.suspects
  if (first === undefined || report.outcome === 'nothing-wrong') return blocks
  if (report.outcome !== 'fixed' && first.p < 0.5) return blocks
  const said = first.faults.map((fault, i) => {
    const is = upper(language.fault(fault, scene).is)
    return i === 0 ? is : `${words.alsoWrong}: ${is}`
  })
  blocks.push({ is: 'text', text: said.join(' ') })
  if (first.alike.length > 0)
    blocks.push(
      { is: 'text', text: words.alike },
      {
        is: 'list',
        items: first.alike.map(({ faults }) =>
          upper(language.list(faults.map((fault) => language.fault(fault, scene).name))),
        ),
      },
    )
  return blocks
}

function seen({ report, language, words, scene }: PageMatter): Block[] {
  if (report.seen.length === 0) return [{ is: 'text', text: words.nothingSeen }]
  const say = ({ seen: [first, ...others], steps }: Alike): string => {
    if (first === undefined) return ''
    const { observe, value, power } = first
    const said =
      others.length === 0
        ? language.sighting(observe, value, power, scene)
        : sharedValue([first, ...others], power, language, scene)
    return `${upper(clean(said))} (${words.stepRefs(steps)})`
  }
  return (['scope', 'check', 'proof'] as const).flatMap((stage): Block[] => {
    const items = alikeIn(report.seen.filter((s) => s.stage === stage)).map(say)
    return items.length === 0
      ? []
      : [
          { is: 'text', text: `${words.stage[stage]}:` },
          { is: 'list', items },
        ]
  })
}

function repair(matter: PageMatter): Block[] {
  const { report, words } = matter
  if (report.repairs.length === 0) return [{ is: 'text', text: words.noRepair }]
  const step = (n: number): ReportStep => report.steps[n - 1] as ReportStep
  const items = report.repairs.map(({ step: at, proof }) => {
    const done = `${asked(step(at), matter)} (${words.stepRefs([at])})`
    if (proof.length === 0) return `${done} – ${words.notProven}.`
    const looks = proof.map(
      (n) => `${asked(step(n), matter)} ${replied(step(n), matter)} (${words.stepRefs([n])})`,
    )
    return `${done} – ${words.proven}: ${looks.join('; ')}`
  })
  return [{ is: 'list', items, numbered: true }]
}

function left(matter: PageMatter): Block[] {
  const { report, language, words, scene } = matter
  if (isClosed(report)) return [{ is: 'text', text: words.nothingLeft }]
  const blocks: Block[] = []
  if (report.waiting !== undefined) {
    const { prompt, text } = report.waiting
    blocks.push({
      is: 'text',
      text: `${words.waiting} ${text === undefined ? promptWords(prompt, matter) : flat(text)}`,
    })
  }
  if (report.suspects.length > 0) {
    const { named, rest } = ranked(report.suspects)
    const items = named.map((s) => `${language.labels.percent(s.p)}: ${language.suspect(s, scene)}`)
    if (rest > 0) items.push(`${language.labels.percent(rest)}: ${words.still}`)
    blocks.push({ is: 'text', text: words.suspectsLeft }, { is: 'list', items, numbered: true })
  }
  const { verdict } = report
  if (verdict?.repair) {
    blocks.push(
      { is: 'text', text: words.wouldMend },
      { is: 'list', items: verdict.repair.edits.map((edit) => language.edit(edit, scene)), numbered: true },
    )
  } else if (verdict !== undefined) blocks.push({ is: 'text', text: words.nothingToMend })
  return blocks
}

/** The likeliest by name, and what the others have together. */
export function ranked(suspects: readonly Suspect[]): { named: readonly Suspect[]; rest: number } {
  const named = suspects.filter((s) => s.p >= WORTH_NAMING).slice(0, NAMED)
  const rest = suspects.reduce((sum, s) => sum + s.p, 0) - named.reduce((sum, s) => sum + s.p, 0)
  return { named, rest: rest < 0.005 ? 0 : rest }
}

const flat = (text: string): string => clean(text)

function promptWords(prompt: ReportStep['prompt'], { language, scene }: PageMatter): string {
  if (prompt.show === 'ask') return language.question(prompt, scene).title
  const { title, lines } = language.step(prompt, scene)
  return [title, ...(prompt.edits.length > 1 ? lines : [])].join(' ')
}

/** As it was shown, where the log has it. */
const asked = (step: ReportStep, matter: PageMatter): string =>
  step.text === undefined ? promptWords(step.prompt, matter) : flat(step.text)

function replied({ prompt, reply, answers }: ReportStep, { language, words, scene }: PageMatter): string {
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

function path(matter: PageMatter): Block[] {
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

function suspectsOverTime({ report, language, words, scene }: PageMatter): Block[] {
  const rows = report.rankings.map(({ step, minutes, suspects }): Cell[] => [
    { text: step === 0 ? words.start : String(step), right: true },
    { text: words.figure(minutes), right: true },
    {
      text: ranked(suspects)
        .named.slice(0, 3)
        .map((s) => `${language.labels.percent(s.p)} ${names(s, language, scene)}`)
        .join('; '),
    },
  ])
  const head: Cell[] = [
    { text: words.table.after, right: true },
    { text: words.table.minutes, right: true },
    { text: words.table.likeliest },
  ]
  return [
    { is: 'chart', rankings: report.rankings },
    { is: 'table', head, rows },
    { is: 'text', text: words.judgement },
  ]
}

/** Cautions have a section of their own, the points of a first boot too. */
const TOLD_ELSEWHERE: ReadonlySet<string> = new Set(['caution', 'expect', 'opens', 'returns'])

/** Notes of the program itself, each once: findings, cross-checks, what did not fit together. Cautions stand apart. */
function told({ report, language, scene }: PageMatter): string[] {
  const all = [...report.steps.flatMap((step) => step.told), ...report.toldLast]
  const lines = all.flatMap(({ record, text }) =>
    record.show === 'note' && !TOLD_ELSEWHERE.has(record.kind)
      ? [text === undefined ? language.note(record, scene).map(clean).join(' ') : flat(text)]
      : [],
  )
  return [...new Set(lines)]
}

function cautions({ report, language }: PageMatter): Block[] {
  const shown = report.steps.flatMap(({ prompt }) => (prompt.show === 'do' ? prompt.cautions : []))
  const ids = [...new Set([...ALWAYS_BEWARE, ...shown])]
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

const after = (step: ReportStep, words: ReportWords): { after?: string } =>
  step.undone ? { after: words.takenBack } : step.read === undefined ? {} : { after: words.byReading }

/** A path as a shell takes it: in single quotes where it has anything but plain characters. */
export const shellWord = (text: string): string =>
  /^[\w./:=@%+-]+$/.test(text) && !text.startsWith('-') ? text : `'${text.replaceAll("'", "'\\''")}'`

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
