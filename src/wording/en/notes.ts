/**
 * Notes in words. A note's facts are data: references under `at`, `refs`, `parts` or `from`, a `what` that says which
 * sentence, figures with their unit. Facts without a sentence of their own are still told, never dropped.
 */

import type { Finding } from '../../core/audit/finding.ts'
import type { Note } from '../../core/checks/prompt.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import { findingText } from '../findings.ts'
import type { Scene } from '../language.ts'
import { caution } from './cautions.ts'
import { findingWords } from './findings.ts'
import { expectLines, opensLine, returnsLine } from './first-boot.ts'
import { list, partOf, refName } from './names.ts'
import { readingLines } from './readings.ts'
import { symptomText } from './symptoms.ts'
import { partNames } from './together.ts'
import { stepNumber } from './trail.ts'
import { sentence } from './values.ts'

type Facts = Note['facts']
type Fact = Facts[string] | undefined

const HEAD: Readonly<Record<Note['kind'], string>> = {
  finding: 'From the plan: ',
  caution: 'Caution: ',
  conflict: 'At odds: ',
  assumed: 'Assumed: ',
  repeat: 'Once more: ',
  'cross-check': 'By the plan: ',
  restored: 'Put back: ',
  read: 'Read: ',
  expect: '',
  opens: '',
  returns: '',
  symptom: 'Symptom: ',
}

const many = (fact: Fact): readonly string[] =>
  fact === undefined ? [] : typeof fact === 'object' ? fact : [String(fact)]

/** A reference is named; anything else is said as it stands. */
function named(text: string, scene: Scene): string {
  const part = text.split(/[./]/)[0] ?? ''
  const known =
    scene.plan.parts.some((p) => p.id === part) ||
    ['board', 'supply', 'headers', 'channels', 'host', 'ports'].includes(part)
  return known && !/\s/.test(text) ? refName(text, scene) : cleanName(text)
}

function names(fact: Fact, scene: Scene): string {
  const all = many(fact)
  return all.every((x) => partOf(x, scene)) ? partNames(all, scene) : list(all.map((x) => named(x, scene)))
}

/** "steps 3 and 5". */
function steps(facts: Facts, scene: Scene): string {
  const numbers = many(facts.seqs).map((seq) => String(stepNumber(Number(seq), scene)))
  return `${numbers.length === 1 ? 'step' : 'steps'} ${list(numbers)}`
}

/** "what was answered about F2 (steps 3 and 5)". */
function atOdds(facts: Facts, scene: Scene): string {
  const where = many(facts.seqs).length === 0 ? '' : ` (${steps(facts, scene)})`
  return `what was answered about ${names(facts.refs ?? facts.at, scene)}${where}`
}

/** "F3.light goes to H1.4 now, not to H1.3; F9 is new." */
function changes(facts: Facts, scene: Scene): string {
  const told = many(facts.changes).map((fact) => {
    const [of = '', at = '', before = '', now = ''] = fact.split('\t').map(cleanName)
    const where = of === 'value' ? at : named(at, scene)
    if (before === '')
      return of === 'lead'
        ? `${where} goes to ${named(now, scene)} now`
        : `${where} is new${of === 'part' ? '' : ` (${now})`}`
    if (now === '') return of === 'lead' ? `${where} goes nowhere now` : `${where} is gone`
    return of === 'lead'
      ? `${where} goes to ${named(now, scene)} now, not to ${named(before, scene)}`
      : `${where} is ${now} now, not ${before}`
  })
  const more = Number(facts.more ?? 0)
  return `Changed: ${[...told, ...(more > 0 ? [`${more} more`] : [])].join('; ')}.`
}
const symptoms = (fact: Fact): string => list(many(fact).map((id) => `"${symptomText(id).name}"`))

/** Sentences of cross-checks and the like, by the fact `what`. */
const SAID: Readonly<Record<string, (facts: Facts, scene: Scene) => string>> = {
  shared: (f, s) =>
    `${names(f.parts ?? f.refs, s)} share ${names(f.at ?? f.shared, s)}, and nothing else does.`,
  'shared-too': (f, s) =>
    `${names(f.parts ?? f.refs, s)} share ${names(f.at ?? f.shared, s)}; ${names(f.also, s)} ${many(f.also).length > 1 ? 'hang there too and are' : 'hangs there too and is'} right.`,
  'nothing-shared': (f, s) => `${names(f.parts ?? f.refs, s)} share nothing.`,
  fed: (f, s) => `${names(f.at, s)} is fed from ${names(f.from, s)}.`,
  driven: (f, s) => `${names(f.at, s)} takes its light data from ${names(f.from, s)}.`,
  'speed-from': (f, s) => `${names(f.at, s)} counts the speed of ${names(f.from, s)} only.`,
  'usb-path': (f, s) => `${names(f.at, s)} is connected through ${names(f.from, s)}.`,
  asked: (f, s) =>
    `${names(f.at, s)} is driven ${f.value === 'dc' ? 'by voltage (DC)' : 'by its control wire (PWM)'}; its setting asks for ${f.figure} % now.`,
  'alarm-limit': (f, s) =>
    `${names(f.at, s)} warns under ${f.limit} RPM; with all well it reads about ${f.figure} RPM now.`,
  order: (f, s) => `an effect on ${names(f.at, s)} reaches ${names(f.parts, s)}, in this order.`,
  told: (f, s) =>
    f.figure === f.limit
      ? `${names(f.at, s)} is told ${f.figure} LEDs, as many as hang there.`
      : `${names(f.at, s)} is told ${f.figure} LEDs; ${f.limit} hang there.`,
  colours: (f, s) => `the lights on ${names(f.at, s)} take their colours in the order ${names(f.value, s)}.`,
  'no-speed': (f, s) => `no speed wire reaches ${names(f.at, s)}: 0 RPM is right there.`,
  'nothing-fits': (f, s) =>
    `no single cause that the plan allows explains all answers well. Most at odds: ${atOdds(f, s)}.`,
  'still-moved': (f, s) =>
    `not yet: ${names(f.refs, s)} still sit elsewhere than planned. Change the plan, or put them back.`,
  'plan-changed': (f, s) =>
    `the machine is as it was; only its plan was changed since. ${changes(f, s)}${
      many(f.seqs).length === 0
        ? ' All answers still count.'
        : ` No longer counted, since the plan has no such place now: the answers in ${steps(f, s)}.`
    }`,
  'plan-kept': (f, s) =>
    `the plan was changed since, and no longer has what this job is about. It goes on with the plan as it was. ${changes(f, s)}`,
  'to-get': (f, s) =>
    `no free place takes ${names(f.parts, s)}, so ${names(f.at, s)} cannot be gone round with what is here. To get: ${
      f.from === undefined
        ? ''
        : `a fan splitter for ${names(f.from, s)}, which then carries ${f.figure} of its ${f.limit} A; or `
    }a fan hub with a supply plug of its own. A board whose header is dead is a case for its maker.`,
  'symptom-found': (f) => `what you see goes by the name ${symptoms(f.symptoms)}.`,
  'symptom-next': (f) => `now ${symptoms(f.symptoms)}.`,
  'symptoms-together': (f) =>
    `${symptoms(f.symptoms)}: one fault may show both, so they are looked into together.`,
  'symptoms-apart': (f) =>
    `no single fault that this build can have shows ${symptoms(f.symptoms)} together with ${symptoms(f.from)}. Noted, and taken up afterwards in this job: ${symptoms(f.symptoms)}.`,
  disagree: (f, s) => `${atOdds(f, s)} does not fit the rest. It is looked at by another route.`,
}

const WORD: Readonly<Record<string, string>> = {
  at: 'at',
  refs: 'concerns',
  parts: 'parts',
  from: 'from',
  figure: 'figure',
  limit: 'limit',
  seqs: 'steps',
  steps: 'steps',
  path: 'in the plan',
  value: 'value',
}

/** Facts one by one, for a note that has no sentence: "concerns H1; figure 3.2 A; limit 3 A". */
function plainly(facts: Facts, scene: Scene): string {
  const unit = typeof facts.unit === 'string' ? ` ${cleanName(facts.unit)}` : ''
  return Object.entries(facts)
    .filter(([key]) => key !== 'unit' && key !== 'source' && key !== 'severity')
    .map(([key, value]) => {
      if (key === 'rule' || key === 'what') return cleanName(String(value).replace(/-/g, ' '))
      const said =
        typeof value === 'number'
          ? `${value}${key === 'figure' || key === 'limit' ? unit : ''}`
          : names(value, scene)
      return `${entry(WORD, key) ?? cleanName(key.replace(/[-_]/g, ' '))} ${said}`
    })
    .join('; ')
}

/** A note's lines, the first with its kind in words. */
export function noteLines(note: Note, scene: Scene): string[] {
  if (note.kind === 'caution') {
    const ids = many(note.facts.ids ?? note.facts.id ?? note.facts.caution)
    const told = ids.map((id) => caution(id))
    if (told.length > 0)
      return told.flatMap((c) => [`${HEAD.caution}${c.title}.`, ...c.lines.map((l) => `  ${l}`)])
  }
  const finding = note.kind === 'finding' ? findingOf(note.facts, scene) : undefined
  if (finding) return findingLines(finding, scene)
  if (note.kind === 'read') return readingLines(note.facts, scene)
  if (note.kind === 'expect') return expectLines(note.facts, scene)
  if (note.kind === 'opens') return [opensLine(note.facts)]
  if (note.kind === 'returns') return [returnsLine(note.facts)]
  const what = note.facts.what
  const say = typeof what === 'string' ? entry(SAID, what) : undefined
  const said = say ? say(note.facts, scene) : plainly(note.facts, scene)
  return [`${HEAD[note.kind]}${sentence(said, scene)}`]
}

/** The finding itself, where those of the plan are at hand: what is told of one in a log has no more than its figures. */
function findingOf({ rule, refs }: Facts, { findings = [] }: Scene): Finding | undefined {
  return findings.find((f) => f.rule === rule && String(f.refs) === String(refs))
}

/** A finding of the audit: its severity and figure, then what to do; what would do damage is not to be on meanwhile. */
export function findingLines(finding: Finding, { plan }: Scene): string[] {
  const { severity, says, todo } = findingText(findingWords, finding, plan)
  const doing =
    finding.severity === 'will-damage'
      ? `Switch the machine off now if it is on. To do: ${todo}. Then correct the plan, and begin the job again.`
      : `To do: ${todo}.`
  return [`${HEAD.finding}${severity}: ${says}.`, `  ${doing}`]
}
