/** Tach: whether a header gets exactly one fan's pulses, in the count that it reckons with. */

import { modelOf } from '../bench/parts/models.ts'
import { shownRpm, USUAL_PULSES } from '../electrics/tach.ts'
import type { PortRef } from '../plan/plan.ts'
import { settingOf } from './drive.ts'
import { COMMON, type Family } from './finding.ts'
import type { Wiring } from './wiring.ts'

/** Headers and controller ports that show a reading, with the key of their settings. */
function readers(w: Wiring): (readonly [ref: PortRef, key: string])[] {
  return [
    ...w.plan.board.fanHeaders.map((h) => [`board.${h.id}`, h.id] as const),
    ...w.plan.parts.flatMap((p) =>
      p.kind === 'controller' && p.fanControl === 'own'
        ? Array.from(
            { length: p.fanPorts },
            (_, i) => [`${p.id}.fan${i + 1}`, `${p.id}.fan${i + 1}`] as const,
          )
        : [],
    ),
  ]
}

const Y_CABLES = 'question-and-answer thread on Y-cables and tach lines'

export const tach: Family = {
  family: 'tach',
  rules: [
    {
      id: 'tach-joined',
      severity: 'may-not-work',
      source: Y_CABLES,
      *find(w) {
        for (const [ref] of readers(w)) {
          const fans = w.tachsOn(ref).filter((m) => m.motor.tach === 'pulses')
          if (fans.length > 1)
            yield {
              refs: [ref, ...fans.map((m) => m.plug)],
              figure: fans.length,
              limit: 1,
              facts: { at: ref, fans: fans.map((m) => m.part) },
            }
        }
      },
    },
    {
      id: 'tach-missing',
      severity: 'untidy',
      source: Y_CABLES,
      *find(w) {
        for (const [ref] of readers(w)) {
          const fans = w.motorsOn(ref)
          if (fans.length > 0 && w.tachsOn(ref).length === 0)
            yield {
              refs: [ref, ...fans.map((m) => m.plug)],
              figure: 0,
              limit: 1,
              facts: { at: ref, fans: fans.map((m) => m.part) },
            }
        }
      },
    },
    {
      id: 'tach-way-empty',
      severity: 'may-not-work',
      source: Y_CABLES,
      *find(w) {
        for (const part of w.plan.parts) {
          if (part.kind !== 'fan-splitter' && part.kind !== 'fan-hub' && part.kind !== 'controller') continue
          const path = modelOf(part).tach?.(part)
          const [from, ...others] = path?.from ?? []
          if (from === undefined || others.length > 0 || w.plugIn(`${part.id}.${from}`) !== undefined)
            continue
          const fans = (w.portsOf.get(part.id) ?? []).filter(
            (p) => p.gender === 'socket' && p.connector.startsWith('fan') && w.plugIn(p.ref),
          )
          // behind the other way of a splitter nobody reads it
          const { end, at } = w.trace(`${part.id}.${path?.out}`, 'TACH')
          if (fans.length > 0 && end === 'source')
            yield {
              refs: [`${part.id}.${from}`, ...fans.map((p) => p.ref)],
              facts: { part: part.id, way: from, at, used: fans.map((p) => p.name) },
            }
        }
      },
    },
    {
      id: 'tach-level',
      severity: 'may-not-work',
      source: 'fan maker’s catalogue page on fan sensors: lock signal and pulse signal',
      *find(w) {
        for (const [ref] of readers(w))
          for (const fan of w.tachsOn(ref))
            if (fan.motor.tach === 'level') yield { refs: [fan.plug, ref], facts: { fan: fan.part, at: ref } }
      },
    },
    {
      id: 'tach-none',
      severity: 'untidy',
      source: 'PC fan wiring pages: two wires, no speed',
      *find(w) {
        for (const [ref] of readers(w))
          for (const fan of w.tachsOn(ref))
            if (fan.motor.tach === 'none')
              yield { refs: [fan.plug, ref], facts: { fan: fan.part, at: ref, pins: fan.motor.pins } }
      },
    },
    {
      id: 'pulses-mismatch',
      severity: 'may-not-work',
      unit: 'rpm',
      source: 'kernel hwmon ABI, fanY_pulses: 2 where nothing is set',
      *find(w) {
        for (const [ref, key] of readers(w)) {
          const counted = settingOf(w, key).pulses ?? USUAL_PULSES
          for (const fan of w.tachsOn(ref)) {
            const { motor } = fan
            if (motor.tach !== 'pulses' || motor.pulses === counted) continue
            yield {
              refs: [`headers/${key}/pulses`, ref, fan.plug],
              figure: shownRpm(motor.rpm[1], motor.pulses, counted),
              limit: motor.rpm[1],
              facts: { fan: fan.part, at: ref, pulses: motor.pulses, counted },
            }
          }
        }
      },
    },
    {
      id: 'tach-unseen',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const [ref] of readers(w)) {
          const seen = w.tachsOn(ref)
          const unseen = w
            .motorsOn(ref)
            .filter(
              (m) =>
                !seen.includes(m) && m.motor.tach === 'pulses' && w.trace(m.plug, 'TACH').end === 'stopped',
            )
          if (seen.length === 1 && unseen.length > 0)
            yield {
              refs: [ref, ...unseen.map((m) => m.plug)],
              figure: seen.length,
              limit: seen.length + unseen.length,
              facts: { at: ref, seen: seen.map((m) => m.part), unseen: unseen.map((m) => m.part) },
            }
        }
      },
    },
    {
      id: 'tach-elsewhere',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const part of w.plan.parts)
          if (
            (part.kind === 'fan' || part.kind === 'pump') &&
            part.motor &&
            part.motor.feed !== 'lead' &&
            part.motor.pins > 2 &&
            !w.leadAt(`${part.id}.motor`)
          )
            yield { refs: [`${part.id}.motor`], facts: { fan: part.id } }
      },
    },
  ],
}
