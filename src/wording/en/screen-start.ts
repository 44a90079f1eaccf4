/** The first screen in English: jobs to take up again, builds at hand, and how to begin where there is nothing yet. */
import { clean } from '../clean.ts'
import type { StartWords } from '../screen.ts'

export const startWords: StartWords = {
  title: 'What do you want to do?',
  welcome: (demo) => [
    'whichlead finds what is wrong with the fan and light wiring of a build. It needs a wiring plan: a file that ends in .build.yaml, which says what is plugged in where. There is none in this folder.',
    ...(demo ? ['The demo build lets you try everything without a machine.'] : []),
    'A new plan is written from a few questions about your build.',
  ],
  resume: (build, symptom, began) =>
    `Go on with ${clean(build)}${began === null ? '' : ` of ${began}`}: ${symptom}`,
  resumeHint: (began, minutes, log) =>
    `Begun ${began}, ${minutes} at the bench so far. Kept in ${clean(log)}`,
  build: (file) => clean(file),
  buildHint: 'A wiring plan in this folder: find a fault, check it, draw it, or practise on it.',
  demo: 'Try the demo build',
  demoHint: 'A made-up machine with ten lit fans. Nothing real is touched.',
  create: 'Write a new plan',
  createHint: 'Makes a wiring plan in this folder, to be changed to the build at hand.',
  help: 'Show all commands',
  helpHint: 'Prints the help and ends. "whichlead help COMMAND" has examples for each.',
  demoBuild: 'the demo build',
  whatWith: (file) => `What is to be done with ${clean(file)}?`,
  doing: {
    diagnose: [
      'Something is wrong: find it',
      'Asks what you see, step by step, to the cause, the fix and the proof.',
    ],
    'first-boot': [
      'Switch it on for the first time',
      'Every lead before power, then what must turn and light, point by point, to the signature.',
    ],
    check: ['Check the plan before power-on', 'Tells every limit that the plan breaks, with what to change.'],
    draw: ['Draw the wiring', 'From supply and headers to every fan and light.'],
    practice: [
      'Practise: find a planted fault',
      'The program plays the machine, you choose each step, and the minutes count.',
    ],
  },
}
