/**
 * Helps a person who can't name the symptom to the flow that fits, by what they see, in at most three questions.
 * Who can't tell at any of them has everything looked over. A machine of its own: no build, no power, no hands.
 */
import { assign, initialTransition, setup, transition } from 'xstate'

/** What an answer leads to: the flow of a symptom, or one more question. */
export type Leads = { readonly symptom: string } | { readonly ask: string }

export interface GuideAnswer {
  readonly id: string
  readonly leads: Leads
}

const to = (symptom: string): Leads => ({ symptom })
const ask = (question: string): Leads => ({ ask: question })
const answers = (table: Readonly<Record<string, Leads>>): readonly GuideAnswer[] =>
  Object.entries(table).map(([id, leads]) => ({ id, leads }))

/** The first question is asked first; the order of the answers is that in which they are offered. */
export const QUESTIONS: Readonly<Record<string, readonly GuideAnswer[]>> = {
  whatIsOff: answers({
    'nothing-at-all': to('all-dead'),
    'first-switch-on': to('first-boot'),
    fans: ask('whatTheFansDo'),
    lights: ask('whatTheLightsDo'),
    figures: ask('whatIsShown'),
    'not-found': to('not-listed'),
    later: to('works-then-stops'),
  }),
  whatTheFansDo: answers({
    'stand-still': to('fan-still'),
    'flat-out': to('fans-full'),
    'same-speed-always': to('fans-full'),
    'too-slow': to('odd-reading'),
    'up-and-down': to('fans-hunting'),
  }),
  whatTheLightsDo: answers({
    dark: to('lights-dark'),
    'part-of-them': to('lights-order'),
    'wrong-way-round': to('lights-order'),
    'other-colours': to('wrong-colours'),
    'own-will': ask('whosePattern'),
  }),
  whosePattern: answers({
    'from-the-factory': to('lights-stuck'),
    'the-same-on-all': to('global-effect'),
    'stands-still': to('lights-stuck'),
  }),
  whatIsShown: answers({
    nought: to('zero-rpm'),
    'cannot-be-right': to('odd-reading'),
    'jumps-about': to('odd-reading'),
    warning: to('alarm'),
  }),
}

const FIRST = 'whatIsOff'
/** Where nobody can tell. */
const SURVEY = 'survey'

export type GuideEvent =
  | { readonly type: 'CHOSE'; readonly answer: string }
  | { readonly type: 'UNSURE' }
  | { readonly type: 'UNDO' }

interface GuideContext {
  readonly passed: readonly string[]
}

const guide = setup({
  types: { context: {} as GuideContext, events: {} as GuideEvent },
  guards: {
    chose: ({ event }, { answer }: { answer: string }) => event.type === 'CHOSE' && event.answer === answer,
    cameFrom: ({ context }, { question }: { question: string }) => context.passed.at(-1) === question,
  },
  actions: {
    pass: assign({
      passed: ({ context }, { question }: { question: string }) => [...context.passed, question],
    }),
    goBack: assign({ passed: ({ context }) => context.passed.slice(0, -1) }),
  },
})

const symptoms = [
  ...new Set(
    Object.values(QUESTIONS)
      .flat()
      .flatMap(({ leads }) => ('symptom' in leads ? [leads.symptom] : [])),
  ),
  SURVEY,
]

const back = Object.keys(QUESTIONS).map(
  (question) =>
    ({
      target: `#${question}`,
      guard: { type: 'cameFrom', params: { question } },
      actions: 'goBack',
    }) as const,
)

export const whichSymptom = guide.createMachine({
  id: 'which-symptom',
  options: { maxIterations: 100 },
  context: () => ({ passed: [] }),
  initial: FIRST,
  states: {
    ...Object.fromEntries(
      Object.entries(QUESTIONS).map(([question, offered]) => {
        const actions = { type: 'pass', params: { question } } as const
        return [
          question,
          {
            id: question,
            on: {
              CHOSE: offered.map(({ id, leads }) => ({
                target: 'ask' in leads ? leads.ask : leads.symptom,
                guard: { type: 'chose', params: { answer: id } } as const,
                actions,
              })),
              UNSURE: { target: SURVEY, actions },
              UNDO: back,
            },
          },
        ]
      }),
    ),
    // Found, but a slip of the key can still be taken back.
    ...Object.fromEntries(symptoms.map((symptom) => [symptom, { on: { UNDO: back } }])),
  },
})

export type GuideState =
  | { readonly ask: string; readonly answers: readonly GuideAnswer[] }
  | { readonly symptom: string }

/** Where somebody stands who said all this; events that do not fit are not taken. */
export function guided(events: readonly GuideEvent[]): GuideState {
  const [start] = initialTransition(whichSymptom)
  const at = String(events.reduce((s, event) => transition(whichSymptom, s, event)[0], start).value)
  const offered = QUESTIONS[at]
  return offered ? { ask: at, answers: offered } : { symptom: at }
}
