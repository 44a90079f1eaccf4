/** The questions that begin a plan, and the comments in the file, in English. */
import type { StartId, StartQuestion } from '../../core/plan/start-questions.ts'
import { clean, shorten } from '../clean.ts'
import type { StartWords } from '../new-plan.ts'

const ask: Readonly<Record<StartId, string>> = {
  build: 'What is the build called?',
  fans: 'How many fans does it have, those on radiators included?',
  fanPins: 'What do the motor leads of the fans end in?',
  fanAmps: 'What current stands on the label of one fan motor?',
  lights: 'What do the light leads of the fans end in?',
  leds: 'How many LEDs does one fan have?',
  pump: 'Is there the pump of a liquid cooler?',
  fanHeaders: 'How many fan headers does the board have, beside the one for the processor?',
  headerAmps: 'What current does one fan header give? The manual of the board says so.',
  pumpHeader: 'Does the board have a header for a pump?',
  lightHeaders: 'How many light headers does the board have?',
  usbHeaders: 'How many internal USB 2 headers does the board have?',
  motorsOn: 'What do the motor leads go into?',
  lightsOn: 'What do the light leads go into?',
  hubPorts: 'How many sockets of a kind does that hub or controller have?',
  sataLeads: 'How many SATA power leads come from the supply?',
  hubChain: 'How does the light hub hand on the data?',
  hubHost: 'Who tells the light hub what to show?',
}

const choices: StartWords['choices'] = {
  fanPins: {
    '4': 'a plug with four holes: speed by control wire',
    '3': 'a plug with three holes: speed by voltage',
  },
  lights: {
    '5 V': 'three holes and a gap: addressable, 5 V',
    '12 V': 'four holes in a row: one colour for all, 12 V',
    none: 'the fans have no lights',
  },
  pump: { none: 'there is none', plain: 'one without lights', lit: 'one with lights' },
  pumpHeader: { yes: 'there is one', no: 'there is none' },
  motorsOn: {
    headers: 'a header each',
    splitters: 'splitters on the headers',
    'fan-hub': 'a fan hub with a supply plug of its own',
    controller: 'a controller for fans and lights',
  },
  lightsOn: {
    'light-hub': 'a light hub',
    controller: 'a controller for fans and lights',
    splitter: 'a splitter on a light header',
    headers: 'a light header each',
  },
  hubChain: {
    series: 'from socket to socket: each part shows its own piece of a pattern',
    parallel: 'the same to every socket: all parts show the same',
    unknown: 'not known',
  },
  hubHost: { usb: 'a program, over USB', header: 'the board, over a light header' },
}

const said = (text: string): string => `"${shorten(clean(text), 40)}"`

const wanted = ({ answer }: StartQuestion): string => {
  switch (answer.is) {
    case 'text':
      return 'a name'
    case 'count':
      return `a whole number from ${answer.min} to ${answer.max}`
    case 'amps':
      return `a current such as 0.25 A or 250 mA, up to ${answer.max} A`
    case 'choice':
      return `a number from 1 to ${answer.choices.length}, or one of these words`
  }
}

const usual = ({ usual: value }: StartQuestion): string => String(value ?? 'unknown')

export const startWords: StartWords = {
  hello: [
    'A few questions about the build. Enter alone takes what is marked with [ ]; ? explains, back goes back, leave stops.',
  ],
  ask,
  choices,
  enter: 'Enter',
  usual,
  help: (question) => [
    `Type ${wanted(question)}. Enter alone: ${usual(question)}.`,
    ...(question.usual === undefined
      ? ['Rather leave it unknown than guess: the check then says what cannot be known.']
      : []),
  ],
  refused: (question, why, text) =>
    why === 'comma'
      ? `${said(text)}: write decimals with a point, such as 0.25 A.`
      : `${said(text)} is not ${wanted(question)}.`,
  noWayBack: 'This is the first question.',
  inputEnded: 'The input ended; the rest is taken as usual.',
  nothingWritten: 'Nothing was written.',
  remarks: {
    top: [
      'Wiring plan, begun from a few answers. Check each line against the build itself.',
      'Currents: from the labels. What is unknown is taken as usual, and marked as assumed.',
    ],
    fans: 'Take a fan out of the range to say where it sits (at: front-top, flow: in), or how it differs.',
    unplaced: 'These found no free socket. Settle where each goes, then take its # away.',
    settings: 'What firmware and the lighting program are set to. Put in what you find there.',
  },
}
