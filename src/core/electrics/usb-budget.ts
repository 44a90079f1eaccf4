/** Ports, current and depth of USB, as far as internal headers and hubs need them. */

/** Milliamps of one unit load. @source USB handbook, power chapter */
export const UNIT_LOAD_MA = { usb2: 100, usb3: 150 } as const
/** Unit loads that a configured device may take. */
const UNIT_LOADS = { usb2: 5, usb3: 6 } as const

/** Milliamps that a full port gives. */
export const portMa = (kind: 'usb2' | 'usb3'): number => UNIT_LOADS[kind] * UNIT_LOAD_MA[kind]

/** Ports that a bus-powered hub can feed, one unit load each. @source USB handbook, bus-powered hubs */
export const busHubPorts = (totalMa: number = portMa('usb2'), ownMa: number = UNIT_LOAD_MA.usb2): number =>
  Math.floor((totalMa - ownMa) / UNIT_LOAD_MA.usb2)

/** Tiers with the root hub and the device itself. @source USB 2.0 specification, bus topology (from memory) */
export const MOST_TIERS = 7
export const tierOf = (hubsBetween: number): number => 1 + hubsBetween + 1
export const hubsBetweenAtMost = (tiers: number = MOST_TIERS): number => tiers - 2
