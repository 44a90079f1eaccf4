/** The questions that help a person to a symptom by what they see; the ids are those of the guide's machine. */
import type { SymptomText } from '../language.ts'

interface GuideText {
  readonly ask: string
  readonly answers: Readonly<Record<string, string>>
}

/** The entry in the list of symptoms for who cannot choose one. */
export const HELP_ME: SymptomText = {
  name: "I can't say: help me find it",
  means: 'Asks what you see, in at most three questions.',
}

export const GUIDE: Readonly<Record<string, GuideText>> = {
  whatIsOff: {
    ask: 'What is not as it should be?',
    answers: {
      'nothing-at-all': 'Nothing turns and nothing lights',
      'first-switch-on': 'Nothing yet: the build is to be switched on for the first time',
      fans: 'The fans, or one of them',
      lights: 'The lights, or some of them',
      figures: 'A figure or a warning on a screen',
      'not-found': 'A program does not find a hub or a controller',
      later: 'The build is right at first and goes wrong later',
    },
  },
  anythingElse: {
    ask: 'Is anything else wrong?',
    answers: {
      'that-is-all': 'No, that is all',
      more: 'Yes, something else too',
    },
  },
  whatTheFansDo: {
    ask: 'What do the fans do?',
    answers: {
      'stand-still': 'Stand still, or twitch and give up',
      'flat-out': 'Run at full speed',
      'same-speed-always': 'Keep one speed, whatever is set',
      'too-slow': 'Turn too slowly',
      'up-and-down': 'Go up and down again and again, or tick',
      'stop-now-and-then': 'Stop now and then, and go on',
    },
  },
  whatTheLightsDo: {
    ask: 'What do the lights do?',
    answers: {
      dark: 'Stay dark',
      'part-of-them': 'Light only in part of a fan or of the row',
      'wrong-way-round': 'Run in the wrong order',
      'other-colours': 'Follow, in other colours than set',
      flicker: 'Flicker, or go out now and then',
      'own-will': 'Show something else than what is set',
    },
  },
  whosePattern: {
    ask: 'What do they show in its place?',
    answers: {
      'from-the-factory': 'The pattern they came with',
      'the-same-on-all': 'The same effect on all',
      'stands-still': 'A picture that stands still',
    },
  },
  whatIsShown: {
    ask: 'What is shown?',
    answers: {
      nought: '0 RPM, or no speed at all',
      'cannot-be-right': 'A speed that cannot be right: double, half, much too low',
      'jumps-about': 'A speed that jumps about',
      warning: 'A warning of a fan or a pump',
    },
  },
}
