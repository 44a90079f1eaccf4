/**
 * Several symptoms that may have one cause, as one flow: what each of them looks over, then what only some look over, then
 * the past, each question once. A flow that walks the plan takes no other with it.
 */
import { type Flow, type FlowPlan, flow, type Topic } from './flow.ts'

const keyOf = (topic: Topic): string => ('map' in topic ? topic.map : topic.about)

/** Once each; a look that one of them always takes is always taken. */
function joined(topics: readonly Topic[]): readonly Topic[] {
  const always = new Set(topics.filter((t) => t.when === undefined).map(keyOf))
  const seen = new Set<string>()
  return topics.flatMap((topic) => {
    const key = keyOf(topic)
    if (seen.has(key)) return []
    seen.add(key)
    const { when: _, ...sure } = topic
    return [always.has(key) ? sure : topic]
  })
}

const place = (topic: Topic): number => ('about' in topic ? 2 : topic.when === undefined ? 0 : 1)

/** @param plans at least one */
export function together(plans: readonly FlowPlan[]): Flow {
  const topics = joined(plans.flatMap((p) => p.scoping))
  return flow({
    id: plans.map((p) => p.id).join('+'),
    scoping: [0, 1, 2].flatMap((n) => topics.filter((t) => place(t) === n)),
    crossChecks: [...new Set(plans.flatMap((p) => p.crossChecks))],
    cautions: [...new Set(plans.flatMap((p) => p.cautions))],
  })
}
