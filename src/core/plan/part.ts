/** The kinds of parts that lie in the case, each with what tells how it behaves in the wiring. */

export type PartId = string

export type PlugKind = 'sata' | 'peripheral'
export type LightVolts = 5 | 12
export type BeforeHost = 'stored-pattern' | 'dark'

/** Common to every part that lies in the case. */
interface PartBase {
  readonly id: PartId
  /** Free text as written, such as `front-bottom`. */
  readonly at?: string
  /** How hard its leads are to get at; multiplies the minutes of hands-in work. */
  readonly reach: 'open' | 'tight' | 'behind-cover'
  readonly note?: string
}

/** A motor with its tach. RPM at 12 V; duty in percent. */
export interface Motor {
  /** Where 12 V comes from: the motor lead itself, or a supply plug of its own (port `power`). */
  readonly feed: 'lead' | PlugKind
  readonly pins: 2 | 3 | 4
  readonly amps: number
  readonly startAmps: number
  /** With the blades held fast, where the plan says. */
  readonly lockedAmps?: number
  readonly rpm: readonly [min: number, max: number]
  /** Lowest volts at which it starts from rest in DC drive. */
  readonly startVolts: number
  /** Lowest duty at which it starts from rest in PWM drive, percent. */
  readonly startDuty: number
  /** What it does under its lowest duty: keeps its minimum, keeps it but stops at 0, or stops. */
  readonly belowMin: 'keeps' | 'stops-at-zero' | 'stops'
  readonly pulses: number
  /** What the third wire says: pulses, a steady running or locked level, or nothing. */
  readonly tach: 'pulses' | 'level' | 'none'
  /** Has a socket `motor_out` that passes everything but the tach on to the next. */
  readonly passesOn: boolean
}

/** One set of lights; `port` is the plug's name, `light` for the first. */
export interface Light {
  readonly port: string
  readonly volts: LightVolts
  readonly leds: number
  /** At full white. */
  readonly amps: number
  /** The colour order that its LEDs expect. */
  readonly colours: string
  /** Returns the data to the socket it hangs on, which a series hub needs. */
  readonly returns: boolean
  /** Has a socket `<port>_out` that passes supply and data on to the next. */
  readonly passesOn: boolean
  readonly mm?: number
  readonly awg?: number
}

export interface Fan extends PartBase {
  readonly kind: 'fan'
  readonly motor?: Motor
  readonly lights: readonly Light[]
  /** Into the case, out of it, or `inside` it, as on the processor's cooler. */
  readonly flow: 'in' | 'out' | 'inside' | 'unknown'
  readonly sizeMm?: number
  /** The radiator that it is screwed to, if any. */
  readonly on?: string
  readonly cfm?: number
}

export interface Pump extends PartBase {
  readonly kind: 'pump'
  readonly motor: Motor
  readonly lights: readonly Light[]
  /** Has a USB plug of its own and drives its lights itself. */
  readonly host: 'usb' | 'none'
  readonly beforeHost: BeforeHost
  readonly usbMilliamps: number
}

export interface Strip extends PartBase {
  readonly kind: 'strip'
  readonly lights: readonly Light[]
}

export interface FanSplitter extends PartBase {
  readonly kind: 'fan-splitter'
  readonly ways: number
  /** The way whose tach goes back to the header; `all` joins them (a fault of design), `none` returns none. */
  readonly tachFrom: number | 'all' | 'none'
  readonly passesControl: boolean
}

export interface FanHub extends PartBase {
  readonly kind: 'fan-hub'
  readonly ports: number
  readonly power: PlugKind | 'header'
  readonly amps: number
  readonly portAmps: number
  readonly tachFrom: number | 'all' | 'none'
  readonly passesControl: boolean
}

export interface LightHub extends PartBase {
  readonly kind: 'light-hub'
  readonly ports: number
  readonly volts: LightVolts
  /** In series the data goes out to a port and comes back before it goes to the next; in parallel all get the same. */
  readonly chain: 'series' | 'parallel'
  readonly power: PlugKind | 'header'
  readonly host: 'usb' | 'header' | 'none'
  readonly beforeHost: BeforeHost
  readonly amps: number
  readonly portAmps: number
  readonly maxLeds?: number
  /** High level of the data lines that it drives itself, where the plan says. */
  readonly dataVolts?: number
  readonly usbMilliamps: number
}

export interface Controller extends PartBase {
  readonly kind: 'controller'
  readonly fanPorts: number
  readonly lightPorts: number
  readonly volts: LightVolts
  /** `separate`: each light port is a channel of its own; else one channel over all of them. */
  readonly chain: 'separate' | 'series' | 'parallel'
  readonly power: PlugKind
  readonly host: 'usb' | 'header' | 'none'
  /** Who sets the fans: itself (settings by port), or the board header that its lead `in` hangs on. */
  readonly fanControl: 'own' | 'header'
  readonly tachFrom: number | 'none'
  readonly beforeHost: BeforeHost
  readonly fanAmps: number
  readonly fanPortAmps: number
  readonly lightAmps: number
  readonly lightPortAmps: number
  readonly maxLeds?: number
  readonly dataVolts?: number
  readonly usbMilliamps: number
}

export interface LightSplitter extends PartBase {
  readonly kind: 'light-splitter'
  readonly ways: number
  readonly volts: LightVolts
  readonly amps: number
}

export interface UsbHub extends PartBase {
  readonly kind: 'usb-hub'
  readonly ports: number
  readonly power: 'bus' | PlugKind
  readonly portMilliamps: number
  readonly ownMilliamps: number
}

/** A short lead with another connector at each end; it passes what both ends have. */
export interface Adapter extends PartBase {
  readonly kind: 'adapter'
  readonly from: Connector
  readonly to: Connector
  readonly outs: number
  readonly moulded: boolean
}

/** Anything that takes an internal USB port and is not of interest otherwise (front panel, card reader). */
export interface UsbDevice extends PartBase {
  readonly kind: 'usb-device'
  readonly ports: number
  readonly usbMilliamps: number
}

export type Part =
  | Fan
  | Pump
  | Strip
  | FanSplitter
  | FanHub
  | LightHub
  | Controller
  | LightSplitter
  | UsbHub
  | Adapter
  | UsbDevice

export type PartKindName = Part['kind']

/** `fan3` and `fan4` differ in the control pin; `light5` is three wires and a key, `light12` four pins. */
export type Connector =
  | 'fan3'
  | 'fan4'
  | 'light5'
  | 'light12'
  | 'sata'
  | 'peripheral'
  | 'usb2'
  | 'usb2-pair'
  | 'usb3'
