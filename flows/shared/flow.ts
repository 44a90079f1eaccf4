/**
 * Makes the machine of one symptom: its own questions first, in the order an expert asks them, then the plan, then
 * the shared isolation. Power is a region of its own beside the work: it changes only at the gate, so "hands in the
 * case while power is on" is a state that does not exist. Machines are pure: records in, records out.
 */
import { and, assign, setup, stateIn } from 'xstate'
import type { MapKind } from '../../src/core/checks/maps.ts'
import type { About } from '../../src/core/checks/prompt.ts'
import { type FlowContext, type FlowEvent, IDLE } from './events.ts'
import { isolating } from './isolate.ts'
import { scopingStates, undoTargets } from './scoping.ts'
import { isInside, isOutside } from './step.ts'

/** A question of the scoping: a look over everything of a kind, or something about the past. */
export type Topic = (
  | { readonly name: string; readonly map: MapKind }
  | { readonly name: string; readonly about: Exclude<About, 'symptom'> }
) & {
  /** Only asked while no look before it showed anything wrong. */
  readonly when?: 'nothing-seen'
}

/** What the answers are held against: see `job/drive/cross-check`. */
export type CrossCheck =
  | 'shared'
  | 'fed'
  | 'driven'
  | 'speed-from'
  | 'usb-path'
  | 'asked'
  | 'alarm-limit'
  | 'order'
  | 'colours'
  | 'told'

export interface FlowPlan {
  readonly id: string
  /** Asked in this order; what a map showed to be wrong is what the repair is proven by. */
  readonly scoping: readonly Topic[]
  /** What is looked at comes from the plan, one point after the other, and no question comes before it. */
  readonly walk?: true
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

/**
 * Hands go in, to change something or to look; or something is to be looked at with the mains off. What is changed
 * inside comes first, then the settings, for which the machine must run, then the look.
 */
const wantsOff = ({ context: { step, doneInside, doneOutside } }: Asked): boolean => {
  if (step === null || !doneInside) return step !== null
  return doneOutside && (step.ask?.hands === 'in' || step.ask?.power === 'off')
}

/** Power is to be cut and given again for its own sake. */
const wantsCycle = ({ context: { step, cycled } }: Asked): boolean => step?.cycle === true && !cycled

const saw = (event: FlowEvent): boolean => event.type === 'REPLIED' && event.saw

const parts = setup({
  types: { context: {} as FlowContext, events: {} as FlowEvent },
  guards: {
    powerIsOff: stateIn({ power: 'off' }),
    powerIsOn: stateIn({ power: 'on' }),
    atClosingGate: stateIn({ work: { isolating: { gate: 'closing' } } }),
    atOpeningGate: stateIn({ work: { isolating: { gate: 'opening' } } }),
    nothingSeen: ({ context, event }) => !saw(event) && context.passed.every((p) => !p.saw),
    cameFrom: ({ context }, { topic }: { topic: string }) => context.passed.at(-1)?.topic === topic,
    endsFixed: ends('fixed'),
    endsNothingWrong: ends('nothing-wrong'),
    endsDeclined: ends('declined'),
    endsHandedOver: ends('handed-over'),
    hasStepToAsk: ({ event }) => event.type === 'UNDO' && event.step !== null,
    wantsOn: (asked) => asked.context.step !== null && !wantsOff(asked),
    wantsEditInside: ({ context: { step, doneInside } }) => step !== null && !doneInside,
    wantsEditOutside: ({ context: { step, doneInside, doneOutside } }) =>
      step !== null && doneInside && !doneOutside,
    wantsLookInside: (asked) => asked.context.step?.ask != null && wantsOff(asked),
    wantsLookOutside: (asked) => asked.context.step?.ask != null && !wantsOff(asked),
    wantsProof: ({ context: { step } }) => step !== null && step.ask === null && step.task === undefined,
    mustSwitchOff: and(['powerIsOn', (asked: Asked) => wantsOff(asked) || wantsCycle(asked)]),
    mustSwitchOn: and(['powerIsOff', 'wantsOn']),
    mustEditInside: and(['powerIsOff', 'wantsEditInside']),
    mustEditOutside: and(['powerIsOn', 'wantsEditOutside']),
    looksInside: and(['powerIsOff', 'wantsLookInside']),
    looksOutside: and(['powerIsOn', 'wantsLookOutside']),
    isToBeProven: and(['powerIsOn', 'wantsProof']),
  },
  actions: {
    passTopic: assign({
      passed: ({ context, event }, { topic }: { topic: string }) => [
        ...context.passed,
        { topic, saw: saw(event) },
      ],
    }),
    goBack: assign({ passed: ({ context }) => context.passed.slice(0, -1) }),
    forgetTopics: assign({ passed: [] }),
    takeStep: assign(({ event }) =>
      (event.type === 'PROPOSED' || event.type === 'UNDO') && event.step && event.step.kind !== 'end'
        ? {
            step: event.step,
            doneInside: !event.step.handsIn && !event.step.edits.some(isInside),
            doneOutside: !event.step.edits.some(isOutside) && event.step.task === undefined,
            cycled: false,
          }
        : {},
    ),
    dropStep: assign(() => IDLE),
    markInside: assign({ doneInside: true }),
    markOutside: assign({ doneOutside: true }),
    // Power that was found off and is given again has been cut all the same.
    markCycled: assign({ cycled: ({ context }) => context.step?.cycle === true }),
  },
})

function machineOf({ id, scoping }: FlowPlan) {
  const [first] = scoping
  return parts.createMachine({
    id,
    // An endless `always` cycle would otherwise hang the program.
    options: { maxIterations: 100 },
    context: () => ({ passed: [], ...IDLE }),
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
        initial: first ? 'scoping' : 'crossChecking',
        states: {
          ...(first
            ? {
                scoping: {
                  initial: first.name,
                  states: scopingStates(scoping),
                  on: { HAND_OVER: '#work.ended.handedOver' },
                },
              }
            : {}),
          crossChecking: {
            on: {
              CHECKED: { target: 'isolating', actions: 'forgetTopics' },
              UNDO: undoTargets(scoping),
              HAND_OVER: '#work.ended.handedOver',
            },
          },
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
