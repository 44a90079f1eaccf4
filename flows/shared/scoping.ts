/**
 * The scoping of a flow as states: one a topic, named after it. An answer leads on to the next topic that is worth
 * asking; taking it back leads to the one that was really asked before.
 */
import type { Topic } from './flow.ts'

const CROSS_CHECKING = '#work.crossChecking'

const placeOf = (topic: Topic): string => `#work.scoping.${topic.name}`

/** Where an answer leads: past topics that are only asked while nothing was seen, each with its guard. */
function onwards(scoping: readonly Topic[], i: number) {
  const actions = { type: 'passTopic', params: { topic: scoping[i]?.name ?? '' } } as const
  const later = scoping.slice(i + 1)
  const sure = later.findIndex((topic) => topic.when === undefined)
  const maybe = sure < 0 ? later : later.slice(0, sure)
  const then = later[sure]
  return [
    ...maybe.slice(0, 1).map((topic) => ({ target: placeOf(topic), guard: 'nothingSeen', actions }) as const),
    { target: then ? placeOf(then) : CROSS_CHECKING, actions } as const,
  ]
}

/** Topics from which one can come to the place behind them: the last that is always asked, and those after it. */
function justBefore(before: readonly Topic[], when: Topic['when']): readonly Topic[] {
  if (when !== undefined) return before.slice(-1)
  return before.slice(before.findLastIndex((topic) => topic.when === undefined))
}

/** Where taking the last answer back leads: to the topic that was passed last, whichever that was. */
export const undoTargets = (before: readonly Topic[], when?: Topic['when']) =>
  justBefore(before, when).map(
    (topic) =>
      ({
        target: placeOf(topic),
        guard: { type: 'cameFrom', params: { topic: topic.name } },
        actions: 'goBack',
      }) as const,
  )

export const scopingStates = (scoping: readonly Topic[]) =>
  Object.fromEntries(
    scoping.map((topic, i) => [
      topic.name,
      {
        on: {
          REPLIED: onwards(scoping, i),
          CANNOT: onwards(scoping, i),
          ...(i > 0 ? { UNDO: undoTargets(scoping.slice(0, i), topic.when) } : {}),
        },
      },
    ]),
  )
