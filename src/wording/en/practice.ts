/** Practice in English. */
import { clean } from '../clean.ts'
import type { PracticeWords } from '../practice.ts'

const steps = (count: number): string => (count === 1 ? 'one step' : `${count} steps`)

export const practiceWords: PracticeWords = {
  intro: (build, symptom) => [
    `Practice on ${clean(build)}. A fault has been planted in the model of this build; the customer says: ${symptom}.`,
    'You choose each step, the model answers truly, and the minutes count as they would at a bench. Nothing is kept.',
  ],
  again: (seed, level) => `Exercise ${seed}, ${level}. The same once more: --level ${level} --seed ${seed}`,
  seen: 'What is seen:',
  begins: 'The exercise',
  answers: (power, minutes) => `The bench answers. Power ${power}, ${minutes} so far.`,
  goOn: 'Go on',
  next: (power, minutes) => `What next? Power ${power}, ${minutes} so far.`,
  group: {
    outside: ['Look from outside', 'With power on and hands out of the case: eyes, screen, settings.'],
    inside: ['Look inside', 'With power off: plugs, where leads go, blades turned by hand.'],
    meter: ['Measure volts', 'Leads are clipped on with power off and read with power on.'],
    trial: [
      'Try an exchange',
      'Power off, exchange or move a plug, power on, look; it is put back afterwards.',
    ],
    setting: [
      'Change a setting, or cut power',
      'A repair from outside; the symptom is looked at afterwards.',
    ],
    repair: [
      'Repair inside',
      'With power off: push home, put right, replace; the symptom is looked at afterwards.',
    ],
  },
  count: (label, count) => `${label} (${count === 1 ? 'one step' : `one of ${count} steps`})`,
  which: (group, thing) => (thing === '' ? `${group}: where?` : `${group}: ${thing}`),
  part: 'which step?',
  minutes: (label, minutes) => `${label} – ${minutes}`,
  trial: (edits) => `${edits} Then look again.`,
  powerCycle: 'Cut the power fully and start again.',
  needs: (off, tools, spare) =>
    [
      off ? 'Power goes off first.' : 'Power stays on.',
      ...(tools.length > 0 ? [`Takes a ${tools.join(' and a ')}.`] : []),
      ...(spare === null ? [] : ['Takes a spare.']),
    ].join(' '),
  back: 'Back',
  giveUp: 'Give up, and see what it was',
  do: (title, minutes) => `${title} (${minutes})`,
  done: 'Done',
  nameIt: 'The symptom is gone. What was it?',
  nameHint: 'The causes that would look like this at first; one of them was planted.',
  right: (fault) => `Right: ${fault}.`,
  alike: (named, fault) =>
    `Right as far as anyone can see. You said: ${named}. Planted was: ${fault}. What you saw does not tell the two apart.`,
  wrong: (named, fault) => `It is mended, but it was not: ${named}. It was: ${fault}.`,
  notNamed: (fault) => `It was: ${fault}.`,
  notMended: 'The exercise was left before the symptom was gone.',
  compare: (minutes, choices, engine) =>
    `You: ${minutes}, with ${steps(choices)} chosen. Whichlead on the same fault: ${engine}.`,
  you: 'You',
  engine: 'Whichlead',
  engineGaveUp: 'Whichlead itself hands this one over: nothing at this bench mends it.',
  straight: 'No step of yours was clearly dearer than the best one at that moment.',
  astray: (nth, chosen, loss) =>
    `Where minutes went: your step ${nth}, "${chosen}", cost at least ${loss} more than the best step then, as far as could be known.`,
  idle: 'Nothing that could still be the cause was told apart or mended by it.',
  better: (step) => `Better then: ${step}`,
  betterHandOver: 'Better then: to hand over.',
  engineWay: 'How Whichlead goes about it:',
  badLevel: (given, known) => `"${clean(given)}" is not a level. There are: ${known.join(', ')}.`,
  badSeed: (given) => `"${clean(given)}" is not a whole number. --seed takes one from 0 to 999999.`,
  faultOrLevel: 'Give either --fault, or --level and --seed: a fault that is named needs neither.',
  noFault: (level) =>
    `This build has no fault that is ${level} to find. Try another --level, or name one with --fault.`,
  unseen: (fault) =>
    `${clean(fault)} shows in no symptom that there are questions for, so nobody would go looking for it. Choose another.`,
  planting: 'Planting a fault. This takes a few seconds.',
  noDemo: 'The demo build is not beside the program. Name a plan: whichlead practice PLAN',
}
