/** Suspects, verdicts and the way a job ended, in words; and what the next person gets on a hand-over. */
import type { End, Suspect, Verdict } from '../../core/checks/prompt.ts'
import type { Fault } from '../../core/faults/fault.ts'
import type { View } from '../../job/view.ts'
import { clean } from '../clean.ts'
import type { Scene } from '../language.ts'
import { editSentence } from './edits.ts'
import { faultWords } from './faults.ts'
import { labels } from './labels.ts'
import { list } from './names.ts'
import { editSentences } from './steps.ts'
import { symptomNames } from './symptoms.ts'
import { trailLine } from './trail.ts'
import { sentence } from './values.ts'

const names = (faults: readonly Fault[], scene: Scene): string =>
  list(faults.map((f) => faultWords(f, scene).name))

/** "the motor plug of F2 not plugged in, or 2 others that no check here tells apart". */
export function suspectWords(suspect: Suspect, scene: Scene): string {
  const own = sentence(names(suspect.faults, scene), scene)
  const n = suspect.alike.length
  if (n === 0) return own
  const [other] = suspect.alike
  return n === 1 && other
    ? `${own}, or ${names(other.faults, scene)}: no check here tells them apart`
    : `${own}, or one of ${n} others that no check here tells apart`
}

const special = (suspect: Suspect | undefined, mode: string): boolean =>
  suspect?.faults.length === 1 && suspect.faults[0]?.at === 'build' && suspect.faults[0].mode === mode

const ranked = (suspects: readonly Suspect[], scene: Scene, longest: number): string[] =>
  suspects.slice(0, longest).map((s) => `${labels.percent(s.p)}  ${suspectWords(s, scene)}`)

/** Verdict: what it is, what it may be instead, what would mend it. */
export function verdictLines(verdict: Verdict, scene: Scene): string[] {
  const [first, ...rest] = verdict.suspects
  if (first === undefined) return ['No cause can be named from what was seen.']
  const lines: string[] = []
  if (special(first, 'nothing-wrong'))
    lines.push(`Verdict (${labels.percent(first.p)}): nothing is wrong. The build does what it is set to do.`)
  else if (special(first, 'none-of-these'))
    lines.push(`Verdict (${labels.percent(first.p)}): ${faultWords(first.faults[0] as Fault, scene).is}`)
  else {
    lines.push(
      `Likely cause (${labels.percent(first.p)}): ${first.faults.map((f) => faultWords(f, scene).is).join(' Also: ')}`,
    )
    for (const other of first.alike)
      lines.push(`Or, not to be told apart here: ${names(other.faults, scene)}.`)
  }
  const weighty = rest.filter((s) => s.p >= 0.02)
  if (weighty.length > 0) lines.push('Less likely:', ...ranked(weighty, scene, 4).map((line) => `  ${line}`))
  if (verdict.repair && verdict.repair.edits.length > 0)
    lines.push(
      'What would mend it:',
      ...editSentences(verdict.repair.edits, scene).map((line) => `  ${line}`),
    )
  else if (verdict.repair) lines.push('What was done so far may have mended it: that is looked at next.')
  else if (!special(first, 'nothing-wrong'))
    lines.push('There is nothing more that can be mended at this bench.')
  return lines
}

const ENDED: Readonly<Record<End['outcome'], string>> = {
  fixed: 'Fixed, and proven: what was wrong was looked at again and is right.',
  'nothing-wrong': 'Nothing is wrong with this build; what was seen is what it is set to do.',
  'handed-over': 'Handed over. The next person finds all of this in the log.',
  declined:
    'No cause that is known here fits what was seen. Take it to someone who can look beyond this wiring.',
  left: 'Left. Nothing is lost: the job can be taken up again at this very question.',
}

/** How the job ended, with its cause where that is sure. */
export function endLines(end: End, view: View): string[] {
  const lines = [ENDED[end.outcome]]
  const [first] = end.suspects
  if (end.outcome === 'fixed' && first && !first.faults.some((f) => f.at === 'build'))
    lines.push(`Cause: ${first.faults.map((f) => faultWords(f, view).is).join(' Also: ')}`)
  // A first boot has its causes on the way, each named when it was put right.
  else if (end.outcome === 'fixed' && !view.walk) lines.push('What it was cannot be named for sure.')
  else if (end.outcome !== 'nothing-wrong' && end.suspects.length > 0)
    lines.push('Most suspect:', ...ranked(end.suspects, view, 3).map((line) => `  ${line}`))
  if (view.queued.length > 0)
    lines.push(`Told as well, and not looked into yet: ${symptomNames(view.queued)}.`)
  if (end.outcome !== 'fixed' && view.inForce.length > 0) lines.push(...stillChanged(view))
  lines.push(`Time at the bench: ${labels.minutes(end.minutes)}. Log: ${clean(view.log)}`)
  return lines
}

const stillChanged = (view: View): string[] => [
  'Still changed on the build:',
  ...view.inForce.map((e) => `  ${editSentence(e, { plan: view.plan })}`),
]

/** A page for the next person: symptom, what was found, what was done, what is left open. */
export function handingOverLines(view: View): string[] {
  const done = view.trail.filter((e) => !e.undone)
  return [
    `Handing over: ${clean(view.plan.build)}, ${symptomNames(view.symptoms).toLowerCase()}`,
    ...(view.queued.length > 0
      ? [`Told as well, and not looked into yet: ${symptomNames(view.queued)}.`]
      : []),
    `Time at the bench: ${labels.minutes(view.minutes)}. Power is ${labels.power[view.power]}.`,
    ...(view.suspects.length > 0
      ? ['Suspects, likeliest first:', ...ranked(view.suspects, view, 6).map((l) => `  ${l}`)]
      : ['No suspects yet.']),
    ...(view.inForce.length > 0
      ? stillChanged(view)
      : ['Nothing on the build differs from its plan by this job.']),
    ...(done.length > 0
      ? [
          'Done and seen, in order:',
          ...done.flatMap((e) => [`  ${trailLine(e, view)}`, ...e.notes.map((n) => `    Note: ${clean(n)}`)]),
        ]
      : []),
    `Log: ${clean(view.log)}`,
  ]
}
