/** What hands do to a build, in sentences of a service manual: active, imperative, with the place named. */
import type { Edit } from '../../core/bench/edit.ts'
import { leadsNow } from '../../core/bench/leads-now.ts'
import type { Scene } from '../language.ts'
import {
  isSupplyEnd,
  leadName,
  partName,
  partOf,
  portName,
  portWords,
  settingName,
  splitRef,
} from './names.ts'
import { settingValue } from './setting-values.ts'
import { partNames } from './together.ts'

/** The socket that a plug is in by the plan and what was done since; nothing where it hangs free. */
const socketNow = (plug: string, { plan, done = [] }: Scene): string | undefined =>
  leadsNow(plan, done).get(plug) ?? undefined

function swap(a: string, b: string, scene: Scene): string {
  const [left, right] = [splitRef(a), splitRef(b)]
  const what =
    left.port === right.port
      ? `the ${portWords(a, scene)}s of ${partNames([left.part, right.part], scene)}`
      : `${portName(a, scene)} and ${portName(b, scene)}`
  return `Exchange ${what}: put each into the socket of the other.`
}

function unplug(plug: string, scene: Scene): string {
  const socket = socketNow(plug, scene)
  return `Pull ${portName(plug, scene)}${socket ? ` out of ${portName(socket, scene)}` : ' out of its socket'}.`
}

function plugIn(plug: string, socket: string, scene: Scene): string {
  const before = socketNow(plug, scene)
  const from = before !== undefined && before !== socket
  return from
    ? `Move ${portName(plug, scene)} from ${portName(before, scene)} to ${portName(socket, scene)}; push it home.`
    : `Push ${portName(plug, scene)} into ${portName(socket, scene)}, home until it stops.`
}

function reseat(plug: string, scene: Scene): string {
  if (isSupplyEnd(plug))
    return `Pull ${portName(plug, scene)} out at the supply and push it home again until its latch clicks.`
  const socket = socketNow(plug, scene)
  const where = socket ? ` in ${portName(socket, scene)}` : ''
  return `Push ${portName(plug, scene)} home${where}: if it is in, pull it out first; mind the key, push until it stops.`
}

function substitute(what: string, scene: Scene): string {
  const { port } = splitRef(what)
  if (port)
    return splitRef(what).part === 'supply'
      ? `Use another supply lead of the same supply in place of ${portName(what, scene)}.`
      : `Use another lead, known to be good, in place of ${leadName(what, scene)}.`
  return `Put another of the same type, known to be good, in place of ${partName(what, scene)}.`
}

function set(setting: string, value: string, scene: Scene): string {
  if (setting === 'host/program')
    return value === 'running'
      ? "Start the vendor's lighting program and let it start with the machine."
      : "Quit the vendor's lighting program."
  if (setting === 'host/global_effect')
    return value === 'off'
      ? 'Switch off the effect over all lights, in the lighting program or in the firmware.'
      : 'Switch on one effect over all lights.'
  if (setting.endsWith('/enabled'))
    return value === 'true'
      ? `Switch ${portName(setting.slice('ports/'.length, -'/enabled'.length), scene)} on in the firmware.`
      : `Switch ${portName(setting.slice('ports/'.length, -'/enabled'.length), scene)} off in the firmware.`
  return `Set ${settingName(setting, scene)} to ${settingValue(setting, value)}.`
}

/** The place to turn a setting, where a newcomer would not know it. */
export function whereToSet(setting: string): string {
  if (setting.startsWith('headers/')) return 'In the fan page of the firmware setup, or the fan program.'
  if (setting.startsWith('channels/')) return "In the vendor's lighting program, on the page of that channel."
  if (setting.startsWith('ports/')) return 'In the USB page of the firmware setup.'
  return ''
}

function free(part: string, scene: Scene): string {
  const what = partOf(part, scene)?.kind === 'pump' ? 'the rotor' : 'the blades'
  return `Turn ${what} of ${partName(part, scene)} by hand; take away what touches until nothing holds it back.`
}

/** One edit, one sentence. */
export function editSentence(edit: Edit, scene: Scene): string {
  switch (edit.do) {
    case 'power':
      return edit.to === 'off'
        ? 'Shut the machine down, switch the supply off and pull its lead out of the wall.'
        : 'Take your hands out of the case, plug the supply in, switch it on and start the machine.'
    case 'unplug':
      return unplug(edit.plug, scene)
    case 'plug':
      return plugIn(edit.plug, edit.socket, scene)
    case 'swap':
      return swap(edit.a, edit.b, scene)
    case 'reseat':
      return reseat(edit.plug, scene)
    case 'substitute':
      return substitute(edit.what, scene)
    case 'free':
      return free(edit.part, scene)
    case 'set':
      return set(edit.setting, edit.value, scene)
  }
}

/** Several done one after the other, a sentence each. */
export const inTurn = (edits: readonly Edit[], scene: Scene): string[] =>
  edits.map((edit, i) =>
    editSentence(edit, { ...scene, done: [...(scene.done ?? []), ...edits.slice(0, i)] }),
  )
