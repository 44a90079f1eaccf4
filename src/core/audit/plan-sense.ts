/** Plan sense: what is not connected, what hangs in the air, names that read alike, two settings for one thing. */

import { modelOf } from '../bench/parts/models.ts'
import type { Part } from '../plan/part.ts'
import type { PortRef } from '../plan/plan.ts'
import { COMMON, type Family } from './finding.ts'
import type { Wiring } from './wiring.ts'

const plugsOf = (w: Wiring, part: Part): PortRef[] =>
  (w.portsOf.get(part.id) ?? []).filter((p) => p.gender === 'plug').map((p) => p.ref)
const socketsOf = (w: Wiring, part: Part): PortRef[] =>
  (w.portsOf.get(part.id) ?? []).filter((p) => p.gender === 'socket').map((p) => p.ref)
const isAlone = (w: Wiring, part: Part): boolean =>
  plugsOf(w, part).every((p) => !w.leadAt(p)) && socketsOf(w, part).every((s) => w.plugIn(s) === undefined)

/** Letters and digits that are taken for one another on a label. */
const blurred = (id: string): string =>
  id
    .toUpperCase()
    .replace(/[_\s]/g, '-')
    .replace(/[O]/g, '0')
    .replace(/[IL|]/g, '1')
    .replace(/S/g, '5')
    .replace(/Z/g, '2')
    .replace(/B/g, '8')

export const planSense: Family = {
  family: 'plan sense',
  rules: [
    {
      id: 'part-alone',
      severity: 'may-not-work',
      source: COMMON,
      *find(w) {
        // A strip that hangs nowhere is told as a light lead that goes nowhere.
        for (const part of w.plan.parts)
          if (part.kind !== 'strip' && (w.portsOf.get(part.id) ?? []).length > 0 && isAlone(w, part))
            yield { refs: [part.id], facts: { part: part.id, kind: part.kind } }
      },
    },
    {
      id: 'motor-plug-open',
      severity: 'will-not-work',
      source: COMMON,
      *find(w) {
        for (const { part, feed, motor } of w.motors) {
          const own = w.parts.get(part)
          if (!w.leadAt(feed) && own && !isAlone(w, own))
            yield { refs: [feed], facts: { part, plug: feed, feed: motor.feed } }
        }
      },
    },
    {
      id: 'power-plug-open',
      severity: 'will-not-work',
      source: COMMON,
      *find(w) {
        for (const part of w.plan.parts) {
          const power = modelOf(part).poweredBy?.(part)
          const plug = `${part.id}.${power}`
          if (power === 'power' && !w.leadAt(plug) && !isAlone(w, part))
            yield { refs: [plug], facts: { part: part.id, plug, kind: part.kind } }
        }
      },
    },
    {
      id: 'upstream-open',
      severity: 'will-not-work',
      source: COMMON,
      *find(w) {
        for (const part of w.plan.parts) {
          if (
            part.kind !== 'fan-splitter' &&
            part.kind !== 'light-splitter' &&
            part.kind !== 'adapter' &&
            !(part.kind === 'fan-hub' && part.power === 'header')
          )
            continue
          const used = socketsOf(w, part).filter((s) => w.plugIn(s) !== undefined)
          if (used.length > 0 && !w.leadAt(`${part.id}.in`))
            yield { refs: [`${part.id}.in`, ...used], facts: { part: part.id, used } }
        }
      },
    },
    {
      id: 'nothing-on-it',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const part of w.plan.parts) {
          const sockets =
            part.kind === 'fan' || part.kind === 'pump' || part.kind === 'strip' ? [] : socketsOf(w, part)
          if (sockets.length > 0 && sockets.every((s) => w.plugIn(s) === undefined) && !isAlone(w, part))
            yield {
              refs: [part.id],
              figure: 0,
              limit: sockets.length,
              facts: { part: part.id, kind: part.kind },
            }
        }
      },
    },
    {
      id: 'names-alike',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        const { board, supply, parts } = w.plan
        const groups = [
          parts.map((p) => p.id),
          [...board.fanHeaders, ...board.lightHeaders, ...board.usbHeaders].map((h) => `board.${h.id}`),
          supply.leads.map((l) => `supply.${l.id}`),
        ]
        for (const group of groups) {
          const seen = new Map<string, string>()
          for (const id of group) {
            const key = blurred(id)
            const other = seen.get(key)
            if (other !== undefined) yield { refs: [id, other], facts: { one: other, other: id } }
            else seen.set(key, id)
          }
        }
      },
    },
    {
      id: 'setting-for-empty-header',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const key of Object.keys(w.plan.settings.headers)) {
          const port = key.includes('.') ? key : `board.${key}`
          if (w.ports.has(port) && w.motorsOn(port).length === 0)
            yield { refs: [`headers/${key}`, port], facts: { at: port } }
        }
      },
    },
    {
      id: 'setting-for-dark-channel',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const key of Object.keys(w.plan.settings.channels)) {
          const part = w.parts.get(key)
          const sockets = w.ports.has(key)
            ? [key]
            : w.ports.has(`board.${key}`)
              ? [`board.${key}`]
              : part
                ? socketsOf(w, part).filter((s) => part.kind !== 'controller' || s.includes('.light'))
                : []
          if (sockets.length > 0 && sockets.every((s) => w.plugIn(s) === undefined))
            yield { refs: [`channels/${key}`, part?.id ?? sockets[0] ?? key], facts: { channel: key } }
        }
      },
    },
    {
      id: 'setting-not-followed',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const key of Object.keys(w.plan.settings.headers)) {
          const part = w.parts.get(key.split('.')[0] ?? '')
          if (part?.kind === 'controller' && part.fanControl === 'header')
            yield { refs: [`headers/${key}`, `${part.id}.in`], facts: { at: key, part: part.id } }
        }
      },
    },
    {
      id: 'leads-one-label',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const part of w.plan.parts) {
          const at = part.at?.trim().toLowerCase()
          if (!at || part.kind === 'fan') continue
          const twin = w.plan.parts.find(
            (p) => p !== part && p.kind === part.kind && p.at?.trim().toLowerCase() === at,
          )
          if (twin && w.plan.parts.indexOf(twin) < w.plan.parts.indexOf(part))
            yield { refs: [part.id, twin.id], facts: { one: twin.id, other: part.id, at } }
        }
      },
    },
  ],
}
