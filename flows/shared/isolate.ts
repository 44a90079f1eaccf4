/**
 * The part that all flows share: carry out what the engine proposes, one step after the other, until the symptom is
 * gone or the job is handed over. Every step is routed by what it needs: hands go in only behind the gate, and the
 * gate is a state of its own that nothing but "it is off" leaves.
 *
 * deciding → (gate) → hands in or outside → deciding …, and after a repair: proving.
 */

/** Leads to the one place that the step calls for now; tried in this order. */
const routing = {
  always: [
    { target: 'gate.closing', guard: 'mustSwitchOff' },
    { target: 'handsIn.doing', guard: 'mustEditInside' },
    { target: 'gate.opening', guard: 'mustSwitchOn' },
    { target: 'outside.doing', guard: 'mustEditOutside' },
    { target: 'handsIn.asking', guard: 'looksInside' },
    { target: 'proving', guard: 'isToBeProven' },
    { target: 'outside.asking', guard: 'looksOutside' },
    { target: 'deciding' },
  ],
} as const

/** The step is over, whatever came of it: on to what the engine proposes next. */
const STEP_OVER = { target: '#work.isolating.deciding', actions: 'dropStep' } as const

export const isolating = {
  initial: 'deciding',
  states: {
    deciding: {
      on: {
        PROPOSED: [
          { target: '#work.ended.fixed', guard: 'endsFixed' },
          { target: '#work.ended.nothingWrong', guard: 'endsNothingWrong' },
          { target: '#work.ended.declined', guard: 'endsDeclined' },
          { target: '#work.ended.handedOver', guard: 'endsHandedOver' },
          { target: 'routing', actions: 'takeStep' },
        ],
      },
    },
    routing,
    gate: {
      initial: 'closing',
      states: {
        closing: {
          on: {
            DID: { target: '#work.isolating.routing', actions: 'markCycled' },
            CANNOT: STEP_OVER,
          },
        },
        opening: {
          on: {
            DID: { target: '#work.isolating.routing', actions: 'markCycled' },
            CANNOT: STEP_OVER,
          },
        },
      },
    },
    handsIn: {
      initial: 'doing',
      states: {
        doing: {
          on: {
            DID: { target: '#work.isolating.routing', actions: 'markInside' },
            CANNOT: STEP_OVER,
          },
        },
        asking: {
          on: {
            REPLIED: STEP_OVER,
            CANNOT: STEP_OVER,
          },
        },
      },
    },
    outside: {
      initial: 'asking',
      states: {
        doing: {
          on: {
            DID: { target: '#work.isolating.routing', actions: 'markOutside' },
            CANNOT: STEP_OVER,
          },
        },
        asking: {
          on: {
            REPLIED: STEP_OVER,
            CANNOT: STEP_OVER,
          },
        },
      },
    },
    proving: {
      initial: 'asking',
      states: {
        asking: {
          on: {
            REPLIED: 'judging',
            CANNOT: STEP_OVER,
          },
        },
        judging: {
          on: {
            PROVEN: STEP_OVER,
            PERSISTS: STEP_OVER,
          },
        },
      },
    },
  },
  on: {
    UNDO: { target: '.routing', guard: 'hasStepToAsk', actions: 'takeStep' },
    HAND_OVER: '#work.ended.handedOver',
  },
} as const
