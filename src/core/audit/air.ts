/**
 * Mechanics and air: a sign of where the air goes, and what is easily screwed together wrongly. Flows are guesses
 * by size and speed unless the plan gives them; filters, grilles and fins are left out, and the findings say so.
 */
import { guessedCfm, sideBySide } from '../electrics/airflow.ts'
import { restDuty } from '../electrics/fan-curve.ts'
import { isOver } from '../electrics/overload.ts'
import type { Fan } from '../plan/part.ts'
import { driverOf } from './drive.ts'
import { COMMON, type Family } from './finding.ts'
import type { Wiring } from './wiring.ts'

const AIR_PAGES = 'case airflow pages'
/** More air in than out by this factor, or the reverse, is worth a word. Common practice, no source. */
const LOPSIDED = 2

export const fans = (w: Wiring): Fan[] =>
  w.plan.parts.filter((p): p is Fan => p.kind === 'fan' && p.motor !== undefined)

/**
 * What fans move at least and at most. Behind one another they add pressure, not flow, and fans at one place of one radiator
 * may stand so, two deep, or side by side; the plan does not say which.
 */
function flowOf(list: readonly Fan[]): { readonly least: number; readonly most: number } {
  const stacks = new Map<string, Fan[]>()
  for (const fan of list) {
    const key = fan.on === undefined || fan.at === undefined ? fan.id : `${fan.on}|${fan.at}`
    stacks.set(key, [...(stacks.get(key) ?? []), fan])
  }
  const flows = [...stacks.values()].map((stack) => stack.map(cfmOf).sort((a, b) => b - a))
  return {
    least: sideBySide(flows.flatMap((flow) => flow.slice(0, Math.ceil(flow.length / 2)))),
    most: sideBySide(flows.flat()),
  }
}
const cfmOf = (fan: Fan): number => fan.cfm ?? guessedCfm(fan.sizeMm ?? 120, fan.motor?.rpm[1] ?? 0)
/** Whether a fan moves air between the case and the room. */
const through = (fan: Fan): boolean => fan.flow === 'in' || fan.flow === 'out'
const ids = (list: readonly Fan[]): string[] => list.map((f) => f.id)

const EXPECTED: readonly (readonly [where: RegExp, flow: 'in' | 'out'])[] = [
  [/\b(front|bottom)\b/, 'in'],
  [/\b(rear|back|top|roof)\b/, 'out'],
]

/** What is usual at a place: `front-top` is at the front, `top-front` and `roof-front` at the top; a roof is one wherever it is said. */
function usualAt(place: string): 'in' | 'out' | undefined {
  const at = place.toLowerCase()
  if (/\broof\b/.test(at)) return 'out'
  const named = EXPECTED.flatMap(([where, flow]) => {
    const found = at.search(where)
    return found < 0 ? [] : [{ found, flow }]
  })
  return named.sort((a, b) => a.found - b.found)[0]?.flow
}

export const air: Family = {
  family: 'air',
  rules: [
    {
      id: 'air-unbalanced',
      severity: 'untidy',
      unit: 'CFM',
      source: `${AIR_PAGES}; flow in proportion to speed (fan affinity laws)`,
      *find(w) {
        const [ins, outs] = [fans(w).filter((f) => f.flow === 'in'), fans(w).filter((f) => f.flow === 'out')]
        const [into, out] = [flowOf(ins), flowOf(outs)]
        const over = isOver(into.least, LOPSIDED * out.most)
        const under = isOver(out.least, LOPSIDED * into.most)
        if (ins.length > 0 && outs.length > 0 && (over || under))
          yield {
            refs: [...ids(ins), ...ids(outs)],
            figure: Math.round(over ? into.least : into.most),
            limit: Math.round(over ? out.most : out.least),
            facts: {
              in: ids(ins),
              out: ids(outs),
              sign: over ? 'over' : 'under',
              guessed: [...ins, ...outs].some((f) => f.cfm === undefined) ? 'yes' : 'no',
            },
          }
      },
    },
    {
      id: 'air-one-way',
      severity: 'untidy',
      source: AIR_PAGES,
      *find(w) {
        const known = fans(w).filter(through)
        const [first] = known
        if (
          first &&
          known.length > 2 &&
          fans(w).every((f) => f.flow !== 'unknown') &&
          known.every((f) => f.flow === first.flow)
        )
          yield { refs: ids(known), figure: known.length, limit: 0, facts: { flow: first.flow } }
      },
    },
    {
      id: 'fans-face-each-other',
      severity: 'may-not-work',
      source: AIR_PAGES,
      *find(w) {
        const places = new Map<string, Fan[]>()
        for (const fan of fans(w)) {
          const where = fan.at && `${fan.at.trim().toLowerCase()}|${fan.on ?? ''}`
          if (where && through(fan)) places.set(where, [...(places.get(where) ?? []), fan])
        }
        for (const list of places.values()) {
          const [into, out] = [list.filter((f) => f.flow === 'in'), list.filter((f) => f.flow === 'out')]
          if (into.length > 0 && out.length > 0)
            yield { refs: ids(list), facts: { at: list[0]?.at ?? '', in: ids(into), out: ids(out) } }
        }
      },
    },
    {
      id: 'radiator-flow-mixed',
      severity: 'may-not-work',
      source: AIR_PAGES,
      *find(w) {
        for (const [on, list] of radiators(w)) {
          const flows = new Set(list.filter(through).map((f) => f.flow))
          const samePlace = new Set(list.map((f) => f.at)).size === 1 && list[0]?.at !== undefined
          if (flows.size > 1 && !samePlace)
            yield {
              refs: ids(list),
              facts: {
                on,
                in: ids(list.filter((f) => f.flow === 'in')),
                out: ids(list.filter((f) => f.flow === 'out')),
              },
            }
        }
      },
    },
    {
      id: 'radiator-screws',
      severity: 'untidy',
      unit: 'mm',
      source: COMMON,
      *find(w) {
        for (const [on, list] of radiators(w)) yield { refs: ids(list), facts: { on, fans: ids(list) } }
      },
    },
    {
      id: 'radiator-speeds-differ',
      severity: 'untidy',
      unit: 'rpm',
      source: `${COMMON}; unlike fans side by side push air back through the slower`,
      *find(w) {
        for (const [on, list] of radiators(w)) {
          const tops = list.map((f) => f.motor?.rpm[1] ?? 0)
          if (isOver(Math.max(...tops), Math.min(...tops) * 1.25))
            yield {
              refs: ids(list),
              figure: Math.max(...tops),
              limit: Math.min(...tops),
              facts: { on, fans: ids(list) },
              rests: list.map((f) => `parts.${f.id}.motor.rpm`),
            }
        }
      },
    },
    {
      id: 'flow-against-custom',
      severity: 'untidy',
      source: AIR_PAGES,
      *find(w) {
        for (const fan of fans(w)) {
          const usual = usualAt(fan.at ?? '')
          if (usual && through(fan) && fan.flow !== usual && fan.on === undefined)
            yield { refs: [fan.id], facts: { fan: fan.id, at: fan.at ?? '', flow: fan.flow, usual } }
        }
      },
    },
    {
      id: 'still-beside-running',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        const resting = (id: string): boolean => {
          const motor = w.motors.find((m) => m.part === id)
          const curve = motor && driverOf(w, motor)?.setting.curve
          return (
            motor !== undefined &&
            motor.motor.belowMin !== 'keeps' &&
            curve !== undefined &&
            restDuty(curve) <= 0
          )
        }
        const places = new Map<string, Fan[]>()
        for (const fan of fans(w)) if (fan.at) places.set(fan.at, [...(places.get(fan.at) ?? []), fan])
        for (const [at, list] of places) {
          const still = list.filter((f) => resting(f.id))
          if (still.length > 0 && still.length < list.length)
            yield { refs: ids(list), facts: { at, still: ids(still) } }
        }
      },
    },
  ],
}

function radiators(w: Wiring): Map<string, Fan[]> {
  const found = new Map<string, Fan[]>()
  for (const fan of fans(w)) if (fan.on !== undefined) found.set(fan.on, [...(found.get(fan.on) ?? []), fan])
  return found
}
