/** How a job ended, in a report: the facts, the cause, what was seen, what was repaired and what is left to do. */
import type { Note } from '../../core/checks/prompt.ts'
import type { ReportStep } from '../../job/report/record.ts'
import { clean } from '../clean.ts'
import { type Alike, alikeIn, sharedValue } from './alike.ts'
import type { Block, PageMatter } from './block.ts'
import { asked, flat, promptWords, replied, toldNotes, upper } from './steps.ts'
import { isNone, names, ranked, WORTH_NAMING } from './suspects.ts'

export const isClosed = (report: PageMatter['report']): boolean =>
  report.outcome === 'fixed' || report.outcome === 'nothing-wrong'

/**
 * The table at the top: how it ended, the cause, when, who and where; which plan and log, unless it is for a
 * customer.
 */
export function facts({
  report,
  language,
  words,
  scene,
  log,
  short,
}: PageMatter): (readonly [string, string])[] {
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

/** Which steps it is from; a customer's page has no steps. */
const from = ({ short, words }: PageMatter, steps: readonly number[]): string =>
  short ? '' : ` (${words.stepRefs(steps)})`

/** The end in one sentence, and the cause where it is likelier than not. */
export function result({ report, language, words, scene }: PageMatter): Block[] {
  const blocks: Block[] = [{ is: 'text', text: words.ended[report.outcome], strong: true }]
  const [first] = report.suspects
  if (first === undefined || report.outcome === 'nothing-wrong') return blocks
  if (report.outcome !== 'fixed' && first.p < 0.5) return blocks
  const said = first.faults.map((fault, i) => {
    const is = upper(language.fault(fault, scene).is)
    return i === 0 ? is : `${words.alsoWrong}: ${is}`
  })
  blocks.push({ is: 'text', text: said.join(' ') })
  // Older logs do not have how far each of them was believed.
  const alike = first.alike.filter(({ p = 1 }) => p >= WORTH_NAMING)
  if (alike.length > 0)
    blocks.push(
      { is: 'text', text: words.alike },
      {
        is: 'list',
        items: alike.map((one) => names(one, language, scene)),
      },
    )
  return blocks
}

/** What was seen, by stage, alike things together. */
export function seen(matter: PageMatter): Block[] {
  const { report, language, words, scene } = matter
  if (report.seen.length === 0) {
    const looked = report.steps.some(
      (s) => !s.undone && s.prompt.show === 'ask' && typeof s.reply !== 'string',
    )
    return [{ is: 'text', text: looked ? words.nothingWrongSeen : words.nothingSeen }]
  }
  const say = ({ seen: [first, ...others], steps }: Alike): string => {
    if (first === undefined) return ''
    const { observe, value, power } = first
    const said =
      others.length === 0
        ? language.sighting(observe, value, power, scene)
        : sharedValue([first, ...others], power, language, scene)
    return `${upper(clean(said))}${from(matter, steps)}`
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

/** Each repair with the looks that proved it. */
export function repair(matter: PageMatter): Block[] {
  const { report, words } = matter
  if (report.repairs.length === 0) return [{ is: 'text', text: words.noRepair }]
  const step = (n: number): ReportStep => report.steps[n - 1] as ReportStep
  const items = report.repairs.map(({ step: at, proof }) => {
    const done = `${asked(step(at), matter)}${from(matter, [at])}`
    if (proof.length === 0) return `${done} – ${words.notProven}.`
    const looks = proof.map(
      (n) => `${asked(step(n), matter)} ${replied(step(n), matter)}${from(matter, [n])}`,
    )
    return `${done} – ${words.proven}: ${looks.join('; ')}`
  })
  return [{ is: 'list', items, numbered: true }]
}

/** What has to be got before it can be mended. */
export const isToGet = (note: Note): boolean => note.facts.what === 'to-get'

/** What the next person finds open. */
export function left(matter: PageMatter): Block[] {
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
  if (verdict?.repair && verdict.repair.edits.length > 0) {
    blocks.push(
      { is: 'text', text: words.wouldMend },
      { is: 'list', items: verdict.repair.edits.map((edit) => language.edit(edit, scene)), numbered: true },
    )
  } else if (verdict?.repair === null) blocks.push({ is: 'text', text: words.nothingToMend })
  blocks.push(...toldNotes(matter, isToGet).map((text): Block => ({ is: 'text', text })))
  return blocks
}
