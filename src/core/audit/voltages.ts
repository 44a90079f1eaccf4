/**
 * Voltages: 5 V lights on 12 V and the reverse, and what is left at the far end of a lead by its length and gauge,
 * at the nominal rail and at the lowest that a supply may give.
 */
import { ampsBorne } from '../electrics/copper.ts'
import { FAN_VOLTS_RANGE } from '../electrics/fan-current.ts'
import { MIXED_SHARE } from '../electrics/led-current.ts'
import { LED_VOLTS } from '../electrics/led-data.ts'
import { isOver, SAGS_UP_TO } from '../electrics/overload.ts'
import { railBand } from '../electrics/supply-rails.ts'
import { crossed } from './crossed-volts.ts'
import { dataLevel } from './data-level.ts'
import { COMMON, type Family, type Hit } from './finding.ts'
import { lightAmps, loadAmps, loadEach, loadPaths, rests } from './loads.ts'
import { lightAt, lost, pathsBehind, stretches } from './stretches.ts'
import { partOf, type Wiring } from './wiring.ts'

/** Farther than this from its feed a light run is advised against, mm. */
const LONGEST_RUN_MM = 1000

/** A light's rail voltage from a given start, where that falls under what LEDs need. */
function* lightLow(w: Wiring, start: number): Generator<Hit> {
  const [least] = LED_VOLTS
  for (const light of w.lights) {
    if (light.light.volts !== 5) continue
    const parts = [...stretches(w, w.trace(light.plug, '5V'), 5)]
    const drop = lost(parts)
    const figure = start - drop
    const atNominal = 5 - drop < least
    if (drop > 0 && figure < least && (start === 5) === atNominal)
      yield {
        refs: [light.plug, ...parts.map((p) => p.ref)],
        figure,
        limit: least,
        facts: { part: light.part, drop: Math.round(drop * 1000) / 1000, from: start },
        rests: pathsBehind(parts),
      }
  }
}

export const voltages: Family = {
  family: 'voltages',
  rules: [
    {
      id: 'light-5v-on-12v',
      severity: 'will-damage',
      unit: 'V',
      source: 'LED chip data sheet, absolute supply rating 5.3 V',
      find: (w) => crossed(w, 5),
    },
    {
      id: 'light-12v-on-5v',
      severity: 'will-not-work',
      unit: 'V',
      source: COMMON,
      find: (w) => crossed(w, 12),
    },
    {
      id: 'light-drop',
      severity: 'may-not-work',
      unit: 'V',
      source:
        'gauge definition (ASTM B258), copper at 20 °C; two ground wires in a supply lead (ATX12V design guide 2.0); LED chip data sheet, test conditions from 4.5 V',
      find: (w) => lightLow(w, 5),
    },
    {
      id: 'light-drop-low-rail',
      severity: 'untidy',
      unit: 'V',
      source: 'the same, from the lower limit of the 5 V rail (ATX12V design guide 2.0, 3.2.1 table 2)',
      find: (w) => lightLow(w, railBand('5V')[0]),
    },
    {
      id: 'fan-drop',
      severity: 'may-not-work',
      unit: 'V',
      source:
        'gauge definition (ASTM B258), ground wires as for lights; public 4-wire fan specification 2.1.1: 11.4 V at the fan',
      *find(w) {
        const [least] = FAN_VOLTS_RANGE
        for (const motor of w.motors) {
          const parts = [...stretches(w, w.trace(motor.feed, '12V'), 12)]
          const drop = lost(parts)
          if (drop > 0 && 12 - drop < least)
            yield {
              refs: [motor.feed, ...parts.map((p) => p.ref)],
              figure: 12 - drop,
              limit: least,
              facts: { fan: motor.part, drop: Math.round(drop * 1000) / 1000 },
              rests: pathsBehind(parts),
            }
        }
      },
    },
    {
      id: 'lead-over-gauge',
      severity: 'will-damage',
      unit: 'A',
      source: 'gauge table of a university page, single wire in free air',
      *find(w) {
        const seen = new Set<string>()
        const ways = [
          ...w.lights.map(
            (l) => [w.trace(l.plug, l.light.volts === 5 ? '5V' : '12V'), l.light.volts] as const,
          ),
          ...w.motors.map((m) => [w.trace(m.feed, '12V'), 12] as const),
        ]
        for (const [trace, rail] of ways)
          for (const { ref, carried, awg } of stretches(w, trace, rail)) {
            const limit = ampsBorne(awg) ?? 0.9
            const amps = loadAmps(carried)
            const lit = lightAmps(carried.lights)
            if (seen.has(ref) || !isOver(amps, limit)) continue
            seen.add(ref)
            const mixed = amps - lit * (1 - MIXED_SHARE)
            yield {
              refs: [ref],
              severity:
                isOver(amps, limit * SAGS_UP_TO) && isOver(mixed, limit) ? 'will-damage' : 'may-not-work',
              figure: amps,
              limit,
              facts: {
                lead: ref,
                awg,
                ...(lit > 0 ? { mixed: Math.round(mixed * 100) / 100 } : {}),
              },
              rests: rests(w, loadPaths(carried), loadEach(carried), { limit, limitPath: '' }),
            }
          }
      },
    },
    {
      id: 'light-run-long',
      severity: 'untidy',
      unit: 'mm',
      source: 'LED strip best-practice pages: within 1 m of a feed',
      *find(w) {
        for (const { plug, part, light } of w.lights) {
          if (light.volts !== 5) continue
          const figure = w
            .trace(plug, '5V')
            .steps.reduce((sum, { lead }) => sum + (lead.mm ?? lightAt(w, lead.plug)?.mm ?? 0), 0)
          if (isOver(figure, LONGEST_RUN_MM))
            yield { refs: [plug], figure, limit: LONGEST_RUN_MM, facts: { part } }
        }
      },
    },
    {
      id: 'supply-lacks-rail',
      severity: 'will-not-work',
      source: 'pin tables of fan, SATA and peripheral plugs',
      *find(w) {
        const rails = [
          ...w.motors.map((m) => [m.part, m.feed, '12V'] as const),
          ...w.lights.map((l) => [l.part, l.plug, l.light.volts === 5 ? '5V' : '12V'] as const),
        ]
        const seen = new Set<string>()
        for (const [part, plug, rail] of rails) {
          const trace = w.trace(plug, rail)
          const stops = w.parts.get(partOf(trace.at))
          if (trace.end !== 'stopped' || stops?.kind !== 'adapter' || seen.has(trace.at)) continue
          // an adapter between light plugs brings the other voltage, which is told by itself
          if (stops.from.startsWith('light') && stops.to.startsWith('light')) continue
          seen.add(trace.at)
          yield { refs: [trace.at, plug], facts: { adapter: stops.id, rail, part } }
        }
      },
    },
    dataLevel,
  ],
}
