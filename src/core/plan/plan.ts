/**
 * A build as the program holds it once the plan file has been read: every shorthand spelled out, every unit
 * turned into amps, volts, millimetres. `given` tells what the person wrote and what was assumed, so that a
 * finding can say "assumed" where it rests on the trade's usual value.
 */

export type PartId = string
/** `part.port`, such as `F1.motor`, `H1.3`, `board.SYS1`, `supply.SA.1`, `board.U1.a`. */
export type PortRef = string
/** Where something stands in a file; line and column count from 1. */
export interface Place {
  readonly file: string
  readonly line: number
  readonly col: number
}

export type PlugKind = 'sata' | 'peripheral'
export type Drive = 'auto' | 'pwm' | 'dc'
export type LightVolts = 5 | 12

/** Most amps by rail, over the whole lead; not named in the plan, it is what one plug of its kind carries. */
export interface SupplyLead {
  readonly id: string
  readonly kind: PlugKind
  readonly plugs: number
  readonly amps5: number
  readonly amps12: number
  /** Pushed into the supply by hand, so it can be left out there. */
  readonly modular: boolean
  readonly mm?: number
  readonly awg?: number
}

export interface Supply {
  readonly leads: readonly SupplyLead[]
  readonly watts?: number
}

export interface FanHeader {
  readonly id: string
  /** `cpu` is watched at power-on; `pump` is meant to run at full speed. */
  readonly role: 'fan' | 'cpu' | 'pump'
  readonly pins: 3 | 4
  readonly amps: number
  /** What the header can do; `auto` chooses by the plug and takes a setting as well. */
  readonly drive: Drive
  /** A header that goes dead when overloaded and comes back; without, overload does damage. */
  readonly protected: boolean
}

export interface LightHeader {
  readonly id: string
  readonly volts: LightVolts
  readonly amps: number
  readonly maxLeds?: number
  /** High level of its data line, where the plan says. */
  readonly dataVolts?: number
}

export interface UsbHeader {
  readonly id: string
  readonly kind: 'usb2' | 'usb3'
  /** Ports on the header, named a, b, c, …; one 9-pin header has two. */
  readonly ports: number
  /** Offered by each of its ports. */
  readonly milliamps: number
}

export interface Board {
  readonly fanHeaders: readonly FanHeader[]
  readonly lightHeaders: readonly LightHeader[]
  readonly usbHeaders: readonly UsbHeader[]
  /** What the board's light headers do before a host program speaks. */
  readonly beforeHost: BeforeHost
}

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

/** From the plug at a part's own lead to the socket that it is pushed into. */
export interface PlannedLead {
  readonly plug: PortRef
  readonly socket: PortRef
  readonly mm?: number
  readonly awg?: number
  readonly place: Place
}

export interface HeaderSetting {
  readonly drive?: 'pwm' | 'dc'
  /** Duty in percent over degrees Celsius, rising. */
  readonly curve?: readonly (readonly [celsius: number, duty: number])[]
  /** So late it follows a temperature that rises, seconds; 0: at once. */
  readonly delay?: number
  readonly pulses?: number
  /** Below this the board raises an alarm, RPM; 0 means it never does. */
  readonly alarmBelow?: number
}

export interface ChannelSetting {
  /** LEDs told, by port or by part in chain order. */
  readonly profile?: readonly number[]
  readonly colours?: string
  /** Percent of full; absent where nothing is set. */
  readonly brightness?: number
}

export interface Settings {
  /** By header id (`SYS1`) or by port of a controller (`C1.fan2`). */
  readonly headers: Readonly<Record<string, HeaderSetting>>
  /** By hub id (`H1`), by controller port (`C1.light1`) or by board light header (`L1`). */
  readonly channels: Readonly<Record<string, ChannelSetting>>
  readonly host: { readonly program: 'running' | 'absent'; readonly globalEffect: 'on' | 'off' }
  /** USB ports that firmware or a switch has turned off. */
  readonly ports: Readonly<Record<PortRef, { readonly enabled: boolean }>>
  /** What the curves see, degrees Celsius. */
  readonly celsius: number
}

/** A name under which a reading of another tool knows a place. */
export interface ReadingName {
  /** In small letters: `fan1`, `nct6798/fan1`, `1209:0001`. */
  readonly name: string
  /** A port (`board.SYS1`, `C1.fan2`) or a part (`H1`). */
  readonly ref: string
}

export interface Plan {
  readonly build: string
  readonly supply: Supply
  readonly board: Board
  readonly parts: readonly Part[]
  readonly leads: readonly PlannedLead[]
  readonly settings: Settings
  readonly lightOrder: readonly PartId[]
  readonly readings: readonly ReadingName[]
  /** What can be had at the bench, if the plan says. */
  readonly spares: readonly string[]
  /** Where each thing stands: by path such as `parts.F1`, `parts.F1.motor.amps`, `board.fan_headers.SYS1`, `settings.headers.SYS1.curve`. */
  readonly places: ReadonlyMap<string, Place>
  /** Paths whose value is the trade's usual one, because the plan does not say. */
  readonly assumed: ReadonlySet<string>
}

/** Something in a file that cannot be used as it stands. */
export interface Problem {
  readonly at: Place
  readonly found: string
  readonly expected: string
  readonly todo: string
}

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] }
