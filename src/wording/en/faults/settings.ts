/** What software or firmware remembers wrongly. */

import { settingParts } from '../../../core/bench/setting.ts'
import type { Fault } from '../../../core/faults/fault.ts'
import { entry } from '../../entry.ts'
import type { FaultText, Scene } from '../../language.ts'
import { driverName } from '../names.ts'
import { text } from './fault-text.ts'

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
  'alarm_below too-high': (place, scene) =>
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

/** The words of a fault that sits in a setting: `headers/SYS1/curve`. */
export function ofSetting(fault: Fault, scene: Scene): FaultText | undefined {
  const { place, key } = settingParts(fault.at)
  return place === '' ? undefined : entry(SETTING, `${key} ${fault.mode}`)?.(place, scene)
}
