/** Who sends: a host lead, a program, a global effect, one host too many. */
import { litParts } from './channels.ts'
import { COMMON, type Rule } from './finding.ts'
import { channels, partsOf } from './light-channels.ts'
import { type LightAt, partOf, type Wiring } from './wiring.ts'

function* makers(
  w: Wiring,
): Generator<readonly [id: string, plug: string, lit: readonly LightAt[], beforeHost: string]> {
  for (const part of w.plan.parts) {
    if (part.kind === 'pump' && part.host === 'usb' && part.lights.length > 0)
      yield [part.id, `${part.id}.usb`, [], part.beforeHost]
    if (part.kind !== 'light-hub' && part.kind !== 'controller') continue
    if (part.host === 'none') continue
    const plug = part.host === 'usb' ? 'usb' : part.kind === 'controller' ? 'light_in' : 'in'
    if (part.kind === 'controller' && part.lightPorts === 0 && part.host !== 'usb') continue
    const lit = channels(w)
      .filter((c) => c.maker === part.id)
      .flatMap(litParts)
    yield [part.id, `${part.id}.${plug}`, lit, part.beforeHost]
  }
}

export const lightHosts: readonly Rule[] = [
  {
    id: 'host-lead-missing',
    severity: 'may-not-work',
    source: COMMON,
    *find(w) {
      for (const [id, plug, lit, beforeHost] of makers(w))
        if (!w.leadAt(plug))
          yield {
            refs: [plug, ...partsOf(lit)],
            severity: beforeHost === 'dark' ? 'will-not-work' : 'may-not-work',
            facts: { part: id, plug, shows: beforeHost },
          }
    },
  },
  {
    id: 'nobody-drives',
    severity: 'untidy',
    source: COMMON,
    *find(w) {
      for (const channel of channels(w))
        if (channel.host === 'none')
          yield {
            refs: [channel.maker, ...partsOf(litParts(channel))],
            severity: channel.beforeHost === 'dark' ? 'will-not-work' : 'untidy',
            facts: { channel: channel.key, part: channel.maker, shows: channel.beforeHost },
          }
    },
  },
  {
    id: 'program-absent',
    severity: 'may-not-work',
    source: COMMON,
    *find(w) {
      if (w.plan.settings.host.program === 'running') return
      for (const channel of channels(w))
        if (channel.host !== 'none')
          yield {
            refs: ['host/program', channel.maker, ...partsOf(litParts(channel))],
            severity: channel.beforeHost === 'dark' ? 'will-not-work' : 'may-not-work',
            facts: { channel: channel.key, shows: channel.beforeHost },
          }
    },
  },
  {
    id: 'global-effect-on',
    severity: 'may-not-work',
    source: COMMON,
    *find(w) {
      const set = channels(w).filter((c) => w.plan.settings.channels[c.key])
      if (w.plan.settings.host.globalEffect === 'on' && set.length > 0)
        yield {
          refs: ['host/global_effect', ...set.map((c) => `channels/${c.key}`)],
          facts: { channels: set.map((c) => c.key) },
        }
    },
  },
  {
    id: 'two-hosts',
    severity: 'may-not-work',
    source: COMMON,
    *find(w) {
      for (const part of w.plan.parts) {
        if (part.kind !== 'pump' || part.host !== 'usb') continue
        const fed = part.lights.map((l) => `${part.id}.${l.port}`).filter((plug) => w.leadAt(plug))
        if (fed.length > 0 && w.leadAt(`${part.id}.usb`))
          yield { refs: [...fed, `${part.id}.usb`], figure: 2, limit: 1, facts: { part: part.id } }
      }
    },
  },
  {
    id: 'channel-told-elsewhere',
    severity: 'may-not-work',
    source: COMMON,
    *find(w) {
      const made = new Set(channels(w).map((c) => c.key))
      for (const key of Object.keys(w.plan.settings.channels)) {
        const part = w.parts.get(key) ?? w.parts.get(partOf(key))
        const listens = (part?.kind === 'light-hub' || part?.kind === 'controller') && part.host === 'header'
        if (!made.has(key) && part && listens)
          yield { refs: [`channels/${key}`, part.id], facts: { channel: key, part: part.id } }
      }
    },
  },
  {
    id: 'light-plug-open',
    severity: 'will-not-work',
    source: COMMON,
    *find(w) {
      for (const { plug, part } of w.lights) {
        const own = w.parts.get(part)
        const lit = own?.kind === 'pump' && own.host === 'usb'
        if (!lit && !w.leadAt(plug)) yield { refs: [plug], facts: { part, plug } }
      }
    },
  },
]
