/** What follows a setting in a build: ports that govern fans, channels of lights, what a host program drives and reads. */
import { type Build, NOWHERE } from '../bench/build.ts'
import { type Channel, channelsOf } from '../bench/channel.ts'

/** Ports whose fans follow a setting: board fan headers in use, and a controller's own fan ports in use. */
export function governedPorts(build: Build): readonly number[] {
  return build.sockets.filter((s) => {
    if ((build.plugIn[s] ?? NOWHERE) < 0) return false
    if (build.fanHeaders.has(s)) return true
    const part = build.parts[build.partOf[s] ?? NOWHERE]?.part
    return (
      part?.kind === 'controller' &&
      part.fanControl === 'own' &&
      (build.ports[s]?.name.startsWith('fan') ?? false)
    )
  })
}

/** Channels of lights that anything hangs on. */
export const channelsInUse = (build: Build): readonly Channel[] =>
  channelsOf(build).filter((c) => c.sockets.some((s) => (build.plugIn[s] ?? NOWHERE) >= 0))

/** Whether a host program can tell any lights of this build what to show. */
export const litByHost = (build: Build): boolean =>
  channelsInUse(build).length > 0 ||
  build.parts.some(({ part }) => part.kind === 'pump' && part.host === 'usb' && part.lights.length > 0)

/** Whether a host program drives lights, or sets and reads fans, of this build at all. */
export const hasHostWork = (build: Build): boolean => litByHost(build) || readByHost(build)

/** A controller that sets its fans itself reports them to the host program only. */
const readByHost = (build: Build): boolean => governedPorts(build).some((s) => !build.fanHeaders.has(s))
