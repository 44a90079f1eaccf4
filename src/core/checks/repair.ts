/** How a repair is put together: its edits, its minutes by how hard the place is to reach, its id by what is done. */
import { type Build, NOWHERE } from '../bench/build.ts'
import { type Edit, editText } from '../bench/edit.ts'
import { alike, covered } from '../faults/wiring.ts'
import { REACH } from './looks.ts'
import type { RepairDef } from './step.ts'

/** Moving to another place leaves the build unlike its plan, which then has to be changed and told. */
export const MOVE = 5

/**
 * A repair of these edits; with the power off the hands are in. @param minutes with how hard it is to reach in them
 */
export function repairOf(
  edits: readonly Edit[],
  minutes: number,
  how: { power: 'on' | 'off'; spare?: string },
): RepairDef {
  return {
    id: `mend ${edits.map(editText).join(', ')}`,
    edits,
    power: how.power,
    hands: how.power === 'off' ? 'in' : 'out',
    minutes,
    spare: how.spare ?? null,
  }
}

export const reach = (build: Build, port: number): number => {
  const part = build.parts[build.partOf[port] ?? NOWHERE]?.part
  return part ? REACH[part.reach] : 1
}

/** Hands-in work at a plug. */
export const inside = (build: Build, port: number, edits: readonly Edit[], minutes: number): RepairDef =>
  repairOf(edits, minutes * reach(build, port), { power: 'off' })

/** Free sockets that take this plug, on the same part first. */
export function otherSockets(build: Build, plug: number): readonly number[] {
  const planned = build.socketOf[plug] ?? NOWHERE
  const kind = build.ports[plug]?.connector
  const fits = (s: number): boolean =>
    alike(build.ports[s]?.connector, kind) && (build.plugIn[s] ?? NOWHERE) < 0 && !covered(build, s)
  const own = build.partOf[planned]
  return build.sockets
    .filter((s) => s !== planned && fits(s) && build.partOf[s] !== build.partOf[plug])
    .sort((a, b) => Number(build.partOf[a] !== own) - Number(build.partOf[b] !== own) || a - b)
}
