/**
 * What the full screen says of its own: heads, keys, help, one-line remarks. Everything about the job itself comes from
 * `Language`; these are the words around it.
 */
import type { Conductor } from '../core/plan/ports.ts'
import type { Scene } from './language.ts'
import type { MarkWords } from './screen-marks.ts'
import type { Mode } from './screen-mode.ts'

/** Connectors that can be drawn. */
export type PictureKind = 'fan3' | 'fan4' | 'light5' | 'light12' | 'sata' | 'peripheral' | 'usb2' | 'usb3'

/** A key and what it does, for the bar at the bottom and the help. */
export type KeyName =
  | 'take-done'
  | 'take-answer'
  | 'take-marks'
  | 'take-more'
  | 'take-on'
  | 'take-close'
  | 'take-yes'
  | 'take-back'
  | 'take-note'
  | 'take-sign'
  | 'take-reading'
  | 'take-exit'
  | 'take-filter'
  | 'move'
  | 'mark'
  | 'mark-all'
  | 'scroll'
  | 'escape'
  | 'no'
  | 'unsure'
  | 'cannot'
  | 'why'
  | 'trail'
  | 'undo'
  | 'note'
  | 'reading'
  | 'filter'
  | 'wiring'
  | 'picture'
  | 'expected'
  | 'told'
  | 'fold'
  | 'unfold'
  | 'hand-over'
  | 'help'
  | 'leave'

/** What is said of the last key where that needs no more than its name. */
export type Remark =
  | 'nothing-to-undo'
  | 'no-such-row'
  | 'gate-not-yet'
  | 'none-marked'
  | 'read-on'
  | 'no-picture'
  | 'noted'
  | 'folded'
  | 'unfolded'
  | 'was-read'
  | 'no-reading'
  | 'not-here'
  | 'at-top'
  | 'held-key'

export interface ScreenWords {
  /** Short, for the bar. */
  readonly key: Readonly<Record<KeyName, string>>
  /** A sentence each, for the help. */
  readonly help: Readonly<Partial<Record<KeyName, string>>>
  readonly head: Readonly<Record<Mode, string>>
  readonly power: Readonly<Record<'on' | 'off', string>>
  /** As wide as the others. */
  readonly powerUnknown: string
  /** How far a first boot is. */
  readonly walked: (n: number, of: number) => string
  /** Beside how far a job is: these minutes are behind, not ahead. */
  readonly spent: (minutes: string) => string
  readonly hands: Readonly<Record<'in' | 'out', string>>
  /** The same for narrow screens. */
  readonly handsShort: Readonly<Record<'in' | 'out', string>>
  readonly farShort: (groups: number, minutes: number) => string
  readonly where: string
  /** A port on the drawn run of a lead, beside its part (`lead SA plug 1`) and where that is not drawn. */
  readonly tag: (ref: string, scene: Scene) => string
  readonly tagAlone: (ref: string, scene: Scene) => string
  readonly joint: Readonly<Record<'planned' | 'unplugged' | 'moved' | 'suspect', string>>
  readonly ways: Readonly<Record<'done' | 'not-yet' | 'unsure' | 'cannot', string>>
  readonly exit: string
  readonly mark: MarkWords
  readonly settling: string
  readonly writing: string
  readonly more: (lines: number) => string
  /** With the number of lines below the fold of a text that is to be read. */
  readonly readOn: (lines: string) => string
  /** Where remarks have no room above the question: not read yet, and read before. */
  readonly toldMore: (count: number) => string
  readonly toldAgain: (count: number) => string
  readonly readToEnd: string
  readonly filter: (text: string) => string
  readonly nothingMatches: string
  /** What was recorded stands between the two. */
  readonly taken: readonly [before: string, after: string]
  /** The same for what hands did, which no key takes back. */
  readonly did: readonly [before: string, after: string]
  /** Behind what an Enter came to, where a second one came too soon to be meant. */
  readonly heldAfter: string
  readonly takenBack: (count: number) => string
  readonly takesBack: string
  readonly takesBackOne: string
  readonly shareHead: string
  readonly shareChange: (suspect: string, was: string, is: string) => string
  readonly trailEmpty: string
  readonly suspects: string
  readonly noSuspects: string
  readonly stillChanged: string
  readonly nothingTold: string
  readonly noteHow: string
  readonly signHow: string
  readonly readingHow: readonly string[]
  readonly leaveHow: (log: string) => readonly string[]
  readonly handOverHow: readonly string[]
  readonly said: Readonly<Record<Remark, string>>
  readonly tooSmall: (columns: number, rows: number) => readonly string[]
  readonly zones: Readonly<Record<'top' | 'rear' | 'middle' | 'front' | 'bottom', string>>
  readonly record: { readonly head: string; readonly log: string; readonly resume: string }
  readonly choose: {
    readonly symptom: string
    /** Where what stands above a menu goes on. */
    readonly readOn: string
    readonly how: string
    readonly several: string
  }
  readonly start: StartWords
  readonly seen: {
    readonly nothing: string
    readonly same: (sighting: string) => string
    readonly unlike: (sighting: string, planned: string) => string
    readonly open: (sighting: string) => string
  }
  readonly picture: {
    /** By kind of connector, with the name of the port. */
    readonly head: Readonly<Record<PictureKind, (port: string) => string>>
    readonly red: string
    readonly black: string
    readonly blackElsewhere: string
    readonly key: string
    readonly volts: (nominal: string, from: string, to: string) => string
    /** What keeps the plug from going on the wrong way, by kind. */
    readonly fits: Readonly<Record<PictureKind, string>>
    /** Short enough for a column of a drawing. */
    readonly wire: Readonly<Record<Conductor, string>>
    readonly unused: string
  }
  readonly wiring: { readonly open: string; readonly moved: string; readonly unplugged: string }
}

/** What can be done with a build, as offered on the first screen. */
export type BuildDoing = 'diagnose' | 'first-boot' | 'check' | 'draw' | 'practice'

/** The first screen: what the program is asked to do when it is called by its name alone. */
export interface StartWords {
  readonly title: string
  /** Where there is nothing yet: what the program is for; with the demo build where it is at hand. */
  readonly welcome: (demo: boolean) => readonly string[]
  /** @param began where another job reads the same */
  readonly resume: (build: string, symptom: string, began: string | null) => string
  readonly resumeHint: (began: string, minutes: string, log: string) => string
  readonly build: (file: string) => string
  readonly buildHint: string
  readonly demo: string
  readonly demoHint: string
  /** Its name inside a sentence. */
  readonly demoBuild: string
  readonly create: string
  readonly createHint: string
  readonly help: string
  readonly helpHint: string
  readonly whatWith: (file: string) => string
  readonly doing: Readonly<Record<BuildDoing, readonly [label: string, hint: string]>>
}
