/**
 * What a reading of another tool says, as plain records before they are laid over a build: speeds, drives,
 * temperatures, devices on USB. Names are the tool's own; which header or part they stand for, a person says.
 */

export type Source = 'sensors' | 'hwmon' | 'usb-list' | 'usb-tree' | 'usb-details' | 'kernel-log' | 'redfish'

/** One tach channel. Figures that the tool did not give are left out; an empty file is not 0. */
export interface FanRecord {
  /** `fan1`, or the name of the resource. */
  readonly channel: string
  readonly chip: string
  readonly label?: string
  /** Other names by which it may be called. */
  readonly also: readonly string[]
  /** Figures in their order, RPM; one, or a series taken some seconds apart. */
  readonly rpm: readonly number[]
  /** Only a share of the top speed was given, percent: no speed. */
  readonly percent?: number
  readonly min?: number
  readonly alarm?: boolean
  /** Failed, or not to be trusted, by the tool's own word. */
  readonly fault?: boolean
  readonly pulses?: number
  readonly div?: number
  /** The channel is turned off: no data. */
  readonly off?: true
  /** A place with no fan fitted, by the tool's own word. */
  readonly absent?: true
  /** Two figures of the same thing in one reading do not agree. */
  readonly disputed?: true
}

export interface DriveRecord {
  readonly channel: string
  readonly chip: string
  /** 0 to 100. */
  readonly percent?: number
  /** 0 no control, 1 by hand, 2 and up by itself. */
  readonly enable?: number
  readonly mode?: 'pwm' | 'dc'
  /** Celsius and percent. */
  readonly curve?: readonly (readonly [number, number])[]
}

export interface UsbDevice {
  /** `1209:0001`, where the tool says it. */
  readonly id?: string
  /** `1-9.1`: bus and ports on the way, where the tool says it. */
  readonly path?: string
  readonly isRoot: boolean
  readonly driverless?: true
}

export interface UsbPort {
  readonly path: string
  /** What the log of the system last knew of it. */
  readonly state: 'there' | 'gone' | 'never-answered' | 'comes-and-goes'
}

/** Something a person should know, which answers no question by itself. */
export type Remark =
  | 'repaired-stray-lines'
  | 'repaired-comma'
  | 'doubled-name'
  | 'no-fan-data'
  | 'hub-claims-self-powered'
  | 'no-driver'
  | 'percent-over-100'
  | 'sources-disagree'
  | 'links-only'
  | 'count-mismatch'
  | 'several-chips'

export interface Reading {
  readonly source: Source
  readonly fans: readonly FanRecord[]
  readonly drives: readonly DriveRecord[]
  /** Degrees Celsius of the board and the processor, as far as they make sense. */
  readonly celsius: readonly number[]
  /** The devices of a list that can be trusted to name all; null where the reading lists none. */
  readonly usb: { readonly complete: boolean; readonly devices: readonly UsbDevice[] } | null
  readonly ports: readonly UsbPort[]
  readonly remarks: readonly { readonly code: Remark; readonly at: string }[]
}

/** Why a text gives no reading at all. */
export type Unreadable = 'empty' | 'not-known' | 'broken' | 'fahrenheit' | 'too-long'

export type ReadText =
  | { readonly ok: true; readonly reading: Reading }
  | { readonly ok: false; readonly why: Unreadable; readonly line?: number; readonly found?: string }

export const NOTHING: Omit<Reading, 'source'> = {
  fans: [],
  drives: [],
  celsius: [],
  usb: null,
  ports: [],
  remarks: [],
}

/** Temperatures that a sensor without a probe shows are left out. */
export const isRoomLike = (celsius: number): boolean => celsius >= 5 && celsius <= 110
