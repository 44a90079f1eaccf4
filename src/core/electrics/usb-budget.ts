/** Ports, current and depth of USB, as far as internal headers and hubs need them. */

/** Milliamps of one unit load. @source USB handbook, power chapter */
export const UNIT_LOAD_MA = { usb2: 100, usb3: 150 } as const
/** Unit loads that a configured device may take. */
export const UNIT_LOADS = { usb2: 5, usb3: 6 } as const

/** Milliamps that a full port gives. */
export const portMa = (kind: 'usb2' | 'usb3'): number => UNIT_LOADS[kind] * UNIT_LOAD_MA[kind]

/** What is left of a port under a bus-powered hub, milliamps; negative when over. */
export const hubMaLeft = (totalMa: number, ownMa: number, devices: readonly number[]): number =>
  totalMa - ownMa - devices.reduce((sum, ma) => sum + ma, 0)

/** Ports that a bus-powered hub can feed, one unit load each. @source USB handbook, bus-powered hubs */
export const busHubPorts = (totalMa: number = portMa('usb2'), ownMa: number = UNIT_LOAD_MA.usb2): number =>
  Math.floor((totalMa - ownMa) / UNIT_LOAD_MA.usb2)

/** Milliamps by which a device wants more than its port gives. */
export const portMaOver = (wantMa: number, givenMa: number): number => wantMa - givenMa

/** Tiers with the root hub and the device itself. @source USB 2.0 specification, bus topology (from memory) */
export const MOST_TIERS = 7
export const tierOf = (hubsBetween: number): number => 1 + hubsBetween + 1
export const hubsBetweenAtMost = (tiers: number = MOST_TIERS): number => tiers - 2
/** Devices on one host controller: seven bits of address without zero. @source general USB introduction */
export const mostDevices = (addressBits = 7): number => 2 ** addressBits - 1

/** The internal nine-pin header. @source desktop-board manual, USB 2.0 header table */
export const HEADER_9_PIN = { signalPins: 8, pinsPerPort: 4, keyPin: 9, unconnectedPin: 10 } as const
export const headerPorts = (): number => HEADER_9_PIN.signalPins / HEADER_9_PIN.pinsPerPort
/** Amps of a header with all its ports at full load. */
export const headerAmps = (ports: number, kind: 'usb2' | 'usb3' = 'usb2'): number =>
  (ports * portMa(kind)) / 1000
