/**
 * A setting as read, in the words in which the build knows it: as planned, or as one of the known mistakes would have
 * it. Boards round and add points, so curves are held against one another by the duty that they ask.
 */
import type { Build } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import type { Value } from '../bench/observable.ts'
import { referenceOf, run } from '../bench/run.ts'
import { settingParts, settingText } from '../bench/setting.ts'
import { dutyAt } from '../electrics/fan-curve.ts'
import { faultsOf } from '../faults/catalogue.ts'

/** `not-in-plan`: the plan leaves it open and no known mistake is one of it, so it is not worth a word. */
export type NotTakenSetting = 'not-in-plan' | 'other-setting' | 'board-cannot-be-set' | 'off-means-unknown'

type Curve = readonly (readonly [number, number])[]

const asCurve = (text: string): Curve => JSON.parse(text) as Curve

/** Points of duty between two curves that are called the same (a step of 255 is 0.4, boards round to whole ones). */
const SAME_DUTY = 4
const COOLEST = 20
const HOTTEST = 90

/** The farthest apart that two curves come, in points of duty. */
function apart(a: Curve, b: Curve): number {
  let most = 0
  for (let c = COOLEST; c <= HOTTEST; c += 2) most = Math.max(most, Math.abs(dutyAt(a, c) - dutyAt(b, c)))
  return most
}

/** Values that a mistake at this setting would leave there. */
function mistaken(build: Build, at: string): { mode: string; value: Value }[] {
  return faultsOf(build)
    .filter(({ fault }) => fault.at === at)
    .flatMap(({ fault, plant }) => {
      const value = run(build, { plants: [plant], edits: [] }).see({ what: 'setting', at })
      return value === null ? [] : [{ mode: fault.mode, value }]
    })
}

/** The value to answer with, or why the text settles nothing: it is neither as planned nor a known mistake. */
export function settingFound(
  build: Build,
  history: readonly Edit[],
  at: string,
  text: string,
): { readonly value: Value } | { readonly why: NotTakenSetting } {
  const planned = settingText(referenceOf(build, history).world.settings, at)
  const wrong = mistaken(build, at)
  if (at.endsWith('/curve')) return curveFound(asCurve(text), planned, wrong)
  if (text === planned) return { value: text }
  const known = wrong.find((w) => w.value === text)
  if (known) return { value: known.value }
  const { key } = settingParts(at)
  if (key === 'drive') {
    // A header that is fixed in its mode has no such setting; what the chip says of it is not the plan's.
    return wrong.length === 0 ? { why: 'board-cannot-be-set' } : { value: text }
  }
  if (key === 'alarm_below') {
    const tooHigh = wrong.find((w) => Number(text) >= Number(w.value))
    if (tooHigh) return { value: tooHigh.value }
    if (planned === undefined) return wrong.length > 0 ? { value: text } : { why: 'not-in-plan' }
    return { why: 'other-setting' }
  }
  return planned === undefined ? { value: text } : { why: 'other-setting' }
}

function curveFound(
  found: Curve,
  planned: Value | undefined,
  wrong: readonly { mode: string; value: Value }[],
): { readonly value: Value } | { readonly why: NotTakenSetting } {
  if (planned !== undefined && apart(found, asCurve(planned)) <= SAME_DUTY) return { value: planned }
  const near = wrong
    .map((w) => ({ ...w, far: apart(found, asCurve(w.value)) }))
    .sort((a, b) => a.far - b.far)[0]
  if (near && near.far <= SAME_DUTY) return { value: near.value }
  const duties = [COOLEST, 40, 60, HOTTEST].map((c) => dutyAt(found, c))
  const of = (mode: string): Value | undefined => wrong.find((w) => w.mode === mode)?.value
  // One duty for all temperatures, lower than any fan there starts at.
  const under = of('under-start')
  const limit = under === undefined ? 0 : 2 * (asCurve(under)[0]?.[1] ?? 0)
  if (under !== undefined && duties.every((d) => d > 0 && d < limit)) return { value: under }
  return { why: 'other-setting' }
}
