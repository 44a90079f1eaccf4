/**
 * A build as the program holds it once the plan file has been read: every shorthand spelled out, every unit
 * turned into amps, volts, millimetres. `assumed` tells what the person did not write, so that a finding can say
 * that it rests on the trade's usual value.
 */
import type { BeforeHost, LightVolts, Part, PartId, PlugKind } from './part.ts'
import type { Place } from './problem.ts'

/** `part.port`, such as `F1.motor`, `H1.3`, `board.SYS1`, `supply.SA.1`, `board.U1.a`. */
export type PortRef = string
export type Drive = 'auto' | 'pwm' | 'dc'

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
