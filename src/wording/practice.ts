/** What practice says of its own; steps, questions and sightings are said as in a job. */
import type { Group } from '../job/practice/options.ts'
import type { Level } from '../job/practice/plantable.ts'

export interface PracticeWords {
  readonly intro: (build: string, symptom: string) => readonly string[]
  /** How to get the same exercise again. */
  readonly again: (seed: number, level: Level) => string
  readonly seen: string
  /** Heads of the pages on which is read what the exercise is, and what the bench answers; and the way on. */
  readonly begins: string
  readonly answers: (power: string, minutes: string) => string
  readonly goOn: string
  readonly next: (power: string, minutes: string) => string
  readonly group: Readonly<Record<Group, readonly [label: string, hint: string]>>
  /** A row behind which there is a choice of so many steps. */
  readonly count: (label: string, steps: number) => string
  readonly which: (group: string, thing: string) => string
  readonly part: string
  readonly minutes: (label: string, minutes: string) => string
  readonly trial: (edits: string) => string
  readonly powerCycle: string
  readonly needs: (off: boolean, tools: readonly string[], spare: string | null) => string
  readonly back: string
  readonly giveUp: string
  readonly do: (title: string, minutes: string) => string
  readonly done: string
  readonly nameIt: string
  readonly nameHint: string
  readonly right: (fault: string) => string
  readonly alike: (named: string, fault: string) => string
  readonly wrong: (named: string, fault: string) => string
  readonly notNamed: (fault: string) => string
  readonly notMended: string
  readonly compare: (minutes: string, choices: number, engine: string) => string
  /** The two beside each other, as long as their minutes: names for the bars. */
  readonly you: string
  readonly engine: string
  readonly engineGaveUp: string
  readonly straight: string
  readonly astray: (nth: number, chosen: string, loss: string) => string
  readonly idle: string
  readonly better: (step: string) => string
  readonly betterHandOver: string
  readonly engineWay: string
  readonly badLevel: (given: string, known: readonly string[]) => string
  readonly badSeed: (given: string) => string
  readonly faultOrLevel: string
  readonly noFault: (level: Level) => string
  readonly unseen: (fault: string) => string
  /** While the fault is chosen and the best way to it is found. */
  readonly planting: string
  readonly noDemo: string
}
