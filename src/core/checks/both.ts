/**
 * Two repairs in one go, with one look after them: what is done inside first, then the settings, for which the machine
 * must run. Where plugs are exchanged and one of them is mended besides, all of them are pulled and put home instead,
 * because an exchange with a plug that is out leaves another one out.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import { refOf } from '../faults/entry.ts'
import { repairOf } from './repair.ts'
import type { RepairDef } from './step.ts'

/** One repair that does both, as long as the two together; a spare that either needs is needed. */
export function bothRepairs(build: Build, a: RepairDef, b: RepairDef): RepairDef {
  const [first, second] = a.power === 'off' ? [a, b] : [b, a]
  const edits = untangled(build, [...first.edits, ...second.edits])
  return {
    ...repairOf(edits, a.minutes + b.minutes, { power: first.power }),
    spare: a.spare ?? b.spare,
  }
}

/** Plugs that an edit moves or pushes home. */
const plugsIn = (edit: Edit): readonly string[] =>
  edit.do === 'swap' ? [edit.a, edit.b] : edit.do === 'plug' || edit.do === 'reseat' ? [edit.plug] : []

function untangled(build: Build, edits: readonly Edit[]): readonly Edit[] {
  const named = edits.flatMap(plugsIn)
  const tangled = edits.some((e) => e.do === 'swap') && new Set(named).size < named.length
  if (!tangled) return edits
  const plugs = [...new Set(named)].filter((ref) => homeOf(build, ref) !== undefined)
  return [
    ...plugs.map((plug): Edit => ({ do: 'unplug', plug })),
    ...plugs.map((plug): Edit => ({ do: 'plug', plug, socket: homeOf(build, plug) ?? '' })),
    ...edits.filter((e) => plugsIn(e).length === 0),
  ]
}

/** Where the plan has a plug. */
function homeOf(build: Build, plug: string): string | undefined {
  const socket = build.socketOf[build.portAt.get(plug) ?? NOWHERE] ?? NOWHERE
  return socket < 0 ? undefined : refOf(build, socket)
}
