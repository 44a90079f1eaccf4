/**
 * Walks through every state of a flow's machine that any order of events can reach, with an adversarial engine: one
 * that may propose any step of any kind at any time. Events carry real payloads, and a state is told from another by
 * all that its machine remembers. What holds here holds for whatever engine drives the flow.
 */
import { createActor, initialTransition } from 'xstate'
import type { FlowContext, FlowEvent } from '../../flows/shared/events.ts'
import type { Flow } from '../../flows/shared/flow.ts'
import type { EndStep, WorkStep } from '../../flows/shared/step.ts'
import { type Edit, editText } from '../../src/core/bench/edit.ts'
import type { Ask } from '../../src/core/checks/prompt.ts'

type Snapshot = ReturnType<typeof initialTransition<Flow['machine']>>[0]

export interface Visited {
  readonly snapshot: Snapshot
  readonly work: string
  readonly power: 'on' | 'off'
  readonly context: FlowContext
}

export interface Move {
  readonly from: number
  readonly event: FlowEvent
  readonly to: number
}

export interface Explored {
  readonly flow: Flow
  readonly states: readonly Visited[]
  readonly moves: readonly Move[]
  /** Events that a state did not take, and said so. */
  readonly refused: number
  /** Events that a state said it takes and then dropped, or said it refuses and took. */
  readonly dropped: readonly string[]
}

const SWAP: Edit = { do: 'swap', a: 'F1.motor', b: 'F2.motor' }
const SET: Edit = { do: 'set', setting: 'host/program', value: 'running' }
const CYCLE: readonly Edit[] = [
  { do: 'power', to: 'off' },
  { do: 'power', to: 'on' },
]

const look = (power: Ask['power'], hands: Ask['hands']): Ask => ({
  show: 'ask',
  id: `look ${power} ${hands}`,
  stage: 'check',
  power,
  hands,
  minutes: 1,
  tools: [],
  error: 0.05,
  many: false,
  observe: [{ what: 'spins', at: 'F1' }],
  answers: [{ id: 'no', means: ['no'] }],
})

function step(edits: readonly Edit[], handsIn: boolean, cycle: boolean, ask: Ask | null): WorkStep {
  const id = `${edits.map(editText).join('+')} ${handsIn ? 'in' : 'out'} ${cycle ? 'cycle ' : ''}${ask?.id ?? 'proof'}`
  return { kind: ask === null ? 'repair' : 'check', id, edits, handsIn, cycle, minutes: 1, ask }
}

/** A step that is more than its edits: the machine has to be left running, say. */
const task = (plain: WorkStep): WorkStep => ({ ...plain, id: `${plain.id} task`, task: 'soak' })

/** Steps of every kind that a record can be, sensible or not: all that a guard can tell apart, and some oddities. */
export const steps: readonly WorkStep[] = [
  ...[[], [SET]].flatMap((edits) =>
    [false, true].flatMap((handsIn) =>
      [false, true].flatMap((cycle) =>
        [null, look('on', 'out'), look('off', 'in')].map((ask) => step(edits, handsIn, cycle, ask)),
      ),
    ),
  ),
  step([], false, false, look('on', 'in')),
  step([], false, false, look('off', 'out')),
  step(CYCLE, false, false, null),
  step([SWAP], true, false, look('on', 'out')),
  step([SWAP, SET], true, false, null),
  step([...CYCLE, SWAP], true, false, look('on', 'in')),
  task(step([], false, false, null)),
  task(step([SET], false, true, look('on', 'out'))),
  task(step([SWAP], true, false, look('off', 'in'))),
]

const OUTCOMES: readonly EndStep['outcome'][] = ['fixed', 'nothing-wrong', 'declined', 'handed-over']

/** Every event there is, with every payload. */
export const events: readonly FlowEvent[] = [
  { type: 'REPLIED', saw: true },
  { type: 'REPLIED', saw: false },
  { type: 'DID' },
  { type: 'CANNOT' },
  { type: 'CHECKED' },
  { type: 'PROVEN' },
  { type: 'PERSISTS' },
  { type: 'HAND_OVER' },
  { type: 'UNDO', step: null },
  ...steps.map((step): FlowEvent => ({ type: 'UNDO', step })),
  ...steps.map((step): FlowEvent => ({ type: 'PROPOSED', step })),
  ...OUTCOMES.map((outcome): FlowEvent => ({ type: 'PROPOSED', step: { kind: 'end', outcome } })),
]

function pathOf(value: unknown): string {
  if (typeof value === 'string') return value
  const [first] = Object.entries(value as Record<string, unknown>)
  return first ? `${first[0]}.${pathOf(first[1])}` : ''
}

function visited(snapshot: Snapshot): Visited {
  const { power, work } = snapshot.value as { power: 'on' | 'off'; work: unknown }
  return { snapshot, work: pathOf(work), power, context: snapshot.context }
}

const keyOf = ({ work, power, context }: Visited): string =>
  [
    work,
    power,
    context.passed.map((p) => `${p.topic}${p.saw}`).join(),
    context.step?.id ?? '',
    context.doneInside,
    context.doneOutside,
    context.cycled,
  ].join('|')

/**
 * The library's `transition`, which makes an actor for each move, with one actor for all of them: these machines start nothing
 * that would be kept there. It takes a third of the time.
 */
export function mover(machine: Flow['machine']): (from: Snapshot, event: FlowEvent) => Snapshot {
  const self = createActor(machine)
  const nothing = () => {}
  const scope = {
    self,
    system: self.system,
    id: '',
    sessionId: '',
    logger: nothing,
    defer: nothing,
    emit: nothing,
    stopChild: nothing,
    actionExecutor: nothing,
  }
  return (from, event) => machine.transition(from, event, scope)
}

const MOST_STATES = 20_000

/** @throws where a machine fails, or has more states than anybody could have meant */
export function explore(flow: Flow): Explored {
  const [start] = initialTransition(flow.machine)
  const move = mover(flow.machine)
  const states: Visited[] = [visited(start)]
  const known = new Map<string, number>(states.map((s) => [keyOf(s), 0]))
  const moves: Move[] = []
  const dropped: string[] = []
  let refused = 0
  for (let from = 0; from < states.length; from++) {
    const state = states[from] as Visited
    for (const event of events) {
      const can = state.snapshot.can(event)
      const after = move(state.snapshot, event)
      if (after.status === 'error') throw new Error(`${flow.id} fails on ${event.type} in ${state.work}`)
      if (can === (after === state.snapshot)) dropped.push(`${event.type} in ${state.work}`)
      if (!can) {
        refused++
        continue
      }
      const next = visited(after)
      const key = keyOf(next)
      let to = known.get(key)
      if (to === undefined) {
        to = states.length
        known.set(key, to)
        states.push(next)
        if (to > MOST_STATES) throw new Error(`${flow.id} has more than ${MOST_STATES} states`)
      }
      moves.push({ from, event, to })
    }
  }
  return { flow, states, moves, refused, dropped }
}

/** What waits in a state: an answer, a thing to be done, a judgement of ours, nothing any more. */
export type Role = 'asks' | 'does' | 'judges' | 'checks' | 'decides' | 'ended'

export function roleOf(work: string): Role {
  if (work.startsWith('ended')) return 'ended'
  if (work === 'crossChecking') return 'checks'
  if (work === 'isolating.deciding') return 'decides'
  if (work === 'isolating.proving.judging') return 'judges'
  return work.startsWith('scoping.') || work.endsWith('.asking') ? 'asks' : 'does'
}
