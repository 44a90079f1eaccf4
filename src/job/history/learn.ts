/**
 * Closed jobs to factors on the catalogue's weights, by class of fault, in two steps: first for the wider classes, then for
 * each class within its wider one, so that few jobs speak for all that is alike and many for the very place.
 */
import { type Learned, widerOf } from '../../core/infer/learned.ts'
import { factorsOf, type Tally } from './dirichlet.ts'

/** What one closed job teaches. */
export interface Lesson {
  /** The catalogue's shares on that build. */
  readonly shares: ReadonlyMap<string, number>
  /** The causes by class; where several cannot be told apart, each has its part of 1. */
  readonly causes: ReadonlyMap<string, number>
}

/** Lessons added up. Sums of counts are counts, so they can be kept and added to. */
export interface Counts {
  /** Closed jobs that taught something. */
  readonly jobs: number
  /** By class: what turned up, and what the catalogue would have expected of as many jobs. */
  readonly classes: ReadonlyMap<string, Tally>
}

function add(to: Map<string, Tally>, key: string, { counted, expected }: Tally): void {
  const sum = to.get(key)
  to.set(key, { counted: (sum?.counted ?? 0) + counted, expected: (sum?.expected ?? 0) + expected })
}

/** What all lessons counted and expected, by class of fault. */
export function countsOf(lessons: readonly Lesson[]): Counts {
  const classes = new Map<string, Tally>()
  let jobs = 0
  for (const { shares, causes } of lessons) {
    const each = [...causes.values()].reduce((sum, c) => sum + c, 0)
    if (each <= 0) continue
    jobs++
    for (const [key, q] of shares) add(classes, key, { counted: 0, expected: q * each })
    for (const [key, n] of causes) add(classes, key, { counted: n, expected: 0 })
  }
  return { jobs, classes }
}

/** Classes with their wider one; a class that is as wide itself has none. */
function gathered(classes: Counts['classes']) {
  const wide = new Map<string, Tally>()
  const within = new Map<string, Map<string, Tally>>()
  for (const [key, tally] of classes) {
    const wider = widerOf(key)
    add(wide, wider, tally)
    if (key !== wider) within.set(wider, (within.get(wider) ?? new Map<string, Tally>()).set(key, tally))
  }
  return { wide, within }
}

/** Pure. @returns a factor for each class that could have turned up, and each wider one; with nothing counted, nothing. */
export function learnFrom({ classes }: Counts): Learned {
  const { wide, within } = gathered(classes)
  const learned = new Map(factorsOf(wide))
  for (const [wider, members] of within)
    for (const [key, factor] of factorsOf(members)) learned.set(key, (learned.get(wider) ?? 1) * factor)
  return learned
}

export const learn = (lessons: readonly Lesson[]): Learned => learnFrom(countsOf(lessons))
