/**
 * Each fault mode under a technician's name, with its place: a short name for lists and one sentence for a verdict.
 * The table is by where the fault sits and its mode; a mode that is missing here is still said, from its own words,
 * and a test fails.
 */

import type { Fault } from '../../core/faults/fault.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import type { FaultText, Scene } from '../language.ts'
import {
  driverName,
  leadName,
  partName,
  partOf,
  portName,
  portWords,
  refName,
  splitRef,
  wireName,
} from './names.ts'
import { fullOnce, partNames } from './together.ts'
import { sentence } from './values.ts'

type Say = (at: string, scene: Scene, rest: string) => FaultText

const text = (name: string, is: string): FaultText => ({ name, is })

const join: Say = (at, scene) =>
  text(`${portName(at, scene)} not plugged in`, `${portName(at, scene)} is not plugged in.`)

const openWire: Say = (at, scene, wire) => {
  const lead = leadName(at, scene)
  return text(`${wireName(wire)} wire broken in ${lead}`, `In ${lead} the ${wireName(wire)} wire is broken.`)
}

const frayedWire: Say = (at, scene, wire) => {
  const lead = leadName(at, scene)
  return text(
    `${wireName(wire)} wire broken inside ${lead}`,
    `In ${lead} the ${wireName(wire)} wire is broken inside its insulation: it touches only now and then.`,
  )
}

const swapped: Say = (at, scene, other) => {
  const both =
    splitRef(at).port === splitRef(other).port
      ? `the ${portWords(at, scene)}s of ${partNames([splitRef(at).part, splitRef(other).part], scene)}`
      : `${portName(at, scene)} and ${portName(other, scene)}`
  return text(`${both} exchanged`, `${both} are exchanged: each sits in the socket of the other.`)
}

const inSocket: Say = (at, scene, socket) =>
  text(
    `${portName(at, scene)} in ${portName(socket, scene)}`,
    `${portName(at, scene)} sits in ${portName(socket, scene)}, not where the plan has it.`,
  )

const dead = (at: string, scene: Scene): FaultText => {
  const name = refName(at, scene)
  if (splitRef(at).port) return text(`${name} dead`, `${name} gives nothing at all.`)
  const kind = partOf(at, scene)?.kind
  return kind === 'fan' || kind === 'strip'
    ? text(`${name} dead`, `${name} is dead.`)
    : text(`${name} dead`, `${name} has failed: it has power and does nothing.`)
}

/** On joints, leads, ports and parts. */
const PLACED: Readonly<Record<string, Say>> = {
  unplugged: join,
  loose: (at, scene) =>
    text(
      `${portName(at, scene)} loose`,
      `${portName(at, scene)} is not home: it makes contact only now and then.`,
    ),
  'trips-again': (at, scene) =>
    text(
      `${refName(at, scene)} gives up under load`,
      `${refName(at, scene)} gives up under its load and feeds again once it has cooled.`,
    ),
  sticking: (at, scene) =>
    text(
      `bearing of ${partName(at, scene)} sticks`,
      `The bearing of ${partName(at, scene)} sticks: it starts at times, and gives up again.`,
    ),
  'out-at-part': (at, scene) =>
    text(
      `${portName(at, scene)} out at ${partName(splitRef(at).part, scene)}`,
      `${portName(at, scene)} has come out where it enters ${partName(splitRef(at).part, scene)}; its other end is in.`,
    ),
  offset: (at, scene) =>
    text(`${portName(at, scene)} one pin off`, `${portName(at, scene)} sits one pin off in its socket.`),
  reversed: (at, scene) =>
    text(
      `${portName(at, scene)} the wrong way round`,
      `${portName(at, scene)} is plugged in the wrong way round.`,
    ),
  tripped: (at, scene) =>
    text(
      `${refName(at, scene)} tripped`,
      `${refName(at, scene)} has switched itself off, as it does when overloaded.`,
    ),
  overloaded: (at, scene) =>
    text(
      `${refName(at, scene)} overloaded`,
      `More hangs on ${refName(at, scene)} than it can feed: its voltage sags.`,
    ),
  'over-budget': (at, scene) =>
    text(
      `${refName(at, scene)} over its USB budget`,
      `What hangs on ${refName(at, scene)} asks for more current than a USB port gives.`,
    ),
  gap: (at, scene) =>
    text(
      `${portName(at, scene)} left empty in a series`,
      `${portName(at, scene)} is empty, so nothing hands the light data on to what follows.`,
    ),
  'not-controlled': (at, scene) =>
    text(
      `${partName(at, scene)} cannot be slowed`,
      `No control reaches ${partName(at, scene)} as it is planned: it runs at full speed whatever is set.`,
    ),
  'nothing-reports': (at, scene) =>
    text(
      `nothing reports at ${refName(at, scene)}`,
      `${refName(at, scene)} is watched, and as planned no fan or pump reports its speed there.`,
    ),
  'control-dead': (at, scene) =>
    text(
      `no control signal from ${refName(at, scene)}`,
      `${refName(at, scene)} gives power but no control signal: its fans run at full speed.`,
    ),
  'tach-dead': (at, scene) =>
    splitRef(at).port
      ? text(
          `speed input of ${refName(at, scene)} dead`,
          `${refName(at, scene)} does not count the speed signal: its fan turns, the figure is wrong.`,
        )
      : text(
          `speed sensor of ${partName(at, scene)} dead`,
          `The speed sensor in ${partName(at, scene)} is dead: it turns, but reports nothing.`,
        ),
  'data-dead': (at, scene) =>
    text(`no light data from ${refName(at, scene)}`, `${refName(at, scene)} gives power but no light data.`),
  'worn-contact': (at, scene) =>
    text(
      `contacts of ${refName(at, scene)} worn`,
      `The contacts of ${refName(at, scene)} are worn or spread: a plug there touches only now and then.`,
    ),
  'data-weak': (at, scene) =>
    text(
      `light data of ${refName(at, scene)} too weak`,
      `The light data of ${refName(at, scene)} is just too weak for the first LED: it is taken only now and then.`,
    ),
  'alarm-stored': (at, scene) =>
    text(
      `old alarm at ${refName(at, scene)}`,
      `${refName(at, scene)} still shows an alarm from before: nothing is wrong with its fan now.`,
    ),
  'counts-coarsely': (at, scene) =>
    text(
      `${refName(at, scene)} cannot count so slow a fan`,
      `${refName(at, scene)} cannot count a fan as slow as this one: it shows 0 though the fan turns.`,
    ),
  dead,
  'motor-dead': (at, scene) =>
    text(
      `motor of ${partName(at, scene)} dead`,
      `The motor of ${partName(at, scene)} is dead: it has power and does not move.`,
    ),
  seized: (at, scene) =>
    text(
      `${partName(at, scene)} seized`,
      `The bearing of ${partName(at, scene)} is seized: it will not turn even by hand.`,
    ),
  blocked: (at, scene) =>
    text(
      `${partName(at, scene)} blocked`,
      `Something touches the blades of ${partName(at, scene)} and holds them.`,
    ),
  worn: (at, scene) =>
    text(
      `bearing of ${partName(at, scene)} worn`,
      `The bearing of ${partName(at, scene)} is dry or worn: it turns too slowly.`,
    ),
  'tach-level': (at, scene) =>
    text(
      `${partName(at, scene)} tells no speed`,
      `${partName(at, scene)} is of the kind whose third wire tells only running or locked: no speed can be read.`,
    ),
  'way-missing': (at, scene) =>
    text(
      `${partName(at, scene)} has a way fewer`,
      `${partName(at, scene)} has a way fewer than the plan says, so what should hang on the last hangs nowhere.`,
    ),
  'usb-stuck': (at, scene) =>
    text(
      `${refName(at, scene)} asleep on USB`,
      `${refName(at, scene)} has stopped answering over USB and stays so until its power is taken away.`,
    ),
  'lights-dead': (at, scene) =>
    text(
      `lights of ${partName(at, scene)} dead`,
      `The lights of ${partName(at, scene)} are dead: they have power and data and stay dark.`,
    ),
  'not-answering': (at, scene) =>
    text(
      `${refName(at, scene)} does not answer over USB`,
      `${refName(at, scene)} has power but does not answer over USB.`,
    ),
  hung: (at, scene) =>
    text(
      `${refName(at, scene)} hung`,
      `${refName(at, scene)} has hung: it keeps its last state until its power is taken away for two minutes.`,
    ),
  'tach-joined': (at, scene) =>
    text(
      `${partName(at, scene)} returns several speeds at once`,
      `${partName(at, scene)} joins the speed wires of several fans: the reading cannot be right.`,
    ),
}

/** Modes that carry a number, a conductor or a reference in their name. */
const NUMBERED: readonly (readonly [RegExp, Say])[] = [
  [/^open-(\w+)$/, openWire],
  [/^frayed-(\w+)$/, frayedWire],
  [/^swapped-with-(.+)$/, swapped],
  [/^in-(.+)$/, inSocket],
  [
    /^led-dead-(\d+)$/,
    (at, scene, n) =>
      text(
        `LED ${n} of ${partName(at, scene)} dead`,
        `LED ${n} of ${partName(at, scene)} is dead, and every light after it gets no data.`,
      ),
  ],
  [
    /^led-dark-(\d+)$/,
    (at, scene, n) =>
      text(
        `LED ${n} of ${partName(at, scene)} dark`,
        `LED ${n} of ${partName(at, scene)} stays dark, and hands the data on all the same.`,
      ),
  ],
  [
    /^tach-from-(\w+)$/,
    (at, scene, n) =>
      text(
        `${partName(at, scene)} returns the speed of socket ${n}`,
        `${partName(at, scene)} returns the speed of socket ${n}, not of the one in the plan.`,
      ),
  ],
]

type SaySetting = (place: string, scene: Scene) => FaultText

/** By the setting's key and the mode. */
const SETTING: Readonly<Record<string, SaySetting>> = {
  'drive wrong-mode': (place, scene) =>
    text(
      `${driverName(place, scene)} in the wrong drive mode`,
      `${driverName(place, scene)} is set to the drive mode (PWM or DC) that does not suit its fans.`,
    ),
  'curve rests-at-zero': (place, scene) =>
    text(
      `curve of ${driverName(place, scene)} rests at zero`,
      `The fan curve of ${driverName(place, scene)} goes down to zero at this temperature: the fans rest.`,
    ),
  'curve under-start': (place, scene) =>
    text(
      `curve of ${driverName(place, scene)} too low to start`,
      `The fan curve of ${driverName(place, scene)} stays under what the fans need to start from rest.`,
    ),
  'curve steps-at-start': (place, scene) =>
    text(
      `curve of ${driverName(place, scene)} steps at the start point`,
      `The fan curve of ${driverName(place, scene)} steps up just at this temperature: its fans start, cool, rest, and start again.`,
    ),
  'delay follows-at-once': (place, scene) =>
    text(
      `${driverName(place, scene)} follows each jump of its temperature`,
      `${driverName(place, scene)} has no step-up delay: its fans follow every short jump of the temperature.`,
    ),
  'curve flat-out': (place, scene) =>
    text(
      `curve of ${driverName(place, scene)} flat out`,
      `The fan curve of ${driverName(place, scene)} asks for full speed at this temperature.`,
    ),
  'pulses wrong': (place, scene) =>
    text(
      `wrong pulses per turn for ${driverName(place, scene)}`,
      `The pulses per turn set for ${driverName(place, scene)} are wrong: the speed shown is off by a whole factor.`,
    ),
  'alarm too-high': (place, scene) =>
    text(
      `alarm limit of ${driverName(place, scene)} too high`,
      `The alarm limit of ${driverName(place, scene)} lies above the real speed: nothing is wrong with the fan.`,
    ),
  'profile count-low': (place, scene) =>
    text(
      `too few LEDs set on ${driverName(place, scene)}`,
      `${driverName(place, scene)} is told fewer LEDs than there are: the last ones get no data.`,
    ),
  'profile count-high': (place, scene) =>
    text(
      `too many LEDs set on ${driverName(place, scene)}`,
      `${driverName(place, scene)} is told more LEDs than there are: effects run off the end.`,
    ),
  'profile entry-missing': (place, scene) =>
    text(
      `a part missing from the profile of ${driverName(place, scene)}`,
      `In the profile of ${driverName(place, scene)} one part is missing.`,
    ),
  'profile wrong-order': (place, scene) =>
    text(
      `wrong order in the profile of ${driverName(place, scene)}`,
      `In the profile of ${driverName(place, scene)} the parts stand in another order than they are wired.`,
    ),
  'colours wrong': (place, scene) =>
    text(
      `wrong colour order on ${driverName(place, scene)}`,
      `${driverName(place, scene)} is set to a colour order that its LEDs do not have.`,
    ),
  'enabled off': (place, scene) =>
    text(
      `${driverName(place, scene)} switched off`,
      `${driverName(place, scene)} is switched off in the firmware or by a switch.`,
    ),
}

const WHOLE: Readonly<Record<string, FaultText>> = {
  'host/program:not-running': text(
    'lighting program not running',
    "The vendor's lighting program is not running, so nobody tells the lights what to show.",
  ),
  'host/global_effect:left-on': text(
    'one effect left on over all lights',
    'One effect over all lights was left on and overrides what is set for each.',
  ),
  'build:nothing-wrong': text('nothing is wrong', 'Nothing is wrong: the build does what it is set to do.'),
  'build:none-of-these': text(
    'none of what is known here',
    'None of the faults that the plan allows fits what was seen: the cause lies elsewhere, or the build differs from its plan.',
  ),
}

function supplyLead(at: string, mode: string, scene: Scene): FaultText | undefined {
  const { part, port } = splitRef(at)
  if (part !== 'supply' || port.includes('.') || !scene.plan.supply.leads.some((l) => l.id === port))
    return undefined
  const lead = portName(at, scene)
  if (mode === 'unplugged')
    return text(
      `${lead} not plugged in at the supply`,
      `${lead} is not plugged in at the supply: nothing on it has power.`,
    )
  if (mode === 'loose')
    return text(
      `${lead} loose at the supply`,
      `${lead} is not home at the supply: what hangs on it comes and goes.`,
    )
  return undefined
}

function ofSetting(fault: Fault, scene: Scene): FaultText | undefined {
  const first = fault.at.indexOf('/')
  const last = fault.at.lastIndexOf('/')
  if (first < 0 || last === first) return undefined
  const key = fault.at.slice(last + 1).replace('alarm_below', 'alarm')
  return entry(SETTING, `${key} ${fault.mode}`)?.(fault.at.slice(first + 1, last), scene)
}

function ofPlace(fault: Fault, scene: Scene): FaultText | undefined {
  if (fault.at.includes('/')) return undefined
  const plain = entry(PLACED, fault.mode)
  if (plain) return plain(fault.at, scene, '')
  for (const [form, say] of NUMBERED) {
    const rest = form.exec(fault.mode)?.[1]
    if (rest !== undefined) return say(fault.at, scene, rest)
  }
  return undefined
}

/** The words of a fault, or undefined where this page has none for its mode. */
export function knownFault(fault: Fault, scene: Scene): FaultText | undefined {
  const found =
    entry(WHOLE, `${fault.at}:${fault.mode}`) ??
    supplyLead(fault.at, fault.mode, scene) ??
    ofSetting(fault, scene) ??
    ofPlace(fault, scene)
  const [name = '', is = ''] = [found?.name, found?.is].map((said = '') => fullOnce([said], scene)[0])
  return found && { name, is: sentence(is, scene) }
}

/** A fault in words; one without words of its own is said by its place and mode. */
export function faultWords(fault: Fault, scene: Scene): FaultText {
  const known = knownFault(fault, scene)
  if (known) return known
  const mode = cleanName(fault.mode.replace(/-/g, ' '))
  const at = refName(fault.at, scene)
  return text(`${at}: ${mode}`, `${sentence(at, scene)} has this fault: ${mode}.`)
}
