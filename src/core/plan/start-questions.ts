/**
 * What has to be known to begin a plan, as data: in which order to ask, what may be answered, what is usual, and
 * when a question makes no sense any more. Who asks puts it into words; every question can be left out.
 */
import * as z from 'zod/mini'

const count = (min: number, max: number, usual: number) =>
  z._default(z.int().check(z.gte(min), z.lte(max)), usual)

/** Answers as they come in; what is left out is as usual, and currents left out are unknown. */
export const startAnswers = z.strictObject({
  build: z._default(z.string(), 'unnamed build'),
  fans: count(1, 60, 3),
  fanPins: z._default(z.enum(['4', '3']), '4'),
  fanAmps: z.exactOptional(z.number().check(z.gt(0), z.lte(6))),
  lights: z._default(z.enum(['5 V', '12 V', 'none']), '5 V'),
  leds: z.exactOptional(z.int().check(z.gte(1), z.lte(2000))),
  pump: z._default(z.enum(['none', 'plain', 'lit']), 'none'),
  fanHeaders: count(0, 20, 3),
  headerAmps: z.exactOptional(z.number().check(z.gt(0), z.lte(20))),
  pumpHeader: z._default(z.enum(['yes', 'no']), 'no'),
  lightHeaders: count(0, 8, 1),
  usbHeaders: count(0, 8, 1),
  sataLeads: count(0, 8, 2),
  motorsOn: z._default(z.enum(['headers', 'splitters', 'fan-hub', 'controller']), 'headers'),
  lightsOn: z._default(z.enum(['light-hub', 'controller', 'splitter', 'headers']), 'light-hub'),
  hubPorts: count(1, 32, 6),
  hubChain: z._default(z.enum(['series', 'parallel', 'unknown']), 'unknown'),
  hubHost: z._default(z.enum(['usb', 'header']), 'usb'),
})

export type StartAnswers = z.output<typeof startAnswers>
export type StartAnswersGiven = z.input<typeof startAnswers>
export type StartId = keyof StartAnswers

export interface StartQuestion {
  readonly id: StartId
  readonly answer:
    | { readonly is: 'text' }
    | { readonly is: 'count'; readonly min: number; readonly max: number }
    | { readonly is: 'amps'; readonly max: number }
    | { readonly is: 'choice'; readonly choices: readonly string[] }
  /** What is taken when it is left out; undefined for what then stays unknown. */
  readonly usual: string | number | undefined
  /** Whether it still matters, given what has been answered. */
  readonly when: (so: StartAnswers) => boolean
}

const always = (_: StartAnswers): boolean => true
const lit = (so: StartAnswers): boolean => so.lights !== 'none' || so.pump === 'lit'
const hubbed = (so: StartAnswers): boolean =>
  so.motorsOn === 'fan-hub' || so.motorsOn === 'controller' || (lit(so) && /hub|controller/.test(so.lightsOn))

const usual = startAnswers.parse({})

const counted = (id: StartId, min: number, max: number, when = always): StartQuestion => ({
  id,
  answer: { is: 'count', min, max },
  usual: usual[id],
  when,
})
const chosen = (id: StartId, choices: readonly string[], when = always): StartQuestion => ({
  id,
  answer: { is: 'choice', choices },
  usual: usual[id],
  when,
})
const amps = (id: StartId, max: number, when = always): StartQuestion => ({
  id,
  answer: { is: 'amps', max },
  usual: undefined,
  when,
})

/** All questions, in the order in which a person looks at a build: fans first, then board, then what is between. */
export const startQuestions: readonly StartQuestion[] = [
  { id: 'build', answer: { is: 'text' }, usual: usual.build, when: always },
  counted('fans', 1, 60),
  chosen('fanPins', ['4', '3']),
  amps('fanAmps', 6),
  chosen('lights', ['5 V', '12 V', 'none']),
  counted('leds', 1, 2000, (so) => so.lights !== 'none'),
  chosen('pump', ['none', 'plain', 'lit']),
  counted('fanHeaders', 0, 20),
  amps('headerAmps', 20),
  chosen('pumpHeader', ['yes', 'no']),
  counted('lightHeaders', 0, 8, lit),
  counted('usbHeaders', 0, 8),
  chosen('motorsOn', ['headers', 'splitters', 'fan-hub', 'controller']),
  chosen('lightsOn', ['light-hub', 'controller', 'splitter', 'headers'], lit),
  counted('hubPorts', 1, 32, hubbed),
  counted('sataLeads', 0, 8, hubbed),
  chosen('hubChain', ['series', 'parallel', 'unknown'], (so) => lit(so) && so.lightsOn === 'light-hub'),
  chosen('hubHost', ['usb', 'header'], (so) => lit(so) && so.lightsOn === 'light-hub'),
]
