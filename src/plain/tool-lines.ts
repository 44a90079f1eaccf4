/** Records as lines of the protocol. Everything a program needs is data; the text beside it is for a person looking on. */
import type { Finding } from '../core/audit/finding.ts'
import { editText } from '../core/bench/edit.ts'
import { type Observable, observableKey } from '../core/bench/observable.ts'
import type { Ask, End, Note, Prompt, Suspect, Verdict } from '../core/checks/prompt.ts'
import type { View, Why, Without } from '../job/view.ts'
import { clean } from '../wording/clean.ts'
import type { Language } from '../wording/language.ts'
import { takeBackText } from '../wording/take-back.ts'
import { PROTOCOL, type ToolLine } from './protocol.ts'

type SuspectLine = Extract<ToolLine, { type: 'end' }>['suspects'][number]

const suspectLine = (s: Suspect): SuspectLine => ({
  faults: s.faults.map(({ at, mode }) => ({ at, mode })),
  p: s.p,
  alike: s.alike.map(({ faults }) => ({ faults: faults.map(({ at, mode }) => ({ at, mode })) })),
})

export const helloLine = (view: View, plan: string): ToolLine => ({
  type: 'hello',
  protocol: PROTOCOL,
  plan,
  symptom: view.symptom,
  symptoms: [...view.symptoms],
  later: [...view.queued],
  build: clean(view.plan.build),
  log: view.log,
})

const distinct = (observe: readonly Observable[]): Observable[] => {
  const seen = new Set<string>()
  return observe.filter((o) => !seen.has(observableKey(o)) && seen.add(observableKey(o)))
}

const bare = ({ what, at }: Observable): Observable => ({ what, at })

function asked(
  ask: Ask,
  view: View,
  language: Language,
): Pick<Extract<ToolLine, { type: 'ask' }>, 'many' | 'observe' | 'about' | 'at' | 'answers'> {
  const text = (id: string) => language.answer(ask, id, view)
  if (ask.many)
    return {
      many: true,
      observe: distinct(ask.marks.map((m) => bare(m.observe))),
      answers: ask.marks.map((m) => ({
        id: m.id,
        text: text(m.id),
        observe: bare(m.observe),
        means: [m.value],
      })),
    }
  if ('about' in ask)
    return {
      many: false,
      observe: [],
      about: ask.about,
      ...(ask.at === undefined ? {} : { at: ask.at }),
      answers: ask.choices.map((id) => ({ id, text: text(id), means: [] })),
    }
  return {
    many: false,
    observe: ask.observe.map(bare),
    answers: ask.answers.map((a) => ({ id: a.id, text: text(a.id), means: [...a.means] })),
  }
}

/** Lines as one text; what has no end of its own gets one. */
const sentences = (lines: readonly string[]): string =>
  lines
    .map((l) => l.trim().replace(/ {2,}/g, ' '))
    .map((l) => (/[.:?!;]$/.test(l) ? l : `${l}.`))
    .join(' ')

/** The line that asks: `do` or `ask`, with the ids that may be answered. */
export function promptLine(prompt: Prompt, view: View, language: Language): ToolLine {
  if (prompt.show === 'do') {
    const text = language.step(prompt, view)
    return {
      type: 'do',
      id: prompt.id,
      step: view.trail.length + 1,
      text: sentences([text.title, ...text.lines]),
      edits: prompt.edits.map(editText),
      power: prompt.power,
      hands: prompt.hands,
      minutes: prompt.minutes,
      purpose: prompt.purpose,
      cautions: [...prompt.cautions],
      ...(prompt.task === undefined ? {} : { task: prompt.task }),
    }
  }
  const text = language.question(prompt, view)
  const { many, observe, about, at, answers } = asked(prompt, view, language)
  return {
    type: 'ask',
    id: prompt.id,
    step: view.trail.length + 1,
    text: sentences([text.title, ...text.hints]),
    answers,
    many,
    observe,
    ...(about === undefined ? {} : { about }),
    ...(at === undefined ? {} : { at }),
    power: prompt.power,
    hands: prompt.hands,
    minutes: prompt.minutes,
    stage: prompt.stage,
    tools: [...prompt.tools],
    ...(prompt.again === undefined ? {} : { again: prompt.again }),
  }
}

/** The line that tells without asking: `note` or `verdict`. */
export function toldLine(told: Note | Verdict, view: View, language: Language): ToolLine {
  if (told.show === 'note')
    return {
      type: 'note',
      kind: told.kind,
      text: sentences(language.note(told, view)),
      facts: { ...told.facts },
    }
  return {
    type: 'verdict',
    text: sentences(language.verdict(told, view)),
    suspects: told.suspects.map(suspectLine),
    repair:
      told.repair === null
        ? null
        : {
            id: told.repair.id,
            text: sentences(told.repair.edits.map((e) => language.edit(e, view))),
            edits: told.repair.edits.map(editText),
          },
  }
}

export const endLine = (end: End, view: View, language: Language): ToolLine => ({
  type: 'end',
  outcome: end.outcome,
  text: sentences(language.end(end, view)),
  suspects: end.suspects.map(suspectLine),
  minutes: end.minutes,
  log: view.log,
})

export const whyLine = (why: Why, view: View, language: Language): ToolLine => ({
  type: 'why',
  text: sentences(language.why(why, view)),
  minutes: Number.isFinite(why.expectedMinutes) ? why.expectedMinutes : null,
  replies: why.replies.map((r) => ({ id: r.id, p: r.p, suspects: r.suspects.map(suspectLine) })),
  others: why.others.map((o) => ({ id: o.id, what: o.what, minutes: o.expectedMinutes })),
  suspects: why.suspects.map((s) => ({
    suspect: suspectLine(s.suspect),
    for: [...s.speaksFor],
    against: [...s.speaksAgainst],
  })),
})

/** What taking the answer of a step back changes: before it is done, and as it is done. */
export function takeBackLine(step: number, without: Without, view: View, language: Language): ToolLine {
  const { head, entries, shares } = takeBackText(view, without.takes, without, language)
  return {
    type: 'take-back',
    step,
    takes: view.trail.flatMap((e, i) => (without.takes.includes(e.seq) ? [i + 1] : [])),
    suspects: without.suspects.map(suspectLine),
    text: sentences([head, ...entries, ...shares]),
  }
}

/** A grave finding, told before the first question. */
export const findingLine = (finding: Finding, view: View, language: Language): ToolLine => ({
  type: 'note',
  kind: 'finding',
  text: sentences(language.finding(finding, view)),
  facts: { rule: finding.rule, severity: finding.severity, refs: finding.refs },
})
