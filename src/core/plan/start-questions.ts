/**
 * What has to be known to begin a plan, as data: in which order to ask, what may be answered, what is usual, and
 * when a question makes no sense any more. Who asks puts it into words; every question can be left out.
 */
import * as z from 'zod'

const count = (min: number, max: number, usual: number) => z.number().int().min(min).max(max).default(usual)

/** Answers as they come in; what is left out is as usual, and currents left out are unknown. */
export const startAnswers = z.strictObject({
  build: z.string().default('unnamed build'),
  fans: count(1, 60, 3),
  fanPins: z.enum(['4', '3']).default('4'),
  fanAmps: z.exactOptional(z.number().positive().max(6)),
  lights: z.enum(['5 V', '12 V', 'none']).default('5 V'),
  leds: z.exactOptional(z.number().int().min(1).max(2000)),
  pump: z.enum(['none', 'plain', 'lit']).default('none'),
  fanHeaders: count(0, 20, 3),
  headerAmps: z.exactOptional(z.number().positive().max(20)),
  pumpHeader: z.enum(['yes', 'no']).default('no'),
  lightHeaders: count(0, 8, 1),
  usbHeaders: count(0, 8, 1),
  sataLeads: count(0, 8, 2),
  motorsOn: z.enum(['headers', 'splitters', 'fan-hub', 'controller']).default('headers'),
  lightsOn: z.enum(['light-hub', 'controller', 'splitter', 'headers']).default('light-hub'),
  hubPorts: count(1, 32, 6),
  hubChain: z.enum(['series', 'parallel', 'unknown']).default('unknown'),
  hubHost: z.enum(['usb', 'header']).default('usb'),
})

export type StartAnswers = z.output<typeof startAnswers>
export type StartAnswersGiven = z.input<typeof startAnswers>
export type StartId = keyof StartAnswers

export interface StartQuestion {
  readonly id: StartId
  readonly about: string
  readonly answer:
    | { readonly is: 'text' }
    | { readonly is: 'count'; readonly min: number; readonly max: number }
    | { readonly is: 'amps'; readonly max: number }
    | { readonly is: 'choice'; readonly choices: readonly { readonly id: string; readonly about: string }[] }
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

const counted = (id: StartId, about: string, min: number, max: number, when = always): StartQuestion => ({
  id,
  about,
  answer: { is: 'count', min, max },
  usual: usual[id],
  when,
})
const chosen = (
  id: StartId,
  about: string,
  choices: Readonly<Record<string, string>>,
  when = always,
): StartQuestion => ({
  id,
  about,
  answer: {
    is: 'choice',
    choices: Object.entries(choices).map(([choice, text]) => ({ id: choice, about: text })),
  },
  usual: usual[id],
  when,
})
const amps = (id: StartId, about: string, max: number, when = always): StartQuestion => ({
  id,
  about,
  answer: { is: 'amps', max },
  usual: undefined,
  when,
})

/** All questions, in the order in which a person looks at a build: fans first, then board, then what is between. */
export const startQuestions: readonly StartQuestion[] = [
  { id: 'build', about: 'the name of the build', answer: { is: 'text' }, usual: usual.build, when: always },
  counted('fans', 'fans in the build, radiator fans included', 1, 60),
  chosen('fanPins', 'what the motor leads of the fans end in', {
    '4': 'a plug with four holes: speed by control wire',
    '3': 'a plug with three holes: speed by voltage',
  }),
  amps('fanAmps', 'current on the label of a fan’s motor, A', 6),
  chosen('lights', 'what the light leads of the fans end in', {
    '5 V': 'three holes and a gap: addressable, 5 V',
    '12 V': 'four holes: one colour for all, 12 V',
    none: 'the fans have no lights',
  }),
  counted('leds', 'LEDs in one fan', 1, 2000, (so) => so.lights !== 'none'),
  chosen('pump', 'the pump of a liquid cooler', {
    none: 'there is none',
    plain: 'one without lights',
    lit: 'one with lights',
  }),
  counted('fanHeaders', 'fan headers on the board, beside the one for the processor', 0, 20),
  amps('headerAmps', 'most current of a fan header, from the board’s manual, A', 20),
  chosen('pumpHeader', 'a header for a pump on the board', { yes: 'there is one', no: 'there is none' }),
  counted('lightHeaders', 'light headers on the board', 0, 8, lit),
  counted('usbHeaders', 'internal USB 2 headers on the board', 0, 8),
  counted('sataLeads', 'SATA power leads from the supply', 0, 8, hubbed),
  chosen('motorsOn', 'what the motor leads go into', {
    headers: 'a header each',
    splitters: 'splitters on the headers',
    'fan-hub': 'a fan hub with a supply plug of its own',
    controller: 'a controller for fans and lights',
  }),
  chosen(
    'lightsOn',
    'what the light leads go into',
    {
      'light-hub': 'a light hub',
      controller: 'a controller for fans and lights',
      splitter: 'a splitter on a light header',
      headers: 'a light header each',
    },
    lit,
  ),
  counted('hubPorts', 'sockets on that hub or controller', 1, 32, hubbed),
  chosen(
    'hubChain',
    'how a light hub hands on the data',
    {
      series: 'from socket to socket: each part shows its own piece of a pattern',
      parallel: 'the same to every socket: all parts show the same',
      unknown: 'not known',
    },
    (so) => lit(so) && so.lightsOn === 'light-hub',
  ),
  chosen(
    'hubHost',
    'who tells the hub what to show',
    { usb: 'a program, over USB', header: 'the board, over a light header' },
    (so) => lit(so) && so.lightsOn === 'light-hub',
  ),
]
