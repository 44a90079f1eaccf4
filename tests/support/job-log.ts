/**
 * A job as a log would hold it, written by hand: two front fans of an archive's workstation are dark, one answer is
 * taken back, the job is left and taken up again, a plug is pushed home and the lights are looked at again.
 */
import { planDigest } from '../../src/job/log/digest.ts'
import { encodeEvents, START } from '../../src/job/log/encode.ts'
import type { LogBody, LogEvent, PlanCopy } from '../../src/job/log/event.ts'

export const planCopy: PlanCopy = {
  file: 'benches/reading-room.build.yaml',
  text: `build: Reading room workstation
supply:
  leads:
    SA: {kind: sata, plugs: 3}
board:
  fan_headers:
    SYS1: {amps: 2.0, drive: pwm}
  light_headers:
    L1: {volts: 5, amps: 3.0}
parts:
  F1: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}, at: front-bottom}
  F2: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}, at: front-middle}
  F3: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}, at: rear}
  H1: {kind: light-hub, ports: 4, chain: series, power: sata, host: header}
  Y1: {kind: fan-splitter, ways: 3, tach_from: 1}
leads:
  - F1.motor -> Y1.1
  - F2.motor -> Y1.2
  - F3.motor -> Y1.3
  - F1.light -> H1.1
  - F2.light -> H1.2
  - F3.light -> H1.3
  - Y1.in -> board.SYS1
  - H1.power -> supply.SA.1
  - H1.in -> board.L1
`,
  includes: [],
}

const suspect = (at: string, mode: string, p: number, alike: readonly [string, string][] = []) => ({
  faults: [{ at, mode }],
  p,
  alike: alike.map(([place, how]) => ({ faults: [{ at: place, mode: how }] })),
})

/** Numbers of lines that others refer to stand beside them. */
export const jobBodies: readonly LogBody[] = [
  {
    e: 'opened',
    format: 1,
    tool: '0.1.0',
    plan: planCopy,
    digest: planDigest(planCopy),
    build: 'Reading room workstation',
    symptom: 'lights-dark',
    who: 'early shift',
    where: 'bench 2',
    options: { seed: 3, plain: true },
  },
  {
    e: 'told',
    record: { show: 'note', kind: 'cross-check', facts: { what: 'shared', parts: ['F1', 'F2'], at: 'H1' } },
    text: 'F1 and F2 hang on H1.',
  },
  // 3
  {
    e: 'shown',
    prompt: {
      show: 'ask',
      id: 'which-dark',
      stage: 'scope',
      power: 'on',
      hands: 'out',
      minutes: 0.5,
      tools: [],
      error: 0.02,
      many: true,
      marks: [
        { id: 'F1', observe: { what: 'lit', at: 'F1' }, value: 'dark' },
        { id: 'F2', observe: { what: 'lit', at: 'F2' }, value: 'dark' },
        { id: 'F3', observe: { what: 'lit', at: 'F3' }, value: 'dark' },
      ],
    },
    text: 'Which fans are dark?',
    answers: { F1: 'F1, front bottom', F2: 'F2, front middle', F3: 'F3, rear' },
  },
  { e: 'replied', to: 3, reply: ['F1', 'F2', 'F3'] },
  { e: 'suspects', suspects: [suspect('H1.power', 'loose', 0.4)], minutes: 0.5 },
  { e: 'undone', of: 4 },
  // 7
  {
    e: 'shown',
    prompt: {
      show: 'ask',
      id: 'which-dark',
      stage: 'scope',
      power: 'on',
      hands: 'out',
      minutes: 0.5,
      tools: [],
      error: 0.02,
      again: 'undone',
      many: true,
      marks: [
        { id: 'F1', observe: { what: 'lit', at: 'F1' }, value: 'dark' },
        { id: 'F2', observe: { what: 'lit', at: 'F2' }, value: 'dark' },
        { id: 'F3', observe: { what: 'lit', at: 'F3' }, value: 'dark' },
      ],
    },
    text: 'Which fans are dark?',
    answers: { F1: 'F1, front bottom', F2: 'F2, front middle', F3: 'F3, rear' },
  },
  { e: 'replied', to: 7, reply: ['F1', 'F2'] },
  {
    e: 'suspects',
    suspects: [suspect('F1.light', 'loose', 0.35), suspect('H1.1', 'dead', 0.2)],
    minutes: 0.5,
    left: 4,
  },
  // 10
  {
    e: 'shown',
    prompt: {
      show: 'ask',
      id: 'since',
      stage: 'scope',
      power: 'on',
      hands: 'out',
      minutes: 0.2,
      tools: [],
      error: 0.05,
      many: false,
      about: 'since',
      choices: ['new', 'changed', 'suddenly'],
    },
    text: 'Since when?',
    answers: { new: 'since it was built', changed: 'since something was changed', suddenly: 'suddenly' },
  },
  { e: 'noted', text: 'The front panel was off last week — for a “quick look”.', to: 10 },
  { e: 'replied', to: 10, reply: ['changed'] },
  { e: 'left', how: 'interrupted' },
  { e: 'resumed', tool: '0.1.1', digest: planDigest(planCopy) },
  // 15
  {
    e: 'shown',
    prompt: {
      show: 'do',
      id: 'power-off',
      purpose: 'gate',
      edits: [{ do: 'power', to: 'off' }],
      power: 'off',
      hands: 'out',
      minutes: 1,
      cautions: ['shut-down-full', 'live-plugging'],
    },
    text: 'Shut down and switch the supply off.',
  },
  { e: 'replied', to: 15, reply: 'done' },
  // 17
  {
    e: 'shown',
    prompt: {
      show: 'ask',
      id: 'seated-F1.light',
      stage: 'check',
      power: 'off',
      hands: 'in',
      minutes: 2,
      tools: [],
      error: 0.05,
      many: false,
      observe: [{ what: 'seated', at: 'F1.light' }],
      answers: [
        { id: 'yes', means: ['yes'] },
        { id: 'no', means: ['no'] },
        { id: 'elsewhere', means: [null] },
      ],
    },
    text: 'Is the light lead of F1 pushed home at H1.1?',
    answers: { yes: 'pushed home', no: 'stands out', elsewhere: 'something else' },
  },
  { e: 'replied', to: 17, reply: ['no'] },
  { e: 'suspects', suspects: [suspect('F1.light', 'loose', 0.93)], minutes: 3.7, left: 1 },
  {
    e: 'told',
    record: {
      show: 'verdict',
      suspects: [suspect('F1.light', 'loose', 0.93, [['F1.light', 'unplugged']])],
      repair: { id: 'reseat-F1.light', edits: [{ do: 'reseat', plug: 'F1.light' }] },
    },
    text: 'The light lead of F1 is not pushed home.',
  },
  // 21
  {
    e: 'shown',
    prompt: {
      show: 'do',
      id: 'reseat-F1.light',
      purpose: 'repair',
      edits: [{ do: 'reseat', plug: 'F1.light' }],
      power: 'off',
      hands: 'in',
      minutes: 1,
      cautions: [],
    },
    text: 'Push the light lead of F1 home.',
  },
  { e: 'replied', to: 21, reply: 'done' },
  // 23
  {
    e: 'shown',
    prompt: {
      show: 'ask',
      id: 'proof-lit',
      stage: 'proof',
      power: 'on',
      hands: 'out',
      minutes: 1,
      tools: [],
      error: 0.02,
      many: false,
      observe: [
        { what: 'lit', at: 'F1' },
        { what: 'lit', at: 'F2' },
      ],
      answers: [
        { id: 'whole', means: ['whole', 'whole'] },
        { id: 'still', means: ['dark', 'dark'] },
      ],
    },
    text: 'Are F1 and F2 lit now?',
    answers: { whole: 'both are lit', still: 'still dark' },
  },
  { e: 'replied', to: 23, reply: ['whole'] },
  {
    e: 'ended',
    end: { show: 'end', outcome: 'fixed', suspects: [suspect('F1.light', 'loose', 0.99)], minutes: 5.7 },
    text: 'Fixed.',
  },
]

/** 9:30 on a March morning, UTC; each event of the sample half a minute after the one before. */
export const MORNING = Date.UTC(2026, 2, 3, 9, 30)

export interface WrittenJob {
  readonly events: readonly LogEvent[]
  readonly text: string
  /** One line an event, without line ends. */
  readonly lines: readonly string[]
}

/** @param later ms after the morning */
export function writtenJob(bodies: readonly LogBody[] = jobBodies, later = 0): WrittenJob {
  const events: LogEvent[] = []
  let tail = START
  let text = ''
  for (const body of bodies) {
    const encoded = encodeEvents([body], MORNING + later + events.length * 30_000, tail)
    events.push(...encoded.events)
    text += encoded.text
    tail = encoded.tail
  }
  return { events, text, lines: text.trimEnd().split('\n') }
}
