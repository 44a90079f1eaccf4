/** What was done and seen so far, a line a step; and the run of the lead in question. */
import type { Edit } from '../../core/bench/edit.ts'
import type { Ask } from '../../core/checks/prompt.ts'
import type { PathStep, TrailEntry } from '../../job/view.ts'
import type { Scene } from '../language.ts'
import { grouped } from '../report/alike.ts'
import { answerText } from './answers.ts'
import { inTurn } from './edits.ts'
import { labels } from './labels.ts'
import { list, portName, splitRef } from './names.ts'
import { questionText } from './questions.ts'
import { stepText } from './steps.ts'
import { refNames } from './together.ts'
import { sentence, valueWords } from './values.ts'

const GIVEN: Readonly<Record<'done' | 'unsure' | 'cannot', string>> = {
  done: 'done',
  unsure: "can't tell",
  cannot: "can't do this here",
}

/**
 * A step's number as a person counts: by its place in the path so far. The log numbers all its lines, so its own
 * numbers have gaps; they stand only where the path is not at hand.
 */
export function stepNumber(seq: number, scene: Scene): number {
  const place = trailIn(scene).findIndex((e) => e.seq === seq)
  return place < 0 ? seq : place + 1
}

const trailIn = (scene: Scene): readonly TrailEntry[] =>
  (scene as Scene & { readonly trail?: readonly TrailEntry[] }).trail ?? []

/** What had been done to the build when a step was told. */
const doneBefore = ({ seq }: TrailEntry, scene: Scene): readonly Edit[] =>
  trailIn(scene).flatMap((e) =>
    e.seq < seq && !e.undone && e.prompt.show === 'do' && e.reply === 'done' ? e.prompt.edits : [],
  )

/** What looked alike is said together: "Stands still: fans F7 (floor) and F8 (floor)". */
function marksSaid(ask: Extract<Ask, { many: true }>, ids: readonly string[], scene: Scene): string {
  const chosen = ask.marks.filter((m) => ids.includes(m.id))
  return grouped(chosen, ({ observe, value }) => `${observe.what} ${value}`)
    .map((alike) => {
      const [first, ...others] = alike
      if (first === undefined || others.length === 0) return answerText(ask, first?.id ?? '', scene)
      const value = sentence(valueWords(first.observe, first.value, ask.power, scene), scene)
      const places = alike.map((m) => m.observe.at)
      return `${value}: ${refNames(places, scene)}`
    })
    .join('; ')
}

/** "4. Look at the lights of F2 (front-top). How are they? – Dark". */
export function trailLine(entry: TrailEntry, now: Scene): string {
  const { prompt, reply } = entry
  const scene: Scene = { ...now, done: doneBefore(entry, now) }
  const head =
    prompt.show === 'ask'
      ? questionText(prompt, scene).title
      : prompt.edits.length > 1
        ? inTurn(prompt.edits, scene).join(' ')
        : stepText(prompt, scene).title
  const said =
    typeof reply === 'string'
      ? GIVEN[reply]
      : prompt.show === 'ask'
        ? reply.length === 0
          ? labels.none.toLowerCase()
          : prompt.many
            ? marksSaid(prompt, reply, scene)
            : list(reply.map((id) => answerText(prompt, id, scene)))
        : list([...reply])
  return `${stepNumber(entry.seq, scene)}. ${head} – ${said}${entry.read === undefined ? '' : ' (read)'}${entry.told === undefined ? '' : ' (said before)'}${entry.undone ? ' (taken back)' : ''}`
}

const STATE: Readonly<Record<PathStep['state'], string>> = {
  planned: '',
  unplugged: ' [unplugged]',
  moved: ' [moved]',
  suspect: ' [suspect]',
}

/** From source to sink on one line; the place in question stands between arrows. */
export const pathLine = (path: readonly PathStep[], scene: Scene): string =>
  path
    .map((step) => {
      const { part, port } = splitRef(step.ref)
      const name = port || step.kind === 'joint' ? portName(step.ref, scene) : portName(part, scene)
      return `${step.here ? '>> ' : ''}${name}${STATE[step.state]}${step.here ? ' <<' : ''}`
    })
    .join(' > ')
