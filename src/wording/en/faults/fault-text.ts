/** What the tables of faults are made of: a mode's sentence, drawn from where the fault sits. */
import type { FaultText, Scene } from '../../language.ts'

/** @param rest what the mode carries in its name: a number, a conductor, a reference */
export type Say = (at: string, scene: Scene, rest: string) => FaultText

/** Modes that carry something in their name, by the form of that name. */
export type Numbered = readonly (readonly [RegExp, Say])[]

export const text = (name: string, is: string): FaultText => ({ name, is })
