/** Plugs that are out, loose, off, turned round or in another socket, and broken conductors. */
import { cleanName } from '../../clean.ts'
import type { FaultText, Scene } from '../../language.ts'
import { leadName, portName, portWords, splitRef, wireName } from '../names.ts'
import { partNames } from '../together.ts'
import { type Numbered, type Say, text } from './fault-text.ts'

export const PLUGS_AND_LEADS: Readonly<Record<string, Say>> = {
  unplugged: (at, scene) =>
    text(`${portName(at, scene)} not plugged in`, `${portName(at, scene)} is not plugged in.`),
  loose: (at, scene) =>
    text(
      `${portName(at, scene)} loose`,
      `${portName(at, scene)} is not home: it makes contact only now and then.`,
    ),
  'out-at-part': (at, scene) =>
    text(
      `${leadName(at, scene)} not plugged in at ${cleanName(splitRef(at).part)}`,
      `${leadName(at, scene)} is not plugged in at ${cleanName(splitRef(at).part)} itself; its other end is in.`,
    ),
  offset: (at, scene) =>
    text(`${portName(at, scene)} one pin off`, `${portName(at, scene)} sits one pin off in its socket.`),
  reversed: (at, scene) =>
    text(
      `${portName(at, scene)} the wrong way round`,
      `${portName(at, scene)} is plugged in the wrong way round.`,
    ),
}

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

export const NUMBERED_PLUGS_AND_LEADS: Numbered = [
  [/^open-(\w+)$/, openWire],
  [/^frayed-(\w+)$/, frayedWire],
  [/^swapped-with-(.+)$/, swapped],
  [/^in-(.+)$/, inSocket],
]

/** A modular lead of the supply at its other end, which the plan names only by the lead. */
export function supplyLead(at: string, mode: string, scene: Scene): FaultText | undefined {
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
