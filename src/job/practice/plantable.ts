/**
 * Which faults make an exercise of a build, and how hard each is. A fault is hard when much has to be found out to tell it
 * from the others that look the same at first: the surprise, in bits, of it being this one of them, each as likely as the
 * catalogue says. Chance comes in as a number.
 */
import type { Flow } from '../../../flows/shared/flow.ts'
import type { Build } from '../../core/bench/build.ts'
import type { Observable } from '../../core/bench/observable.ts'
import { referenceOf, run } from '../../core/bench/run.ts'
import { type MapKind, mappedAll } from '../../core/checks/maps.ts'
import { faultsOf, type KnownFault } from '../../core/faults/catalogue.ts'
import { faultText } from '../../core/faults/fault.ts'
import { wanted } from '../../core/infer/planned.ts'

export const LEVELS = ['easy', 'medium', 'hard'] as const
export type Level = (typeof LEVELS)[number]

export interface Plantable {
  readonly known: KnownFault
  /** The symptom that a person would come with. */
  readonly symptom: string
  /** What has to be found out, in bits. */
  readonly bits: number
  /** Faults that show the same at first have the same text here. */
  readonly looks: string
  readonly level: Level
}

const KINDS: readonly MapKind[] = ['lit', 'spins', 'rpm', 'shows', 'steady', 'flickers']
/** Who has a fault that comes and goes says so. */
const WATCHED: readonly string[] = ['steady', 'flickers']

/** What a person would see at once, as one text; and what of it is not as meant. */
function firstSight(
  build: Build,
  known: KnownFault,
  observe: readonly Observable[],
  reference: ReturnType<typeof referenceOf>,
): { readonly all: string; readonly wrong: ReadonlySet<string> } {
  const sight = run(build, { plants: [known.plant], edits: [] }, reference)
  const values = observe.map((o) => sight.see(o))
  const wrong = observe.filter((o, i) => values[i] !== wanted(build, o)).map((o) => o.what)
  return { all: values.join(), wrong: new Set(wrong) }
}

/** The first flow whose opening look shows something; of what comes and goes, one that watches for it. */
function symptomOf(
  flows: readonly Flow[],
  { intermittent }: KnownFault,
  wrong: ReadonlySet<string>,
): string | undefined {
  const begins = (of: ReadonlySet<string>) =>
    flows.find(({ scoping: [first] }) => first !== undefined && 'map' in first && of.has(first.map))?.id
  const watched = intermittent ? WATCHED.filter((what) => wrong.has(what)) : []
  return begins(new Set(watched)) ?? begins(wrong)
}

/** The symptom that a person would come with under a fault; undefined where it shows in none. */
export function symptomFor(build: Build, flows: readonly Flow[], known: KnownFault): string | undefined {
  const sight = firstSight(build, known, mappedAll(build, KINDS), referenceOf(build, []))
  return symptomOf(flows, known, sight.wrong)
}

/** All faults of a build that show in some symptom, the easiest first; a third of them at each level. */
export function plantables(build: Build, flows: readonly Flow[]): readonly Plantable[] {
  const observe = mappedAll(build, KINDS)
  const reference = referenceOf(build, [])
  const shown = faultsOf(build).flatMap((known) => {
    const sight = firstSight(build, known, observe, reference)
    const symptom = symptomOf(flows, known, sight.wrong)
    return symptom === undefined ? [] : [{ known, symptom, all: sight.all }]
  })
  const mass = new Map<string, number>()
  for (const { all, known } of shown) mass.set(all, (mass.get(all) ?? 0) + known.weight)
  return shown
    .map(({ known, symptom, all }) => ({
      known,
      symptom,
      looks: all,
      bits: Math.log2((mass.get(all) ?? known.weight) / known.weight),
    }))
    .sort((a, b) => a.bits - b.bits || (faultText(a.known.fault) < faultText(b.known.fault) ? -1 : 1))
    .map((one, i, { length }) => ({ ...one, level: LEVELS[Math.floor((3 * i) / length)] ?? 'hard' }))
}

/** A number from 0 up to 1 out of a whole one, well mixed (the finalizer of MurmurHash3, which is in the public domain). */
function mixed(seed: number): number {
  let h = seed | 0
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32
}

/** The exercise of this number at this level, undefined where the build has none. */
export function drawn(all: readonly Plantable[], level: Level, seed: number): Plantable | undefined {
  const there = all.filter((p) => p.level === level)
  const likely = there.reduce((sum, p) => sum + p.known.weight, 0)
  let at = mixed(seed + 1) * likely
  for (const one of there) {
    at -= one.known.weight
    if (at < 0) return one
  }
  return there.at(-1)
}
