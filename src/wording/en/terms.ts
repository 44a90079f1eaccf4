/** Words of the trade that stand in a prompt, each with what it means, for who meets it the first time. */
import type { Prompt } from '../../core/checks/prompt.ts'
import type { View } from '../../job/view.ts'
import { answerText } from './answers.ts'
import { noteLines } from './notes.ts'
import { questionText } from './questions.ts'
import { stepText } from './steps.ts'
import { verdictLines } from './verdicts.ts'

const TERMS: readonly (readonly [word: RegExp, means: string])[] = [
  [
    /\bfirmware\b/iu,
    "firmware: the board's own program. A key right after power on opens its setup; the start-up screen or the manual of the board names it.",
  ],
  [/\bfan page\b/iu, 'fan page: the page of that setup with speed, drive mode and curve of each header.'],
  [/monitoring program/iu, 'monitoring program: a program in the running system that shows speeds.'],
  [/\bRPM\b/iu, 'RPM: turns a minute, as the board counts them.'],
  [
    /\btach\b/iu,
    'tach: the wire that tells the speed, the third of the plug. Without it a turning fan reads 0 RPM.',
  ],
  [/\bPWM\b/u, 'PWM: the speed is set over the fourth wire of the plug; the fan keeps its 12 V.'],
  [/\bDC\b/u, 'DC: the speed is set by lowering the voltage; the only way for a plug of three wires.'],
  [
    /\bcurve\b/iu,
    'curve: pairs of temperature and speed in per cent (the duty); between them the board goes along a line.',
  ],
  [/\bheaders?\b/iu, 'header: pins on the board that a plug is pushed over; its name is printed beside it.'],
  [
    /wiring sheet/iu,
    'wiring sheet: every lead of the build with both its ends; "whichlead draw PLAN --sheet" prints it.',
  ],
  [/\bsplitter\b/iu, 'splitter: a lead that makes several sockets of one.'],
  [/\bhub\b/iu, 'hub: a box or board with sockets for several fans or lights, mostly with a supply plug.'],
  [/\bcontroller\b/iu, 'controller: a hub that steers what hangs on it, told by a program over USB.'],
  [/\bchannels?\b/iu, 'channel: lights that get their data over one socket and share its settings.'],
  [
    /LED counts|\bprofile\b/iu,
    'LED counts: how many lights the program takes each part to have, in the order of the chain.',
  ],
  [/colour order/iu, 'colour order: in which order red, green and blue are sent to a light.'],
  [
    /effect|running light/iu,
    'effect: a pattern that moves. The lighting program has a list of them; take a single moving light.',
  ],
]

function saidIn(prompt: Prompt, view: View): string[] {
  if (prompt.show === 'do') {
    const { title, lines } = stepText(prompt, view)
    return [title, ...lines]
  }
  const { title, hints } = questionText(prompt, view)
  const ids = prompt.many
    ? prompt.marks.map((m) => m.id)
    : 'about' in prompt
      ? prompt.choices
      : prompt.answers.map((a) => a.id)
  return [title, ...hints, ...ids.map((id) => answerText(prompt, id, view))]
}

/** Lines on the words that the prompt and what was told before it use. */
export function termLines(view: View): string[] {
  if (view.prompt === null) return []
  const told = view.told.flatMap((t) => (t.show === 'verdict' ? verdictLines(t, view) : noteLines(t, view)))
  const said = [...told, ...saidIn(view.prompt, view)].join('\n')
  return TERMS.flatMap(([word, means]) => (word.test(said) ? [means] : []))
}
