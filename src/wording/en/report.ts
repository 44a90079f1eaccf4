/** The pages of a report in English. Whoever reads them may never have seen the program. */
import { clean } from '../clean.ts'
import { figures } from '../figures.ts'
import type { ReportWords } from '../report/words.ts'

const HOW = {
  asked: 'left on purpose',
  interrupted: 'interrupted',
  stopped: 'stopped from outside',
  'end-of-input': 'left when the input ended',
  'not-known': 'stopped without a word (power cut, or the program was ended)',
} as const

/** What a connector is for; anything else in its place is a setting by its own name. */
const LEADS: Readonly<Record<string, string>> = {
  fan: 'fan lead',
  light: 'light lead',
  supply: 'supply lead',
  usb: 'USB lead',
}

export const reportWords: ReportWords = {
  title: (build, symptom) => `${build}: ${symptom.charAt(0).toLowerCase()}${symptom.slice(1)}`,
  outcome: {
    fixed: 'fixed and proven',
    'nothing-wrong': 'nothing is wrong',
    'handed-over': 'handed over',
    declined: 'no known cause fits',
    left: 'left, not finished',
    open: 'not finished',
  },
  ended: {
    fixed: 'Fixed, and proven by looking again at what was wrong.',
    'nothing-wrong': 'Nothing is wrong: what was seen is what the build is set to do.',
    'handed-over': 'Not finished here. Handed over with everything found so far.',
    declined:
      'No cause that is known here fits what was seen. Someone who looks beyond this wiring is needed.',
    left: 'Not finished. The job was left and can be taken up again.',
    open: 'Not finished. The job can be taken up again where it stopped.',
  },
  head: {
    outcome: 'Outcome',
    cause: 'Cause',
    likely: 'Likeliest cause so far',
    build: 'Build',
    symptom: 'Symptom',
    plan: 'Wiring plan',
    began: 'Began',
    ended: 'Ended',
    minutes: 'Time at the bench',
    who: 'Who',
    where: 'Where',
    tools: 'Made with',
    log: 'Job log',
  },
  section: {
    result: 'Result',
    boot: 'First boot, point by point',
    seen: 'What was seen',
    repair: 'Repair and proof',
    left: 'What is left to do',
    notes: 'Notes',
    path: 'Path of the diagnosis',
    suspects: 'Suspects over time',
    plan: 'From the wiring plan',
    wiring: 'Wiring',
    cautions: 'Before anyone goes on',
    goingOn: 'Going on',
    log: 'About this log',
  },
  boot: {
    point: 'Point, and what was expected',
    asExpected: 'as expected',
    signed: (by, at) => `Signed off${by === undefined ? ', without a name' : ` by ${clean(by)}`}, ${at}.`,
    notSigned: 'Not signed off.',
  },
  stage: { scope: 'At the start', check: 'While looking for the cause', proof: 'After the repair' },
  table: {
    step: 'Step',
    time: 'Time (UTC)',
    asked: 'Done or asked',
    answer: 'Answer',
    minutes: 'Min',
    after: 'After step',
    likeliest: 'Likeliest',
  },
  reply: { done: 'done', unsure: "can't tell", cannot: "can't be done here", none: 'none of them' },
  takenBack: 'taken back',
  byReading: 'read',
  struck: 'Steps that are struck out were answered and then taken back; they do not count.',
  stepRefs: (steps) => `${steps.length === 1 ? 'step' : 'steps'} ${steps.join(', ')}`,
  alsoWrong: 'Also',
  alike: 'No check at hand tells this from:',
  nothingSeen: 'Nothing was looked at yet.',
  nothingWrongSeen: 'Nothing wrong was seen.',
  noRepair: 'Nothing was repaired.',
  notProven: 'not looked at again after this',
  proven: 'then',
  suspectsLeft: 'Suspects, likeliest first:',
  wouldMend: 'What would mend the likeliest:',
  nothingToMend: 'Nothing more can be mended at this bench.',
  waiting: 'The job waits at:',
  nothingLeft: 'Nothing. The job is closed.',
  still: 'less likely suspects together',
  hidden: '(left out)',
  start: 'start',
  takeUp: 'Take the job up again where it stopped:',
  again: 'Make this page again:',
  withoutTool:
    'Without the program: follow "What is left to do" from the top, one suspect at a time, and look at the symptom again after each change.',
  pause: ({ at, how, resumed, planChanged, cut }, when) => {
    const word = how ?? 'not-known'
    const back = resumed === undefined ? 'and not taken up again yet' : `taken up again ${when(resumed)}`
    const plan = planChanged ? ', with a changed wiring plan' : ''
    const from =
      cut === undefined
        ? ''
        : `, with the log cut off from line ${cut.line} on (${cut.bytes} bytes, kept beside it)`
    return `${when(at)}: ${HOW[word]}, ${back}${plan}${from}.`
  },
  beyond: (lines) =>
    `${lines} whole line${lines === 1 ? '' : 's'} after the damage ${lines === 1 ? 'is' : 'are'} left out of this page.`,
  intact: 'Every line of the log is as it was written.',
  other: 'all others',
  chart: (steps) => `Share of each suspect after each of ${steps} steps, in percent.`,
  timeline: {
    title: 'Steps along the minutes at the bench, with power off and hands in the case marked below.',
    powerOff: 'power off',
    handsIn: 'hands in',
    minutes: 'min',
    kinds: { look: 'looking', gate: 'switching power', repair: 'repair', proof: 'proof' },
  },
  judgement:
    'The percentages are judgement: how common a fault is in the trade’s experience, weighed with every answer and with how far such an answer can be trusted.',
  wiring:
    'The wiring as planned. Boxed: where the likeliest cause sits; broad band: the way there from its source.',
  jobs: {
    notFound: (text) => `No job has "${clean(text)}" in it.`,
    total: (jobs, ended) => `${jobs} job${jobs === 1 ? '' : 's'}, ${ended} ended.`,
    noneFits: 'No job fits all of that.',
    badDate: (option, given) =>
      `--${option} takes a year, a month or a day, such as 2026, 2026-03 or 2026-03-09, not "${clean(given)}".`,
    emptySpan: (from, to) => `--to ${clean(to)} lies before --from ${clean(from)}.`,
    badOutcome: (given, known) => `--outcome takes one of ${known.join(', ')}, not "${clean(given)}".`,
    damaged: 'log damaged',
    unreadable: (path) => `${clean(path)} holds no job that can be read.`,
    sums: { outcomes: 'How they ended', causes: 'Causes', places: 'Places', builds: 'Builds' },
    sum: (jobs, minutes) => `${jobs} job${jobs === 1 ? '' : 's'}, ${minutes} minutes`,
    nothingLearnt: 'No closed job has taught anything yet; the usual weights hold.',
    learnt: (jobs, since) =>
      `Learnt from ${jobs} closed job${jobs === 1 ? '' : 's'}${since === null ? '' : ` since ${figures().day(since)}`}. Suspected more or less than usual:`,
    factor: (factor, mode, kind, spot) => {
      const where = spot === undefined ? kind : `${kind}, ${LEADS[spot] ?? spot}`
      return factor >= 1
        ? `${figures().number(factor, 1)} times as much: ${mode} (${where})`
        : `${figures().number(1 / factor, 1)} times less: ${mode} (${where})`
    },
    moreLearnt: (classes) => `and ${classes} more that are nearer to usual; --json has them all`,
    forgotten: 'From now on jobs that begin later teach. The logs are as they were.',
  },
  figure: (minutes) => figures().number(minutes, 1),
}
