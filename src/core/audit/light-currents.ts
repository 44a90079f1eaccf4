/** Currents of lights: LEDs at full white, and in mixed colours, against header, hub, controller and splitter. */
import { MIXED_SHARE } from '../electrics/led-current.ts'
import { isOver, rounded } from '../electrics/overload.ts'
import { litParts } from './channels.ts'
import type { Hit, Rule } from './finding.ts'
import { channels } from './light-channels.ts'
import {
  all,
  type ControllerFigures,
  LABELS,
  type Limited,
  lightAmps,
  lightPaths,
  loadOf,
  ofParts,
  port,
  rests,
} from './loads.ts'
import type { LightAt, Wiring } from './wiring.ts'

/** Percent of full that its channel is set to; a plain 12 V light is not told by a channel. */
function brightnessOf(w: Wiring, light: LightAt): number {
  const channel = channels(w).find((c) => litParts(c).some((l) => l.plug === light.plug))
  return (channel && w.plan.settings.channels[channel.key]?.brightness) ?? 100
}

function* lightOver(w: Wiring, groups: Iterable<Limited>): Generator<Hit> {
  for (const group of groups) {
    const { lights } = loadOf(w, group.sockets)
    const figure = lightAmps(lights)
    if (!isOver(figure, group.limit)) continue
    const mixed = figure * MIXED_SHARE
    const set = lights.reduce((all, l) => all + (l.light.amps * brightnessOf(w, l)) / 100, 0)
    const dimmed = isOver(figure, set)
    const amps = lights.map((l) => l.light.amps)
    yield {
      refs: [group.ref, ...lights.map((l) => l.plug)],
      severity: dimmed
        ? isOver(set, group.limit)
          ? 'will-not-work'
          : 'untidy'
        : isOver(mixed, group.limit)
          ? 'will-not-work'
          : 'may-not-work',
      figure,
      limit: group.limit,
      facts: {
        at: group.ref,
        parts: lights.map((l) => l.part),
        mixed: Math.round(rounded(mixed * 100)) / 100,
        ...(dimmed ? { set: Math.round(set * 100) / 100 } : {}),
        percent: Math.floor(rounded((group.limit / figure) * 100)),
      },
      rests: rests(w, lightPaths(lights), amps, group),
    }
  }
}

const lightHeaders = (w: Wiring): Limited[] =>
  w.plan.board.lightHeaders.map((h) => ({
    ref: `board.${h.id}`,
    sockets: [`board.${h.id}`],
    limit: h.amps,
    limitPath: `board.light_headers.${h.id}.amps`,
    trips: true,
  }))

export const lightCurrents: readonly Rule[] = [
  {
    id: 'light-header-over-current',
    severity: 'may-not-work',
    unit: 'A',
    source: 'LEDs at full white (LED strip best-practice pages: 60 mA each); limit as the plan gives it',
    find: (w) => lightOver(w, lightHeaders(w)),
  },
  {
    id: 'light-hub-over-current',
    severity: 'may-not-work',
    unit: 'A',
    source: LABELS,
    find: (w) => lightOver(w, ofParts(w, 'light-hub', '', 'amps', all, false)),
  },
  {
    id: 'light-hub-port-over-current',
    severity: 'may-not-work',
    unit: 'A',
    source: LABELS,
    find: (w) => lightOver(w, ofParts(w, 'light-hub', '', 'port_amps', port, true)),
  },
  {
    id: 'controller-lights-over-current',
    severity: 'may-not-work',
    unit: 'A',
    source: LABELS,
    find: (w) =>
      lightOver(
        w,
        ofParts(w, 'controller', 'light', 'light_amps', (p: ControllerFigures) => p.lightAmps, false),
      ),
  },
  {
    id: 'controller-light-port-over-current',
    severity: 'may-not-work',
    unit: 'A',
    source: LABELS,
    find: (w) =>
      lightOver(
        w,
        ofParts(w, 'controller', 'light', 'light_port_amps', (p: ControllerFigures) => p.lightPortAmps, true),
      ),
  },
  {
    id: 'light-splitter-over-current',
    severity: 'may-not-work',
    unit: 'A',
    source: LABELS,
    find: (w) => lightOver(w, ofParts(w, 'light-splitter', '', 'amps', all, false)),
  },
]
