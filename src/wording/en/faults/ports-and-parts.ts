/** Ports and parts that do not do their work. */
import type { FaultText, Scene } from '../../language.ts'
import { partName, partOf, refName, splitRef } from '../names.ts'
import { type Numbered, type Say, text } from './fault-text.ts'

const dead = (at: string, scene: Scene): FaultText => {
  const name = refName(at, scene)
  if (splitRef(at).port) return text(`${name} dead`, `${name} gives nothing at all.`)
  const kind = partOf(at, scene)?.kind
  return kind === 'fan' || kind === 'strip'
    ? text(`${name} dead`, `${name} is dead.`)
    : text(`${name} dead`, `${name} has failed: it has power and does nothing.`)
}

export const PORTS_AND_PARTS: Readonly<Record<string, Say>> = {
  dead,
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
  tripped: (at, scene) =>
    text(
      `${refName(at, scene)} tripped`,
      `${refName(at, scene)} has switched itself off, as it does when overloaded.`,
    ),
  'trips-again': (at, scene) =>
    text(
      `${refName(at, scene)} gives up under load`,
      `${refName(at, scene)} gives up under its load and feeds again once it has cooled.`,
    ),
  'control-dead': (at, scene) =>
    text(
      `no control signal from ${refName(at, scene)}`,
      `${refName(at, scene)} gives power but no control signal: its fans run at full speed.`,
    ),
  'data-dead': (at, scene) =>
    text(`no light data from ${refName(at, scene)}`, `${refName(at, scene)} gives power but no light data.`),
  'data-weak': (at, scene) =>
    text(
      `light data of ${refName(at, scene)} too weak`,
      `The light data of ${refName(at, scene)} is just too weak for the first LED: it is taken only now and then.`,
    ),
  'worn-contact': (at, scene) =>
    text(
      `contacts of ${refName(at, scene)} worn`,
      `The contacts of ${refName(at, scene)} are worn or spread: a plug there touches only now and then.`,
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
  sticking: (at, scene) =>
    text(
      `bearing of ${partName(at, scene)} sticks`,
      `The bearing of ${partName(at, scene)} sticks: it starts at times, and gives up again.`,
    ),
  'tach-level': (at, scene) =>
    text(
      `${partName(at, scene)} tells no speed`,
      `${partName(at, scene)} is of the kind whose third wire tells only running or locked: no speed can be read.`,
    ),
  'tach-joined': (at, scene) =>
    text(
      `${partName(at, scene)} returns several speeds at once`,
      `${partName(at, scene)} joins the speed wires of several fans: the reading cannot be right.`,
    ),
  'way-missing': (at, scene) =>
    text(
      `${partName(at, scene)} has a way fewer`,
      `${partName(at, scene)} has a way fewer than the plan says, so what should hang on the last hangs nowhere.`,
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
  'usb-stuck': (at, scene) =>
    text(
      `${refName(at, scene)} asleep on USB`,
      `${refName(at, scene)} has stopped answering over USB and stays so until its power is taken away.`,
    ),
  hung: (at, scene) =>
    text(
      `${refName(at, scene)} hung`,
      `${refName(at, scene)} has hung: it keeps its last state until its power is taken away for two minutes.`,
    ),
}

export const NUMBERED_PARTS: Numbered = [
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
