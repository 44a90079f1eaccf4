/**
 * Everything that can be looked at on a build, in the plan's order: for printing the whole bench, and for comparing it
 * with a model of somebody else. Which of it has a value depends on the moment.
 */
import { type Build, conductorIndex, NOWHERE } from './build.ts'
import { channelsOf, lightablePorts } from './channel.ts'
import { hasLights } from './look.ts'
import { type Observable, pinRef } from './observable.ts'
import { SETTING_KEYS, settingRef } from './setting.ts'
import { mayBeMoved } from './steady.ts'

const refAt = (build: Build, port: number): string => build.ports[port]?.ref ?? ''

const ofParts = (build: Build): Observable[] =>
  build.parts.flatMap((entry): Observable[] => {
    const at = entry.part.id
    return [
      ...(entry.motor ? [{ what: 'spins', at } as const, { what: 'steady', at } as const] : []),
      ...(hasLights(entry) ? (['lit', 'shows', 'flickers'] as const).map((what) => ({ what, at })) : []),
      ...(entry.usbPlug >= 0 ? [{ what: 'listed', at } as const] : []),
    ]
  })

/** A header or fan socket of a part; the board's own are always watched, others where something reports them. */
const ofFanPorts = (build: Build): Observable[] =>
  build.sockets
    .filter((s) => build.ports[s]?.connector === 'fan3' || build.ports[s]?.connector === 'fan4')
    .flatMap((s): Observable[] => {
      const at = refAt(build, s)
      return [
        { what: 'rpm', at },
        { what: 'follows', at },
        ...(build.fanHeaders.has(s) ? [{ what: 'alarm', at } as const] : []),
      ]
    })

const ofPlugs = (build: Build): Observable[] =>
  build.plugs
    .filter((p) => (build.socketOf[p] ?? NOWHERE) >= 0)
    .flatMap((p): Observable[] => {
      const at = refAt(build, p)
      return [
        { what: 'seated', at },
        { what: 'goes', at },
        ...(mayBeMoved(build, p) ? [{ what: 'when-moved', at } as const] : []),
      ]
    })

const ofRails = (build: Build): Observable[] =>
  build.ports.flatMap((port, i) =>
    (['12V', '5V'] as const)
      .filter((rail) => ((build.pins[i] ?? 0) & (1 << conductorIndex[rail])) !== 0)
      .map((rail): Observable => ({ what: 'volts', at: pinRef(port.ref, rail) })),
  )

function ofSettings(build: Build): Observable[] {
  const { settings } = build.plan
  const of = (section: keyof typeof SETTING_KEYS): string[] =>
    Object.keys(settings[section]).flatMap((place) =>
      SETTING_KEYS[section].map((key) => settingRef(section, place, key)),
    )
  const at = [...of('headers'), ...of('channels'), 'host/program', 'host/global_effect', ...of('ports')]
  return at.map((ref): Observable => ({ what: 'setting', at: ref }))
}

/** All of it; the same build always gives the same list. */
export const everything = (build: Build): readonly Observable[] => [
  ...ofParts(build),
  ...ofFanPorts(build),
  ...channelsOf(build).map(({ ref }): Observable => ({ what: 'effect', at: ref })),
  ...lightablePorts(build).map((s): Observable => ({ what: 'answers', at: refAt(build, s) })),
  ...ofPlugs(build),
  ...build.plan.supply.leads.map(({ id }): Observable => ({ what: 'seated', at: `supply.${id}` })),
  ...ofRails(build),
  ...ofSettings(build),
]
