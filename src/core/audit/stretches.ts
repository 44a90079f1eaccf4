/**
 * The leads on the way from a load up to its feed, and the volts lost over them. Loads draw a steady current, so a
 * lead carries the sum of what hangs behind it, and losses along the way add up. All that a lead feeds comes back
 * through its ground: what fans draw at 12 V lifts the ground of 5 V lights on the same lead. Where the plugs of a
 * supply lead sit is not in a plan: all are taken to sit at its end, so no less is left than is told.
 */
import { leadDrop } from '../electrics/lead-drop.ts'
import { SUPPLY_GROUND_WIRES } from '../electrics/supply-plugs.ts'
import type { PortRef } from '../plan/plan.ts'
import { loadAmps, loadOf, loadPaths, onRail, sum } from './loads.ts'
import { type Load, partOf, type Trace, type Wiring } from './wiring.ts'

export interface Stretch {
  readonly ref: PortRef
  readonly mm: number
  readonly awg: number
  /** Ground wires side by side; one where nothing is known of it. */
  readonly grounds: number
  /** All that hangs behind it, whatever its rail. */
  readonly behind: Load
  /** What of it draws on the rail that is followed. */
  readonly carried: Load
}

/** Every lead on a way of which length and gauge are known, with what it carries on that rail. */
export function* stretches(w: Wiring, trace: Trace, rail: 5 | 12): Generator<Stretch> {
  function* known(
    ref: PortRef,
    sockets: readonly PortRef[],
    mm: number | undefined,
    awg: number | undefined,
    grounds = 1,
  ): Generator<Stretch> {
    if (mm === undefined || awg === undefined) return
    const behind = loadOf(w, sockets)
    yield { ref, mm, awg, grounds, behind, carried: onRail(behind, rail) }
  }
  for (const { lead, socket } of trace.steps) {
    const own = lightAt(w, lead.plug)
    yield* known(lead.plug, [socket], lead.mm ?? own?.mm, lead.awg ?? own?.awg)
    const supply = w.supplyLead(socket)
    if (!supply) continue
    const plugs = Array.from({ length: supply.plugs }, (_, i) => `supply.${supply.id}.${i + 1}`)
    yield* known(`supply.${supply.id}`, plugs, supply.mm, supply.awg, SUPPLY_GROUND_WIRES)
  }
}

/** The light whose lead a plug is at the end of. */
export const lightAt = (w: Wiring, plug: PortRef) => {
  const part = w.parts.get(partOf(plug))
  return part && 'lights' in part ? part.lights.find((l) => `${part.id}.${l.port}` === plug) : undefined
}

/** Volts lost over leads one after the other, out and back. */
export const lost = (way: readonly Stretch[]): number =>
  sum(
    way.map(({ carried, mm, awg, behind, grounds }) =>
      leadDrop(loadAmps(carried), mm, awg, { amps: loadAmps(behind), wires: grounds }),
    ),
  )

/** Places of the plan that the volts lost rest on. */
export const pathsBehind = (way: readonly Stretch[]): string[] => [
  ...new Set(way.flatMap(({ behind }) => loadPaths(behind))),
]
