/** What must hold of every flow, each said in one line and checked over all states and moves that were explored. */
import { type Explored, type Move, roleOf, type Visited } from './explore.ts'

export interface Property {
  readonly says: string
  /** Where it fails, in words; empty where it holds. */
  readonly fails: (explored: Explored) => readonly string[]
}

const told = ({ work, power, context }: Visited): string =>
  `${work}, power ${power}${context.step ? `, step ${context.step.id}` : ''}`

const states =
  (wrong: (state: Visited, taken: ReadonlySet<string>) => boolean) =>
  ({ states: all, moves }: Explored): string[] => {
    const taken = all.map(() => new Set<string>())
    for (const move of moves) taken[move.from]?.add(nameOf(move))
    return all.filter((state, i) => wrong(state, taken[i] ?? new Set())).map(told)
  }

const nameOf = ({ event }: Move): string =>
  event.type === 'UNDO' && event.step === null ? 'UNDO nothing' : event.type

const movesThat =
  (wrong: (from: Visited, move: Move, to: Visited) => boolean) =>
  ({ states: all, moves }: Explored): string[] =>
    moves.flatMap((move) => {
      const from = all[move.from] as Visited
      const to = all[move.to] as Visited
      return wrong(from, move, to) ? [`${move.event.type}: ${told(from)} → ${told(to)}`] : []
    })

const lacks = (taken: ReadonlySet<string>, ...events: string[]): boolean => events.some((e) => !taken.has(e))

const GATE = { on: 'isolating.gate.closing', off: 'isolating.gate.opening' } as const

/** States from which no event leads to an end. */
function deadEnds({ states: all, moves }: Explored): string[] {
  const into = all.map(() => [] as number[])
  for (const { from, to } of moves) into[to]?.push(from)
  const reaches = new Set(all.flatMap((s, i) => (roleOf(s.work) === 'ended' ? [i] : [])))
  for (const i of reaches) for (const from of into[i] ?? []) reaches.add(from)
  return all.filter((_, i) => !reaches.has(i)).map(told)
}

/** Steps so many moves long are the longest: off, edit, on, look, judge. */
const LONGEST = 8

/** Doing what is asked and answering, one after the other, leads from every state to a decision or an end. */
function circles({ states: all, moves }: Explored): string[] {
  const on = new Map<number, number>()
  for (const { from, to, event } of moves) {
    const plain = ['DID', 'REPLIED', 'PERSISTS', 'CHECKED'].includes(event.type)
    if (plain && !on.has(from)) on.set(from, to)
  }
  return all.flatMap((state, i) => {
    if (state.work.startsWith('scoping')) return []
    let at = i
    for (let n = 0; n < LONGEST; n++) {
      const role = roleOf(all[at]?.work ?? '')
      if (role === 'decides' || role === 'ended') return []
      at = on.get(at) ?? at
    }
    return [told(state)]
  })
}

export const properties: readonly Property[] = [
  {
    says: 'No reachable state has hands in the case and power on.',
    fails: states(({ work, power }) => work.startsWith('isolating.handsIn') && power === 'on'),
  },
  {
    says: 'Power changes only at the gate, when it is said to be done.',
    fails: movesThat(
      (from, { event }, to) =>
        from.power !== to.power && !(from.work === GATE[from.power] && event.type === 'DID'),
    ),
  },
  {
    says: 'The gate is left through "done" with power changed, or not at all towards the work that needs it.',
    fails: movesThat(
      (from, { event }, to) =>
        from.work === GATE[from.power] && event.type === 'DID' && from.power === to.power,
    ),
  },
  {
    says: 'Whatever is looked at or done outside is looked at and done with power on.',
    fails: states(
      ({ work, power }) =>
        power === 'off' &&
        (work.startsWith('scoping') ||
          work.startsWith('isolating.outside') ||
          work.startsWith('isolating.proving')),
    ),
  },
  {
    says: 'A look that needs the mains off or hands in is only asked for with the mains off.',
    fails: states(
      ({ work, power, context: { step } }) =>
        work.endsWith('.asking') &&
        power === 'on' &&
        (step?.ask?.power === 'off' || step?.ask?.hands === 'in'),
    ),
  },
  {
    says: 'What is to be changed is changed before anything is looked at; no step loses its edits on the way.',
    fails: states(
      ({ work, context: { step, doneInside, doneOutside } }) =>
        (work.endsWith('.asking') || work.endsWith('.judging')) &&
        step !== null &&
        !(doneInside && doneOutside),
    ),
  },
  { says: 'From every state some events lead to an end.', fails: deadEnds },
  { says: 'Doing what is asked and answering always leads on to a decision.', fails: circles },
  {
    says: 'A step that is proposed is taken up, whatever it is.',
    fails: movesThat(
      (_, { event }, to) =>
        event.type === 'PROPOSED' && event.step.kind !== 'end' && roleOf(to.work) === 'decides',
    ),
  },
  {
    says: 'Every event is taken or refused openly; none is dropped in silence.',
    fails: ({ dropped }) => dropped,
  },
  {
    says: 'Every question can be answered, put aside and handed over.',
    fails: states(
      ({ work }, taken) => roleOf(work) === 'asks' && lacks(taken, 'REPLIED', 'CANNOT', 'HAND_OVER'),
    ),
  },
  {
    says: 'Every thing to do can be done, refused and handed over.',
    fails: states(({ work }, taken) => roleOf(work) === 'does' && lacks(taken, 'DID', 'CANNOT', 'HAND_OVER')),
  },
  {
    says: 'Wherever something was answered before, it can be taken back.',
    fails: states(({ work, context }, taken) => {
      const role = roleOf(work)
      if (role === 'ended') return false
      const scoping = work.startsWith('scoping') || role === 'checks'
      return scoping ? context.passed.length > 0 && lacks(taken, 'UNDO nothing') : lacks(taken, 'UNDO')
    }),
  },
  {
    says: 'An end is final: nothing is taken any more.',
    fails: states(({ work }, taken) => roleOf(work) === 'ended' && taken.size > 0),
  },
  {
    says: 'What the engine must be asked, the answers held against the plan and a repair judged has its event.',
    fails: states(({ work }, taken) => {
      const role = roleOf(work)
      return (
        (role === 'decides' && lacks(taken, 'PROPOSED')) ||
        (role === 'checks' && lacks(taken, 'CHECKED', 'HAND_OVER')) ||
        (role === 'judges' && lacks(taken, 'PROVEN', 'PERSISTS'))
      )
    }),
  },
]
