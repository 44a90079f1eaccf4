/**
 * The first boot in words, for a junior: where it stands, what to expect there, why, and what it means if it is not so.
 * Whoever has done it often folds the last two away.
 */
import { readPointId } from '../../core/checks/boot/point.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import type { Scene } from '../language.ts'
import { type Facts, GUIDE, many, short } from './first-boot-guide.ts'
import { driverName, kindOf, list, placeOf, refName, settingName, splitRef } from './names.ts'
import { symptomText } from './symptoms.ts'
import { usualKind } from './together.ts'

const STAGE: Readonly<Record<string, string>> = {
  'before-power': 'before power',
  'power-on': 'power on',
  firmware: 'in the firmware',
  system: 'in the system',
  soak: 'soak',
  'cold-start': 'cold start',
}

/** "the leads at Y1 (motor)": a point by name, in a list of those that were not seen. */
const POINT: Readonly<Record<string, (at: string, stage: string, scene: Scene) => string>> = {
  leads: (at, _, scene) => {
    const [part = '', leads = ''] = at.split(' ')
    return `the ${cleanName(leads)} leads at ${refName(part, scene)}`
  },
  blades: () => 'the blades',
  spins: () => 'which fans turn',
  lit: () => 'which lights are lit',
  settings: (at, _, scene) =>
    at === 'host' ? 'the effect over all lights' : `the settings of ${settingsOf(at, scene)}`,
  rpm: (_, stage) => `the speeds ${STAGE[stage]}`,
  alarm: (_, stage) => `alarms ${STAGE[stage]}`,
  follows: (_, stage) => `whether fans follow, ${STAGE[stage]}`,
  listed: () => 'the list of USB devices',
  shows: () => 'what the lights show',
  effect: () => 'the running light',
  answers: () => 'each port lit alone',
  saved: (_, stage) => (stage === 'cold-start' ? 'the saved pattern' : 'the lights after saving'),
  soak: () => 'all after the soak',
  again: () => 'all after the cold start',
}

const settingsOf = (at: string, scene: Scene): string => {
  const [place = '', which] = at.split(' ')
  const name = place.startsWith('board.') ? driverName(short(place), scene) : refName(place, scene)
  return which ? `${name} (${which})` : name
}

/** A point of the walk by its id, as part of a sentence. */
function pointName(id: string, scene: Scene): string {
  const point = readPointId(id)
  return point ? (POINT[point.what]?.(point.at, point.stage, scene) ?? cleanName(point.what)) : cleanName(id)
}

const stageName = (stage: string): string => entry(STAGE, stage) ?? cleanName(stage)

function signing(facts: Facts, scene: Scene): string[] {
  const open = many(facts.open)
  const wrong = many(facts.wrong)
  const named = (ref: string): string => (ref.includes('/') ? settingName(ref, scene) : refName(ref, scene))
  return [
    `First boot: ${facts.seen} of ${facts.of} points seen.`,
    ...(open.length > 0 ? [`  Not seen: ${list(open.map((id) => pointName(id, scene)))}.`] : []),
    ...(wrong.length > 0 ? [`  Still wrong: ${list(wrong.map(named))}.`] : []),
  ]
}

const within = (seconds: unknown): string =>
  typeof seconds === 'number' && seconds > 0 ? `Expect within ${seconds} s` : 'Expect'

/** The wiring sheet's own names stand in what is expected; who is new to it reads here what they are. */
function whatTheyAre(text: string, scene: Scene): string[] {
  const words = new Set(text.split(/[\s,;:()]+/u).map((word) => splitRef(word).part))
  const ids = scene.plan.parts.map(({ id }) => id)
  const usual = usualKind(ids, scene)
  const unlike = ids.filter((id) => words.has(cleanName(id)) && ![usual, ''].includes(kindOf(id, scene)))
  if (unlike.length === 0) return []
  return [
    `  ${unlike.map((id) => `${cleanName(id)}: ${kindOf(id, scene)}${placeOf(id, scene)}`).join('; ')}.`,
  ]
}

/** What is expected at a point; with why and what else it may mean, unless that is folded away. */
export function expectLines(facts: Facts, scene: Scene): string[] {
  if (facts.what === 'sign-off') return signing(facts, scene)
  const guide = entry(GUIDE, String(facts.what))?.(facts)
  const head = `First boot ${facts.n} of ${facts.of}, ${stageName(String(facts.stage))}.`
  if (!guide) return [head]
  const lines = [`${head} ${within(facts.seconds)}: ${guide.expect(facts)}.`]
  if (scene.folded) return lines
  const isFirst = facts.like === facts.n
  return [
    ...lines,
    ...whatTheyAre(guide.expect(facts), scene),
    ...(isFirst && guide.means !== undefined ? [`  ${guide.means}.`] : []),
    ...(isFirst ? [`  Why: ${guide.why}.`] : []),
    `  If not: ${guide.ifNot}.`,
  ]
}

/** Something unexpected: which flow opens, and that nothing is asked twice. */
export const opensLine = (facts: Facts): string =>
  `Not as expected. This opens "${symptomText(String(facts.symptom)).name}" with all that was seen so far (${facts.looks} looks); afterwards the first boot goes on here.`

export const returnsLine = (facts: Facts): string =>
  `Put right: "${symptomText(String(facts.symptom)).name}". Back to the first boot, where it was left.`
