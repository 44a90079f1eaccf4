/** What cannot be checked because the plan does not say, gathered by kind of value: one finding for each kind. */
import { isOver } from '../electrics/overload.ts'
import { fans } from './air.ts'
import { driverOf, isControlled } from './drive.ts'
import { COMMON, type Family, type Rule } from './finding.ts'
import { channels, dataChannels } from './light-channels.ts'
import { takers } from './usb-takers.ts'
import type { Wiring } from './wiring.ts'

type Value = readonly [ref: string, path: string]

/** A rule that lists the references whose value is assumed, those with the same value together. */
const unknown = (
  id: string,
  refs: (w: Wiring) => readonly Value[],
  value: (w: Wiring, ref: string, path: string) => number,
  unit: string,
): Rule => ({
  id,
  severity: 'unknown',
  unit,
  source: COMMON,
  *find(w) {
    const byValue = new Map<number, Value[]>()
    for (const [ref, path] of refs(w)) {
      if (!w.plan.assumed.has(path)) continue
      const taken = value(w, ref, path)
      byValue.set(taken, [...(byValue.get(taken) ?? []), [ref, path]])
    }
    for (const [figure, open] of [...byValue].sort(([a], [b]) => a - b)) {
      const named = [...new Set(open.map(([ref]) => ref))]
      yield { refs: named, figure, facts: { refs: named }, rests: open.map(([, path]) => path) }
    }
  },
})

/** Everything that is plugged in for light, with the path of its voltage. */
const lightVolts = (w: Wiring): Value[] => [
  ...w.plan.board.lightHeaders
    .filter((h) => w.plugIn(`board.${h.id}`))
    .map((h): Value => [`board.${h.id}`, `board.light_headers.${h.id}.volts`]),
  ...w.lights
    .filter((l) => w.leadAt(l.plug))
    .map((l): Value => [l.plug, `parts.${l.part}.${l.light.port}.volts`]),
  ...w.plan.parts
    .filter((p) => p.kind === 'light-hub' || p.kind === 'light-splitter' || p.kind === 'controller')
    .map((p): Value => [p.id, `parts.${p.id}.volts`]),
]

export const unknowns: Family = {
  family: 'unknowns',
  rules: [
    unknown(
      'unknown-motor-amps',
      (w) => w.motors.map((m) => [m.plug, `parts.${m.part}.motor.amps`]),
      (w, ref) => w.motors.find((m) => m.plug === ref)?.motor.amps ?? 0,
      'A',
    ),
    unknown(
      'unknown-header-amps',
      (w) =>
        w.plan.board.fanHeaders
          .filter((h) => w.plugIn(`board.${h.id}`))
          .map((h) => [`board.${h.id}`, `board.fan_headers.${h.id}.amps`]),
      (w, ref) => w.plan.board.fanHeaders.find((h) => `board.${h.id}` === ref)?.amps ?? 0,
      'A',
    ),
    unknown(
      'unknown-light-header-amps',
      (w) =>
        w.plan.board.lightHeaders
          .filter((h) => w.plugIn(`board.${h.id}`))
          .map((h) => [`board.${h.id}`, `board.light_headers.${h.id}.amps`]),
      (w, ref) => w.plan.board.lightHeaders.find((h) => `board.${h.id}` === ref)?.amps ?? 0,
      'A',
    ),
    unknown(
      'unknown-light-volts',
      // a key that is left out is meant to be the usual; one that is written as unknown could be the other, which destroys
      (w) => lightVolts(w).filter(([, path]) => w.plan.places.has(path)),
      () => 5,
      'V',
    ),
    unknown(
      'unknown-leds',
      (w) => w.lights.map((l) => [l.plug, `parts.${l.part}.${l.light.port}.leds`]),
      (w, ref) => w.lights.find((l) => l.plug === ref)?.light.leds ?? 0,
      'LEDs',
    ),
    unknown(
      'unknown-light-amps',
      (w) => w.lights.map((l) => [l.plug, `parts.${l.part}.${l.light.port}.amps`]),
      (w, ref) => w.lights.find((l) => l.plug === ref)?.light.amps ?? 0,
      'A',
    ),
    unknown(
      'unknown-hub-amps',
      (w) =>
        w.plan.parts.flatMap((p): Value[] =>
          p.kind === 'fan-hub' || p.kind === 'light-hub' || p.kind === 'light-splitter'
            ? [[p.id, `parts.${p.id}.amps`]]
            : p.kind === 'controller'
              ? [
                  [p.id, `parts.${p.id}.fan_amps`],
                  [p.id, `parts.${p.id}.light_amps`],
                ]
              : [],
        ),
      (w, ref, path) => {
        const part = w.parts.get(ref)
        if (part?.kind === 'controller') return path.endsWith('.fan_amps') ? part.fanAmps : part.lightAmps
        return part && 'amps' in part ? part.amps : 0
      },
      'A',
    ),
    unknown(
      'unknown-usb-current',
      (w) =>
        takers(w).map((p) => [
          p.id,
          `parts.${p.id}.${p.kind === 'usb-hub' ? 'own_milliamps' : 'usb_milliamps'}`,
        ]),
      (w, ref) => {
        const part = w.parts.get(ref)
        return part && 'usbMilliamps' in part
          ? part.usbMilliamps
          : part?.kind === 'usb-hub'
            ? part.ownMilliamps
            : 0
      },
      'mA',
    ),
    {
      id: 'unknown-fan-kind',
      severity: 'unknown',
      unit: '%',
      source: 'public 4-wire fan specification 3.4: three kinds under the lowest duty',
      *find(w) {
        for (const [key, { curve }] of Object.entries(w.plan.settings.headers)) {
          const least = curve ? Math.min(...curve.map(([, duty]) => duty)) : 100
          const open = w.motorsOn(key.includes('.') ? key : `board.${key}`).filter(
            (m) =>
              // lowered in voltage, or without a control wire, its kind does not matter
              isControlled(w, m) &&
              driverOf(w, m)?.mode === 'pwm' &&
              w.plan.assumed.has(`parts.${m.part}.motor.below_min`) &&
              w.plan.assumed.has(`parts.${m.part}.motor.start_duty`) &&
              isOver(m.motor.startDuty, least),
          )
          const [first] = open
          if (first)
            yield {
              refs: [`headers/${key}/curve`, ...open.map((m) => m.plug)],
              figure: least,
              limit: first.motor.startDuty,
              facts: { at: key, fans: open.map((m) => m.part) },
              rests: open.map((m) => `parts.${m.part}.motor.below_min`),
            }
        }
      },
    },
    {
      id: 'unknown-profile',
      severity: 'unknown',
      unit: 'LEDs',
      source: COMMON,
      *find(w) {
        const open = dataChannels(w).filter(
          (c) => c.host !== 'none' && !w.plan.settings.channels[c.key]?.profile,
        )
        if (open.length > 0)
          yield { refs: open.map((c) => c.maker), facts: { channels: open.map((c) => c.key) } }
      },
    },
    {
      id: 'unknown-lengths',
      severity: 'unknown',
      unit: 'A',
      source: COMMON,
      *find(w) {
        const heavy = channels(w).filter((c) => {
          const lit = c.branches.flat()
          const measured = lit.some((l) => l.light.mm !== undefined || w.leadAt(l.plug)?.mm !== undefined)
          return (
            !measured &&
            isOver(
              lit.reduce((sum, l) => sum + (l.light.volts === 5 ? l.light.amps : 0), 0),
              2,
            )
          )
        })
        if (heavy.length > 0)
          yield { refs: heavy.map((c) => c.maker), limit: 2, facts: { channels: heavy.map((c) => c.key) } }
      },
    },
    {
      id: 'unknown-flow',
      severity: 'unknown',
      source: COMMON,
      *find(w) {
        // who writes `unknown` has looked, and is not asked again
        const open = fans(w).filter((f) => f.flow === 'unknown' && w.plan.assumed.has(`parts.${f.id}.flow`))
        if (open.length > 0)
          yield { refs: open.map((f) => f.id), figure: open.length, facts: { fans: open.map((f) => f.id) } }
      },
    },
  ],
}
