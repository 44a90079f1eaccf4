/**
 * Whether a repair would cure a suspect. Not written anywhere: the bench runs the suspect with the repair and looks
 * whether the symptom is gone. Only repairs that touch something of the suspect are run at all.
 */
import type { Build } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import { POWER_CLEARS } from '../checks/mend.ts'
import type { RepairDef } from '../checks/step.ts'
import type { Alive } from './alive.ts'
import type { Knowledge } from './assess.ts'
import type { Dossier } from './dossier.ts'
import { historyFor, scopeAfter } from './foresee.ts'
import type { Hypothesis } from './hypothesis.ts'
import { wantedAfter } from './planned.ts'

/** By alive suspect: 1 where the symptom would be gone after the repair, else 0. */
export function fixesOf(
  known: Knowledge,
  dossier: Dossier,
  alive: readonly Alive[],
  repair: Pick<RepairDef, 'edits'>,
): Uint8Array {
  const things = editThings(known.build, repair.edits)
  const history = historyFor(known.build, dossier, repair.edits, 'on')
  const wants = dossier.scope.map((o) => wantedAfter(known.build, o, history))
  const scope = scopeAfter(known.build, dossier.scope, history)
  return Uint8Array.from(alive, ({ h }) => {
    if (h.kind === 'none') return 0
    const relevant = repair.edits.length === 0 || mayCure(known.build, things, h)
    return relevant && known.sights.shows(h, history, scope, wants) ? 1 : 0
  })
}

/** Things that an edit or a fault names: a part or setting; of a port it and what it is joined to, with their parts. */
const thingsOf = (build: Build, name: string): readonly string[] => {
  const port = build.portAt.get(name)
  if (port === undefined) return [name]
  return [port, build.socketOf[port]!, build.plugIn[port]!]
    .flatMap((end) => build.ports[end] ?? [])
    .flatMap(({ ref, part }) => (part === 'board' || part === 'supply' ? [ref] : [ref, part]))
}

/** What an edit names; changes of power name nothing. */
function namedBy(edit: Edit): readonly string[] {
  switch (edit.do) {
    case 'power':
      return []
    case 'swap':
      return [edit.a, edit.b]
    case 'plug':
      return [edit.plug, edit.socket]
    case 'unplug':
    case 'reseat':
      return [edit.plug]
    case 'substitute':
      return [edit.what]
    case 'free':
      return [edit.part]
    case 'set':
      return [edit.setting]
  }
}

const editThings = (build: Build, edits: readonly Edit[]): ReadonlySet<string> =>
  new Set(edits.flatMap(namedBy).flatMap((ref) => thingsOf(build, ref)))

const named = new WeakMap<Hypothesis, readonly string[]>()

/** Things that a suspect's faults name; asked for with every repair. */
function faultThings(build: Build, h: Hypothesis): readonly string[] {
  const known =
    named.get(h) ??
    h.faults.flatMap(({ at, mode }) => {
      const arg = /^(?:swapped-with|in)-(.+)$/.exec(mode)?.[1]
      return [...thingsOf(build, at), ...(arg ? thingsOf(build, arg) : [])]
    })
  named.set(h, known)
  return known
}

/** Power alone mends what had hung or tripped; everything else must be touched to be mended. */
const mayCure = (build: Build, things: ReadonlySet<string>, h: Hypothesis): boolean =>
  h.faults.some(({ mode }) => POWER_CLEARS.has(mode)) || faultThings(build, h).some((t) => things.has(t))
