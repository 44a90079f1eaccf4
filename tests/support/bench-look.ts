/**
 * One build on the bench, asked in a few words: `benchOf(plan).fault('F1.motor:open-TACH').edit('power off').see('rpm board.SYS1')`.
 * Each word gives a new bench, so one healthy build serves many cases of a test.
 */
import { type Build, compile } from '../../src/core/bench/build.ts'
import { type Edit, parseEdit } from '../../src/core/bench/edit.ts'
import { everything } from '../../src/core/bench/everything.ts'
import { type Observable, observableKey, type Value, type What } from '../../src/core/bench/observable.ts'
import { type Plant, run } from '../../src/core/bench/run.ts'
import { faultByName } from '../../src/core/faults/catalogue.ts'
import { parseFault } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'

export interface Bench {
  readonly build: Build
  /** With these faults planted too, each `AT:MODE`. */
  fault(...faults: readonly string[]): Bench
  /** After these edits too, in the words of the line protocol. */
  edit(...edits: readonly string[]): Bench
  /** With the mains off, whatever the edits say. */
  off(): Bench
  /** Loose joints make contact just now. */
  touching(): Bench
  /** `spins F1`, `rpm board.SYS1`: the value, or null. */
  see(observable: string): Value | null
  /** One kind of look over several places. */
  seeAll(what: What, ...at: readonly string[]): (Value | null)[]
  /** Everything that can be looked at, by its name. */
  all(): Record<string, Value | null>
}

interface State {
  readonly faults: readonly string[]
  readonly edits: readonly Edit[]
  readonly power?: 'off'
  readonly contact: boolean
}

export const observableOf = (text: string): Observable => {
  const blank = text.indexOf(' ')
  return { what: text.slice(0, blank) as What, at: text.slice(blank + 1) }
}

export function editOf(text: string): Edit {
  const edit = parseEdit(text)
  if (!edit) throw new Error(`no such edit: ${text}`)
  return edit
}

export function plantOf(build: Build, text: string): Plant {
  const fault = parseFault(text)
  const known = fault && faultByName(build, fault)
  if (!known) throw new Error(`no such fault on this build: ${text}`)
  return known.plant
}

function bench(build: Build, state: State): Bench {
  const plants = state.faults.map((text) => plantOf(build, text))
  const sight = run(build, {
    plants,
    edits: state.edits,
    contact: state.contact,
    ...(state.power ? { power: state.power } : {}),
  })
  return {
    build,
    fault: (...faults) => bench(build, { ...state, faults: [...state.faults, ...faults] }),
    edit: (...edits) => bench(build, { ...state, edits: [...state.edits, ...edits.map(editOf)] }),
    off: () => bench(build, { ...state, power: 'off' }),
    touching: () => bench(build, { ...state, contact: true }),
    see: (text) => sight.see(observableOf(text)),
    seeAll: (what, ...at) => at.map((place) => sight.see({ what, at: place })),
    all: () => Object.fromEntries(everything(build).map((o) => [observableKey(o), sight.see(o)])),
  }
}

export const benchOf = (plan: Plan): Bench => bench(compile(plan), { faults: [], edits: [], contact: false })
