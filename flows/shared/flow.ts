/**
 * Makes the machine of one symptom: its own questions first, in the order an expert asks them, then the plan, then
 * the shared isolation. Power is a region of its own beside the work: it changes only at the gate, so "hands in the
 * case while power is on" is a state that does not exist. Machines are pure: records in, records out.
 */
import { and, assign, setup, stateIn } from 'xstate'
import type { MapKind } from '../../src/core/checks/maps.ts'
import type { About } from '../../src/core/checks/prompt.ts'
import { type FlowContext, type FlowEvent, FRESH } from './events.ts'
import { isolating } from './isolate.ts'

/** A question of the scoping: a look over everything of a kind, or something about the past. */
export type Topic =
  | { readonly name: string; readonly map: MapKind }
  | { readonly name: string; readonly about: About }

export type CrossCheck = 'shared' | 'fed' | 'driven' | 'speed-from'

export interface FlowPlan {
  readonly id: string
  /** Asked in this order; the first map is what the symptom is proven by. */
  readonly scoping: readonly Topic[]
  readonly crossChecks: readonly CrossCheck[]
  /** Cautions of this symptom, shown before the first question. */
  readonly cautions: readonly string[]
}

export type Flow = FlowPlan & { readonly machine: ReturnType<typeof machineOf> }

type Asked = { readonly context: FlowContext; readonly event: FlowEvent }

const ends =
  (outcome: string) =>
  ({ event }: Asked): boolean =>
    event.type === 'PROPOSED' && event.step.kind === 'end' && event.step.outcome === outcome

/** Hands are to go in, to edit or to look, or power is to be cut for its own sake. */
const wantsOff = ({ context: { step, edited, cycled } }: Asked): boolean =>
  step !== null && ((step.handsIn && !edited) || step.ask?.hands === 'in' || (step.cycle && !cycled))

const parts = setup({
  types: { context: {} as FlowContext, events: {} as FlowEvent },
  guards: {
    powerIsOff: stateIn({ power: 'off' }),
    powerIsOn: stateIn({ power: 'on' }),
    atClosingGate: stateIn({ work: { isolating: { gate: 'closing' } } }),
    atOpeningGate: stateIn({ work: { isolating: { gate: 'opening' } } }),
    endsFixed: ends('fixed'),
    endsNothingWrong: ends('nothing-wrong'),
    endsDeclined: ends('declined'),
    endsHandedOver: ends('handed-over'),
    hasStepToAsk: ({ event }) => event.type === 'UNDO' && event.step !== null,
    wantsOff,
    wantsOn: (asked) => asked.context.step !== null && !wantsOff(asked),
    wantsEditInside: ({ context: { step, edited } }) => step?.handsIn === true && !edited,
    wantsEditOutside: ({ context: { step, edited } }) =>
      step !== null && !step.handsIn && !step.cycle && step.edits.length > 0 && !edited,
    wantsLookInside: ({ context: { step } }) => step?.ask?.hands === 'in',
    wantsLookOutside: ({ context: { step } }) => step?.ask != null && step.ask.hands !== 'in',
    wantsProof: ({ context: { step } }) => step !== null && step.ask === null,
    mustSwitchOff: and(['powerIsOn', 'wantsOff']),
    mustSwitchOn: and(['powerIsOff', 'wantsOn']),
    mustEditInside: and(['powerIsOff', 'wantsEditInside']),
    mustEditOutside: and(['powerIsOn', 'wantsEditOutside']),
    looksInside: and(['powerIsOff', 'wantsLookInside']),
    looksOutside: and(['powerIsOn', 'wantsLookOutside']),
    isToBeProven: and(['powerIsOn', 'wantsProof']),
  },
  actions: {
    takeStep: assign(({ event }) =>
      (event.type === 'PROPOSED' || event.type === 'UNDO') && event.step && event.step.kind !== 'end'
        ? { step: event.step, edited: event.step.edits.length === 0 && !event.step.handsIn, cycled: false }
        : {},
    ),
    dropStep: assign(FRESH),
    markEdited: assign({ edited: true }),
    markCycled: assign({ cycled: ({ context }) => context.step?.cycle === true }),
  },
})

/** One state a topic, named after it; each answer leads on, taking it back leads to the one before. */
const scopingStates = (scoping: readonly Topic[]) =>
  Object.fromEntries(
    scoping.map(({ name }, i) => [
      name,
      {
        on: {
          REPLIED: scoping[i + 1]?.name ?? '#work.crossChecking',
          CANNOT: scoping[i + 1]?.name ?? '#work.crossChecking',
          ...(i > 0 ? { UNDO: scoping[i - 1]?.name ?? name } : {}),
        },
      },
    ]),
  )

function machineOf({ id, scoping }: FlowPlan) {
  return parts.createMachine({
    id,
    context: () => ({ ...FRESH }),
    type: 'parallel',
    states: {
      power: {
        initial: 'on',
        states: {
          on: { on: { DID: { target: 'off', guard: 'atClosingGate' } } },
          off: { on: { DID: { target: 'on', guard: 'atOpeningGate' } } },
        },
      },
      work: {
        id: 'work',
        initial: 'scoping',
        states: {
          scoping: {
            initial: scoping[0]?.name ?? '',
            states: scopingStates(scoping),
            on: { HAND_OVER: '#work.ended.handedOver' },
          },
          crossChecking: { on: { CHECKED: 'isolating' } },
          isolating,
          ended: {
            initial: 'handedOver',
            states: { fixed: {}, nothingWrong: {}, declined: {}, handedOver: {} },
          },
        },
      },
    },
  })
}

/** Describes a symptom's flow once; the machine is made from it. */
export const flow = (plan: FlowPlan): Flow => ({ ...plan, machine: machineOf(plan) })
