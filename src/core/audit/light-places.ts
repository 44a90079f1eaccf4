/**
 * Whether an effect runs over the case without jumping: the order of the lights against where the plan says that they
 * sit. Places are free text, so only the words for the sides of a case and for heights are understood. A place
 * is put in small letters first: V8 takes longer to make ready an expression for both.
 */
import { COMMON, type Facts, type Rule } from './finding.ts'
import type { Wiring } from './wiring.ts'

const SIDE = /\b(front|rear|back|top|roof|bottom|floor|side|radiator)\b/
const HEIGHTS: readonly RegExp[] = [
  /\b(bottom|lower|low)\b/,
  /\b(middle|mid|centre|center)\b/,
  /\b(top|upper|high)\b/,
]

interface Placed {
  readonly id: string
  readonly side: string
  readonly height: number
}

function placedOf(w: Wiring): Placed[] {
  return w.plan.lightOrder.flatMap((id) => {
    const part = w.parts.get(id)
    const at = part?.at?.toLowerCase().replaceAll(/[-_]/g, ' ') ?? ''
    const side = SIDE.exec(at)?.[1]
    if (!side) return []
    const rest = at.replace(SIDE, ' ')
    return [{ id, side, height: HEIGHTS.findIndex((word) => word.test(rest)) }]
  })
}

/** A side that is left and come back to. */
function cameBack(placed: readonly Placed[]): Facts | undefined {
  const left = new Set<string>()
  for (const [i, { id, side }] of placed.entries()) {
    if (left.has(side)) return { how: 'side', side, part: id, order: placed.map((p) => p.id) }
    const next = placed[i + 1]
    if (next && next.side !== side) left.add(side)
  }
  return undefined
}

/** On one side: up and down again. */
function turned(placed: readonly Placed[]): Facts | undefined {
  for (let i = 2; i < placed.length; i++) {
    const [a, b, c] = placed.slice(i - 2, i + 1)
    if (!a || !b || !c || a.side !== b.side || b.side !== c.side) continue
    if (Math.min(a.height, b.height, c.height) < 0) continue
    if ((b.height - a.height) * (c.height - b.height) < 0)
      return { how: 'height', side: b.side, part: c.id, order: [a.id, b.id, c.id] }
  }
  return undefined
}

export const orderAgainstPlace: Rule = {
  id: 'light-order-jumps',
  severity: 'untidy',
  source: COMMON,
  *find(w) {
    const placed = placedOf(w)
    const facts = cameBack(placed) ?? turned(placed)
    if (facts) yield { refs: ['light_order', ...(facts.order as readonly string[])], facts }
  },
}
