/** Questions with one answer, from what they look at: one thing, or several together. */
import type { Observable } from '../../../core/bench/observable.ts'
import type { Scene } from '../../language.ts'
import { isSupplyEnd, leadName, partOf, portName, refName, settingName, wireName } from '../names.ts'
import { refNames } from '../together.ts'
import { channelName } from '../values.ts'
import { type Look, look } from './look.ts'

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
        isSupplyEnd(o.at)
          ? `Look at the supply, where ${name} is plugged in, and press on that plug. Is it home in its socket?`
          : `Look at ${name} and press on it. Is it home in its socket?`,
        'Move it a little: a seated plug does not give.',
      )
    case 'setting':
      return look(`Read out ${settingName(o.at, scene)}. What is set there?`)
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

/** One look at one thing or at several, asked for. `off` tells that the mains are off and hands may touch. */
export function lookAtSeveral(observe: readonly Observable[], off: boolean, scene: Scene): Look {
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
