/**
 * Whether symptoms may have one cause: whether the catalogue has a single fault which, planted in this build, shows the
 * signs of both. What may look like anything (works, then stops) may share a cause with everything.
 */
import { signsOf } from '../../../flows/which-symptom.ts'
import type { Build } from '../../core/bench/build.ts'
import type { Observable, Value } from '../../core/bench/observable.ts'
import { referenceOf, run, type Sight } from '../../core/bench/run.ts'
import { mapped } from '../../core/checks/maps.ts'
import { faultsOf, type KnownFault } from '../../core/faults/catalogue.ts'
import { wanted } from '../../core/infer/planned.ts'

interface Sign {
  readonly observe: Observable
  readonly values: readonly Value[]
}

const signsIn = (build: Build, symptom: string): readonly Sign[] =>
  signsOf(symptom).flatMap(({ what, values }) =>
    mapped(build, what).flatMap((observe): Sign[] => {
      const off = values.filter((value) => value !== wanted(build, observe))
      return off.length === 0 ? [] : [{ observe, values: off }]
    }),
  )

const shows = (sight: Sight, signs: readonly Sign[]): boolean =>
  signs.some(({ observe, values }) => values.includes(sight.see(observe) ?? ''))

/** Faults times parts: a build so large that they cannot all be tried while a person waits has nothing ruled out. */
const MOST_WORK = 60_000

/** What others hang on shows most, so a fault there is tried first. */
function byReach(build: Build): readonly KnownFault[] {
  const feeds = ({ fault: { at } }: KnownFault): number => {
    const part = build.parts[build.partAt.get(at.split('.')[0] ?? '') ?? -1]
    return part === undefined || part.sockets.length > 0 ? 0 : 1
  }
  return [...faultsOf(build)].sort((a, b) => feeds(a) - feeds(b))
}

/** Those that are looked into together with the first, and those that wait; in their order. */
export function split(
  build: Build,
  symptoms: readonly string[],
): { readonly now: readonly string[]; readonly later: readonly string[] } {
  const [first = '', ...rest] = symptoms
  const own = signsIn(build, first)
  const open = new Map(rest.map((symptom) => [symptom, signsIn(build, symptom)]))
  const faults = byReach(build)
  const anything = own.length === 0 || faults.length * build.parts.length > MOST_WORK
  for (const [symptom, signs] of open) if (anything || signs.length === 0) open.delete(symptom)
  const reference = referenceOf(build, [])
  for (const { plant } of faults) {
    if (open.size === 0) break
    const sight = run(build, { plants: [plant], edits: [] }, reference)
    if (!shows(sight, own)) continue
    for (const [symptom, signs] of open) if (shows(sight, signs)) open.delete(symptom)
  }
  return {
    now: symptoms.filter((symptom) => !open.has(symptom)),
    later: symptoms.filter((symptom) => open.has(symptom)),
  }
}
