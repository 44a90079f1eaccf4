/** Questions that are answered with marks, any number of them: "Which of these are dark?", and those of a first boot. */
import type { Observable } from '../../../core/bench/observable.ts'
import { readPointId } from '../../../core/checks/boot/point.ts'
import type { Ask } from '../../../core/checks/prompt.ts'
import { entry } from '../../entry.ts'
import type { Scene } from '../../language.ts'
import { list, refName } from '../names.ts'
import { type Look, look } from './look.ts'

type MarksAsk = Extract<Ask, { many: true }>
type Marks = MarksAsk['marks']

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

/** What is also watched for a minute, where both are gone over. */
const WATCHED: Readonly<Partial<Record<Observable['what'], Observable['what']>>> = {
  spins: 'steady',
  lit: 'flickers',
}

export const kindsIn = (marks: Marks): Observable['what'][] => [...new Set(marks.map((m) => m.observe.what))]

function whichOf(marks: Marks): string {
  const kinds = kindsIn(marks)
  const [what] = kinds
  if (what === undefined) return 'Which of these hold?'
  if (kinds.length > 1) {
    const over = kinds.flatMap((w) => {
      const watched = WATCHED[w]
      return watched && kinds.includes(watched) ? [`${OVER[w]} at a glance`] : (OVER[w] ?? [])
    })
    return over.length === kinds.length ? `Which ${list(over)} are not right?` : 'Which of these hold?'
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

function mapHints(marks: Marks): string[] {
  const [first] = marks
  const hint = first && MAP_HINT[first.observe.what]
  return [...(hint ? [hint] : []), MARK_ALL]
}

/** Questions of a first boot that no map asks. */
const ON_FIRST_BOOT: Readonly<Record<string, (cold: boolean, whose: string) => Look>> = {
  leads: () =>
    look(
      'Which of these plugs are not home, or sit elsewhere?',
      'Press on each; read the print beside its socket.',
      MARK_ALL,
    ),
  blades: () => look('Turn each by a finger. Which are stiff, or catch on something?', MARK_ALL),
  settings: (_, whose) =>
    look(`Read out each setting${whose && ` of ${whose}`}. Which are set otherwise than planned?`, MARK_ALL),
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

/** What the settings of a point are of: a header, hub or controller; nothing where they are the host's. */
function whoseSettings(at: string, scene: Scene): string {
  const [of = ''] = at.split(' ')
  return of === '' || of === 'host' ? '' : refName(of, scene)
}

function onFirstBoot({ id, stage }: MarksAsk, scene: Scene): Look | undefined {
  const point = stage === 'check' ? readPointId(id) : undefined
  const said = point && entry(ON_FIRST_BOOT, point.what)
  return said?.(point?.stage === 'cold-start', point ? whoseSettings(point.at, scene) : '')
}

/** A question for marks, with how to look. */
export const lookForMarks = (ask: MarksAsk, scene: Scene): Look =>
  onFirstBoot(ask, scene) ?? look(whichOf(ask.marks), ...mapHints(ask.marks))
