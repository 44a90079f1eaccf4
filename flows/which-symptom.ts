/**
 * Helps a person who can't name the symptom to the flow that fits, by what they see, in at most three questions; then
 * whether anything else is wrong. Who can't tell has everything looked over. A machine of its own: no build, no power, no hands.
 */
import { assign, initialTransition, setup, transition } from 'xstate'
import type { Value } from '../src/core/bench/observable.ts'
import type { MapKind } from '../src/core/checks/maps.ts'

/** What an answer leads to: the flow of a symptom, or one more question. */
export type Leads = { readonly symptom: string } | { readonly ask: string }

/** What an answer says besides, so that it is not asked again: something of the past, or what is seen on all or on some. */
export type Tells =
  | { readonly about: 'comes-and-goes' | 'since' | 'worked'; readonly choice: string }
  | { readonly what: MapKind; readonly values: readonly Value[]; readonly on: 'all' | 'some' }

export interface GuideAnswer {
  readonly id: string
  readonly leads: Leads
  readonly tells: readonly Tells[]
}

type Row = readonly [leads: Leads, ...tells: Tells[]]

const to = (symptom: string): Leads => ({ symptom })
const ask = (question: string): Leads => ({ ask: question })
const some = (what: MapKind, ...values: Value[]): Tells => ({ what, values, on: 'some' })
const all = (what: MapKind, ...values: Value[]): Tells => ({ what, values, on: 'all' })
const past = (about: 'comes-and-goes' | 'since' | 'worked', choice: string): Tells => ({ about, choice })
const answers = (table: Readonly<Record<string, Row>>): readonly GuideAnswer[] =>
  Object.entries(table).map(([id, [leads, ...tells]]) => ({ id, leads, tells }))

/** The first question is asked first; the order of the answers is that in which they are offered. */
export const QUESTIONS: Readonly<Record<string, readonly GuideAnswer[]>> = {
  whatIsOff: answers({
    'nothing-at-all': [to('all-dead'), all('spins', 'no'), all('lit', 'dark')],
    'first-switch-on': [to('first-boot'), past('since', 'new')],
    fans: [ask('whatTheFansDo')],
    lights: [ask('whatTheLightsDo')],
    figures: [ask('whatIsShown')],
    'not-found': [to('not-listed'), some('listed', 'no')],
    later: [to('works-then-stops'), past('comes-and-goes', 'yes'), past('worked', 'once')],
  }),
  whatTheFansDo: answers({
    'stand-still': [to('fan-still'), some('spins', 'no', 'twitches')],
    'flat-out': [to('fans-full'), some('spins', 'full')],
    'same-speed-always': [to('fans-full'), some('follows', 'no', 'some')],
    'too-slow': [to('odd-reading'), some('spins', 'slow')],
    'up-and-down': [to('fans-hunting'), some('steady', 'swings', 'ticks')],
    'stop-now-and-then': [
      to('fans-hunting'),
      some('steady', 'comes-and-goes'),
      past('comes-and-goes', 'yes'),
    ],
  }),
  whatTheLightsDo: answers({
    dark: [to('lights-dark'), some('lit', 'dark')],
    'part-of-them': [to('lights-order'), some('lit', 'part')],
    'wrong-way-round': [to('lights-order'), some('effect', 'jumps')],
    'other-colours': [to('wrong-colours'), some('shows', 'wrong-colours')],
    flicker: [to('lights-flicker'), some('flickers', 'yes'), past('comes-and-goes', 'yes')],
    'own-will': [ask('whosePattern')],
  }),
  whosePattern: answers({
    'from-the-factory': [to('lights-stuck'), some('shows', 'stored')],
    'the-same-on-all': [to('global-effect'), all('shows', 'global')],
    'stands-still': [to('lights-stuck'), some('shows', 'frozen')],
  }),
  whatIsShown: answers({
    nought: [to('zero-rpm'), some('rpm', 'zero', 'none')],
    'cannot-be-right': [to('odd-reading'), some('rpm', 'low', 'high')],
    'jumps-about': [to('odd-reading'), some('rpm', 'erratic')],
    warning: [to('alarm'), some('alarm', 'yes')],
  }),
}

/** What a symptom looks like at first sight; nothing for those that may look like anything. */
export const signsOf = (symptom: string): readonly Extract<Tells, { what: MapKind }>[] =>
  Object.values(QUESTIONS)
    .flat()
    .filter(({ leads }) => 'symptom' in leads && leads.symptom === symptom)
    .flatMap(({ tells }) => tells.flatMap((t) => ('what' in t ? [t] : [])))

/** The id under which a job begins whose symptom nobody has named. */
export const WHICH_SYMPTOM = 'which-symptom'

const FIRST = 'whatIsOff'
/** Where nobody can tell. */
const SURVEY = 'survey'
/** These leave nothing else to ask for: everything is looked at anyway. */
const ALONE: ReadonlySet<string> = new Set([SURVEY, 'all-dead', 'first-boot'])
/** The question after a symptom is found. */
export const ANYTHING_ELSE = 'anythingElse'
const MORE: readonly GuideAnswer[] = answers({ 'that-is-all': [ask('settled')], more: [ask(FIRST)] })
/** More than so many at once are told later. */
const MOST = 3

export type GuideEvent =
  | { readonly type: 'CHOSE'; readonly answer: string }
  | { readonly type: 'UNSURE' }
  | { readonly type: 'UNDO' }

interface GuideContext {
  readonly passed: readonly string[]
}

const symptoms = [
  ...new Set(
    Object.values(QUESTIONS)
      .flat()
      .flatMap(({ leads }) => ('symptom' in leads ? [leads.symptom] : [])),
  ),
  SURVEY,
]

const foundIn = (passed: readonly string[]): readonly string[] => [
  ...new Set(passed.filter((state) => symptoms.includes(state))),
]

const guide = setup({
  types: { context: {} as GuideContext, events: {} as GuideEvent },
  guards: {
    chose: ({ event }, { answer }: { answer: string }) => event.type === 'CHOSE' && event.answer === answer,
    // Who has told of one symptom has not come with a build that was never switched on, or is dead as a whole.
    choseAtFirst: ({ context, event }, { answer }: { answer: string }) =>
      event.type === 'CHOSE' && event.answer === answer && foundIn(context.passed).length === 0,
    choseMore: ({ context, event }, { answer }: { answer: string }) =>
      event.type === 'CHOSE' && event.answer === answer && foundIn(context.passed).length < MOST - 1,
    cameFrom: ({ context }, { question }: { question: string }) => context.passed.at(-1) === question,
  },
  actions: {
    pass: assign({
      passed: ({ context }, { question }: { question: string }) => [...context.passed, question],
    }),
    goBack: assign({ passed: ({ context }) => context.passed.slice(0, -1) }),
  },
})

const back = [...Object.keys(QUESTIONS), ...symptoms].map(
  (question) =>
    ({
      target: `#${question}`,
      guard: { type: 'cameFrom', params: { question } },
      actions: 'goBack',
    }) as const,
)

const passing = (question: string) => ({ type: 'pass', params: { question } }) as const

const alone = ({ leads }: GuideAnswer): boolean => 'symptom' in leads && ALONE.has(leads.symptom)

export const whichSymptom = guide.createMachine({
  id: WHICH_SYMPTOM,
  options: { maxIterations: 100 },
  context: () => ({ passed: [] }),
  initial: FIRST,
  states: {
    ...Object.fromEntries(
      Object.entries(QUESTIONS).map(([question, offered]) => {
        const actions = passing(question)
        return [
          question,
          {
            id: question,
            on: {
              CHOSE: offered.map((answer) => ({
                target: 'ask' in answer.leads ? answer.leads.ask : answer.leads.symptom,
                guard: {
                  type: alone(answer) ? ('choseAtFirst' as const) : ('chose' as const),
                  params: { answer: answer.id },
                },
                actions,
              })),
              UNSURE: { target: SURVEY, actions },
              UNDO: back,
            },
          },
        ]
      }),
    ),
    // Found: is that all? A slip of the key can still be taken back.
    ...Object.fromEntries(
      symptoms.map((symptom) => {
        const actions = passing(symptom)
        const settled = { target: 'settled', actions } as const
        return [
          symptom,
          {
            id: symptom,
            on: ALONE.has(symptom)
              ? { UNDO: back }
              : {
                  CHOSE: [
                    { ...settled, guard: { type: 'chose', params: { answer: 'that-is-all' } } as const },
                    {
                      target: FIRST,
                      guard: { type: 'choseMore', params: { answer: 'more' } } as const,
                      actions,
                    },
                  ],
                  UNSURE: settled,
                  UNDO: back,
                },
          },
        ]
      }),
    ),
    settled: { on: { UNDO: back } },
  },
})

export type GuideState =
  | { readonly ask: string; readonly answers: readonly GuideAnswer[]; readonly found: readonly string[] }
  | { readonly symptoms: readonly string[] }

/** Where somebody stands who said all this; events that do not fit are not taken. */
export function guided(events: readonly GuideEvent[]): GuideState {
  const [start] = initialTransition(whichSymptom)
  const stands = events.reduce((s, event) => transition(whichSymptom, s, event)[0], start)
  const at = String(stands.value)
  const found = foundIn([...stands.context.passed, at])
  const offered = QUESTIONS[at]
  if (offered) return { ask: at, answers: offered.filter((a) => found.length === 0 || !alone(a)), found }
  return at === 'settled' || ALONE.has(at) || found.length >= MOST
    ? { symptoms: found }
    : { ask: ANYTHING_ELSE, answers: MORE, found }
}
