/**
 * Questions in words, from what they look at. They ask for what is seen or read out, never for a judgement, and say
 * where and how to look. One function for an observable of each kind, one for several at once, one for marks.
 */

import type { Observable } from '../../core/bench/observable.ts'
import { readPointId } from '../../core/checks/boot/point.ts'
import type { Ask } from '../../core/checks/prompt.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import type { QuestionText, Scene } from '../language.ts'
import { leadName, list, partOf, portName, refName, settingName, wireName } from './names.ts'
import { pastAnswer, pastQuestion } from './past.ts'
import { symptomText } from './symptoms.ts'
import { fullOnce, refNames } from './together.ts'
import { channelName, sentence, sightingWords, subject, valueWords } from './values.ts'

interface Look {
  readonly ask: string
  readonly hints: readonly string[]
}

const look = (ask: string, ...hints: string[]): Look => ({ ask, hints })

const voltsLook = (at: string, scene: Scene): Look => {
  const slash = at.lastIndexOf('/')
  const wire = wireName(at.slice(slash + 1))
  return look(
    `Measure the ${wire} contact of ${portName(at.slice(0, slash), scene)} against ground. What does the meter show?`,
    'Clip the probes on with the mains off; read with your hands out. Direct current, 20 V range; within 5 % is right.',
  )
}

const rotor = (at: string, scene: Scene) => (partOf(at, scene)?.kind === 'pump' ? 'the rotor' : 'the blades')

/** One observable, asked for. `off` tells that the mains are off and hands may touch. */
function lookAt(o: Observable, off: boolean, scene: Scene): Look {
  const name = refName(o.at, scene)
  switch (o.what) {
    case 'spins':
      return off
        ? look(`Turn ${rotor(o.at, scene)} of ${name} with a finger. How do they go?`)
        : look(`Look at ${name}. Does it turn?`, 'Watch for ten seconds; do not touch.')
    case 'steady':
      return look(
        `Watch ${name} for a minute, by the clock. Does it go on as it is?`,
        'Listen too: a swing or a tick is heard before it is seen. Do not touch.',
      )
    case 'flickers':
      return look(
        `Watch the lights of ${name} for a minute, by the clock. Do they flicker, or change by themselves?`,
        'Set one steady colour first, if a program runs.',
      )
    case 'when-moved':
      return look(
        `Move the lead at ${name} by its cord, a little to each side, and watch what it feeds. Does anything change?`,
        'Hands out of the case. Pull so little that the plug stays home, and away from every blade.',
      )
    case 'rpm':
      return look(
        `Read the speed shown for ${name}. What does it say?`,
        "On the firmware's fan page or in the monitoring program; mind the row. Watch a few readings.",
      )
    case 'lit':
      return look(`Look at the lights of ${name}. How are they?`, 'Watch for ten seconds.')
    case 'shows':
      return look(`Look at what ${name} shows. What is it?`, 'Set one steady colour first if a program runs.')
    case 'effect':
      return look(
        `Let one effect run over ${channelName(o.at, scene)} and watch it go round. How far does it get?`,
        'Take a single moving light, slow.',
      )
    case 'answers':
      return look(
        `Light ${name} alone, in the lighting program. What lights?`,
        'Set every other port to black first.',
      )
    case 'goes':
      return look(
        `Follow ${leadName(o.at, scene)} by hand to its far end. Where is it plugged in?`,
        'Read the print beside the socket.',
      )
    case 'listed':
      return look(
        `Look for ${name} in the list of USB devices. Is it there?`,
        'In the system, not in the lighting program.',
      )
    case 'follows':
      return look(
        `Set ${name} to 30 %, then to 100 %. Do the fans on it follow?`,
        'With the computer idle. Wait ten seconds after each change, look at each fan; set it back after.',
      )
    case 'volts':
      return voltsLook(o.at, scene)
    case 'seated':
      return look(
        `Look at ${name} and press on it. Is it home in its socket?`,
        'Move it a little: a seated plug does not give.',
      )
    case 'setting':
      return look(`Read out ${settingName(o.at, scene)}. What is it set to?`)
    case 'alarm':
      return look(
        `Is an alarm shown for ${name}?`,
        'On the start-up page, the firmware page or the monitoring program.',
      )
  }
}

const sameWhat = (observe: readonly Observable[]): boolean =>
  observe.every((o) => o.what === observe[0]?.what)

const TOGETHER: Readonly<Partial<Record<Observable['what'], (names: string) => Look>>> = {
  lit: (names) => look(`Look at the lights of ${names}. What do you see?`, 'Watch for ten seconds.'),
  spins: (names) => look(`Look at ${names}. Which turn, and how?`, 'Watch for ten seconds; do not touch.'),
  rpm: (names) => look(`Read the speeds shown for ${names}. What do they say?`, 'Mind the rows.'),
  steady: (names) => look(`Watch ${names} for a minute. Which go on as they are?`, 'Do not touch.'),
  flickers: (names) => look(`Watch the lights of ${names} for a minute. Which flicker?`),
  shows: (names) => look(`Look at what ${names} show. What is it?`),
  seated: (names) => look(`Look at ${names} and press on each. Are they home in their sockets?`),
  goes: (names) => look(`Follow the leads at ${names} to their far ends. Where are they plugged in?`),
  listed: (names) => look(`Look for ${names} in the list of USB devices. Which are there?`),
}

function lookAtSeveral(observe: readonly Observable[], off: boolean, scene: Scene): Look {
  const [first] = observe
  if (first === undefined) return look('What do you see?')
  if (observe.length === 1) return lookAt(first, off, scene)
  const names = refNames(
    observe.map((o) => o.at),
    scene,
  )
  if (off && first.what === 'spins' && sameWhat(observe))
    return look(`Turn the blades of ${names} with a finger. How do they go?`)
  const together = sameWhat(observe) ? TOGETHER[first.what] : undefined
  if (together) return together(names)
  const each = observe.map((o) => lookAt(o, off, scene))
  return look(each.map((l) => l.ask).join(' '), ...new Set(each.flatMap((l) => l.hints)))
}

/** "Which of these are dark?", from the values that can be marked. */
const WHICH: Readonly<Record<string, string>> = {
  'lit dark': 'Which lights are dark?',
  'lit dark part': 'Which lights are dark, or lit only in part?',
  'lit dark flicker part': 'Which lights are dark, lit only in part, or flicker?',
  'lit flicker': 'Which lights flicker?',
  'lit whole': 'Which lights are on?',
  'spins no': 'Which fans stand still?',
  'spins no twitches': 'Which fans stand still, or twitch and give up?',
  'spins full': 'Which fans run at full speed?',
  'spins slow': 'Which fans turn too slowly?',
  'rpm zero': 'Which headers show 0 RPM?',
  'spins full no slow twitches': 'Which fans stand still, or do not turn as they should?',
  'rpm none zero': 'Which headers show 0 RPM, or nothing at all?',
  'shows stored': 'Which lights show the pattern they came with from the factory?',
  'shows global': 'Which lights show the one effect that runs over all?',
  'listed no': 'Which hubs and controllers are missing from the list of USB devices?',
  'alarm yes': 'For which headers is an alarm shown?',
  'effect jumps runs-off stops-short':
    'Let one slow light run over each channel. On which channels does the light not run as it should?',
  'follows no some':
    'With the computer idle, set each header and port to 30 %, then 100 %, then back. Where do the fans not follow?',
}

const WHICH_BY_WHAT: Readonly<Partial<Record<Observable['what'], string>>> = {
  lit: 'Which lights are not right?',
  steady: 'Watch the fans for a minute. Which stop and start, go up and down, or tick?',
  flickers: 'Watch the lights for a minute. Which flicker, or go out in between?',
  spins: 'Which fans do not turn as they should?',
  rpm: 'Which speeds are not right?',
  shows: 'Which lights do not show what is set for them?',
  seated: 'Which plugs are not home?',
  setting: 'Which settings are these?',
  listed: 'Which USB parts are not steadily in the list?',
  follows: 'Where do the fans not follow?',
  alarm: 'For which headers is an alarm shown?',
  effect: 'Which channels does a running light not run over as it should?',
  answers: 'Light each port alone, one after the other. Where does something else light, or nothing?',
}

/** What a look over several kinds at once goes over. */
const OVER: Readonly<Partial<Record<Observable['what'], string>>> = {
  spins: 'fans',
  lit: 'lights',
  steady: 'fans (watched for a minute)',
  flickers: 'lights (watched for a minute)',
  shows: 'patterns',
  rpm: 'speeds',
  listed: 'USB parts',
  alarm: 'alarms',
  effect: 'running effects',
  follows: 'changes of speed',
}

const kindsIn = (marks: Extract<Ask, { many: true }>['marks']): Observable['what'][] => [
  ...new Set(marks.map((m) => m.observe.what)),
]

function whichOf(marks: Extract<Ask, { many: true }>['marks']): string {
  const [what, ...others] = kindsIn(marks)
  if (what === undefined) return 'Which of these hold?'
  if (others.length > 0) {
    const over = [what, ...others].flatMap((w) => OVER[w] ?? [])
    return over.length > others.length ? `Which ${list(over)} are not right?` : 'Which of these hold?'
  }
  const values = [...new Set(marks.map((m) => m.value))].sort()
  return entry(WHICH, [what, ...values].join(' ')) ?? WHICH_BY_WHAT[what] ?? 'Which of these hold?'
}

const MAP_HINT: Readonly<Partial<Record<Observable['what'], string>>> = {
  rpm: "On the firmware's fan page or in the monitoring program; mind the rows.",
  steady: 'By the clock; listen too. A fan that rests by its curve and stays at rest is steady.',
  flickers: 'By the clock; one steady colour for all first, if a program runs.',
  shows: 'Set one steady colour for all first, if a program runs.',
  listed: 'In the list of USB devices of the system, not in the lighting program.',
  alarm: 'On the start-up page, the firmware page or the monitoring program.',
  effect: 'One moving light, slow, over one channel at a time; the order of the plan is the right one.',
  follows: 'Wait ten seconds after each change; look at the fans, not at the figures.',
  answers: 'Set all the others to black first.',
}

const MARK_ALL = 'Mark every one you find; none is an answer too.'

function mapHints(marks: Extract<Ask, { many: true }>['marks']): string[] {
  const [first] = marks
  const hint = first && MAP_HINT[first.observe.what]
  return [...(hint ? [hint] : []), MARK_ALL]
}

const AGAIN: Readonly<Record<NonNullable<Ask['again']>, string>> = {
  conflict: 'Asked again, because the answers so far do not fit together. Look afresh.',
  changed: 'Asked again, because something has been changed since.',
  undone: 'Asked again, because the answer was taken back.',
}

const PROOF = 'This is the proof: look again at what was wrong.'
const PROOF_OF_ALL = 'The last look before the job is closed: is all the rest right?'

/** Questions of a first boot that no map asks. */
const ON_FIRST_BOOT: Readonly<Record<string, (cold: boolean) => Look>> = {
  leads: () =>
    look(
      'Which of these plugs are not home, or sit elsewhere?',
      'Press on each; read the print beside its socket.',
      MARK_ALL,
    ),
  blades: () => look('Turn each by a finger. Which are stiff, or catch on something?', MARK_ALL),
  settings: () => look('Read each out. Which are set otherwise than planned?', MARK_ALL),
  watched: () =>
    look(
      'Watch the fans and lights for a minute. Which stop and start, go up and down, tick or flicker?',
      'By the clock; listen too.',
      MARK_ALL,
    ),
  saved: (cold) =>
    look(
      cold ? 'Which lights do not show the saved pattern?' : 'Which lights no longer show what is set?',
      MARK_ALL,
    ),
}

function onFirstBoot({ id, stage }: Ask): Look | undefined {
  const point = stage === 'check' ? readPointId(id) : undefined
  return point && entry(ON_FIRST_BOOT, point.what)?.(point.stage === 'cold-start')
}

export function questionText(ask: Ask, scene: Scene): QuestionText {
  const off = ask.power === 'off'
  const seen: Look = ask.many
    ? (onFirstBoot(ask) ?? look(whichOf(ask.marks), ...mapHints(ask.marks)))
    : 'about' in ask
      ? pastQuestion(ask, scene, (id) => symptomText(id).name)
      : lookAtSeveral(ask.observe, off, scene)
  const proof = ask.many && kindsIn(ask.marks).length > 1 ? PROOF_OF_ALL : PROOF
  const hints = ask.stage === 'proof' ? [proof, ...seen.hints] : seen.hints
  const [title = ''] = fullOnce([seen.ask], scene)
  return { title, hints, ...(ask.again ? { again: AGAIN[ask.again] } : {}) }
}

/** Several values at once, same ones together: "F1, F3: lit all over; F2: dark". */
function combined(
  observe: readonly Observable[],
  means: readonly (string | null)[],
  off: boolean,
  scene: Scene,
): string {
  const said = observe.flatMap((o, i) => {
    const value = means[i]
    return value === null || value === undefined
      ? []
      : [{ o, words: valueWords(o, value, off ? 'off' : 'on', scene), value }]
  })
  if (said.length === 0) return 'Something else'
  const [first] = said
  if (observe.length === 1 && first) return sentence(first.words, scene)
  const groups = new Map<string, { at: string[]; first: (typeof said)[number] }>()
  for (const s of said) {
    const group = groups.get(`${s.o.what} ${s.words}`)
    if (group) group.at.push(s.o.at)
    else groups.set(`${s.o.what} ${s.words}`, { at: [s.o.at], first: s })
  }
  const parts = [...groups.values()].map(
    ({ at, first: s }) => `${at.length === 1 ? subject(s.o, scene) : refNames(at, scene)}: ${s.words}`,
  )
  return sentence(parts.join('; '), scene)
}

export function answerText(ask: Ask, id: string, scene: Scene): string {
  const off = ask.power === 'off'
  if (ask.many) {
    const mark = ask.marks.find((m) => m.id === id)
    return mark ? sightingWords(mark.observe, mark.value, off ? 'off' : 'on', scene) : cleanName(id)
  }
  if ('about' in ask) return pastAnswer(ask, id, scene)
  const answer = ask.answers.find((a) => a.id === id)
  return answer ? combined(ask.observe, answer.means, off, scene) : cleanName(id)
}
