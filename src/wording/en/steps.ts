/** A thing to do, as a technician reads it: what for, what with, in which order. */
import type { Edit } from '../../core/bench/edit.ts'
import type { Do, Purpose, Task } from '../../core/checks/prompt.ts'
import type { Scene, StepText } from '../language.ts'
import { caution, FULL } from './cautions.ts'
import { inTurn, whereToSet } from './edits.ts'
import { fullOnce } from './together.ts'

const SEVERAL: Readonly<Record<Purpose, string>> = {
  gate: 'Change the power.',
  check: 'Try this, in this order.',
  repair: 'Repair it, in this order.',
  restore: 'Put things back as they were.',
  proof: 'Get ready to prove it.',
}

const LEAD_IN: Readonly<Record<Purpose, string>> = {
  gate: '',
  check: 'To try: ',
  repair: 'Repair: ',
  restore: 'Put it back: ',
  proof: '',
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)

const leadIn = (purpose: Purpose, sentence: string): string =>
  LEAD_IN[purpose] ? `${LEAD_IN[purpose]}${lower(sentence)}` : sentence

/** Nothing to change by hand: wait, or only get ready to look. */
const idle = (step: Do): string =>
  step.hands === 'in'
    ? 'Reach into the case for the next look; change nothing.'
    : step.power === 'on'
      ? 'Keep your hands out of the case and leave the machine running.'
      : 'Leave the machine off.'

const POWER_CYCLE =
  'Shut the machine down, switch the supply off, pull its lead, wait two minutes, then plug in and start again.'

/** One sentence an edit; power off and on again straight away is one thing, with its wait. */
export function editSentences(edits: readonly Edit[], scene: Scene): string[] {
  const sentences = inTurn(edits, scene)
  return edits.flatMap((edit, i) => {
    const before = edits[i - 1]
    const after = edits[i + 1]
    if (edit.do === 'power' && edit.to === 'off' && after?.do === 'power' && after.to === 'on')
      return [POWER_CYCLE]
    if (edit.do === 'power' && edit.to === 'on' && before?.do === 'power' && before.to === 'off') return []
    return sentences[i] ?? []
  })
}

interface TaskText {
  readonly title: string
  readonly lines: readonly string[]
}

/** What is to be done on a first boot beside plugs and settings. */
const TASK: Readonly<Record<Task, (minutes: number) => TaskText>> = {
  'never-on': () => ({
    title: 'See that the machine is off: its supply switched off, and the lead out of the wall.',
    lines: ['If it was on: wait until every light in the case is out. Then touch bare metal of the case.'],
  }),
  'first-on': () => ({
    title: 'Take your hands out of the case, plug the supply in, switch it on and start the machine.',
    lines: ['Watch fans and lights from the first second; say what you saw afterwards.'],
  }),
  'on-again': () => ({
    title: 'Take your hands out of the case, plug the supply in, switch it on and start the machine.',
    lines: ["Go into the firmware's setup again: the system is not to start yet."],
  }),
  firmware: () => ({
    title: "Go into the firmware's setup and stay there: the system is not to start yet.",
    lines: ['Right after power on, press the key that the manual of the board names.'],
  }),
  system: () => ({
    title: "Leave the firmware's setup and let the operating system start.",
    lines: ['Then open its list of USB devices. The lighting program does not run yet.'],
  }),
  program: () => ({
    title: "Start the vendor's lighting program and let it start with the machine.",
    lines: ['Set one steady colour for all lights in it, as a beginning.'],
  }),
  'save-pattern': () => ({
    title: 'Save the pattern into the memory of each hub and controller.',
    lines: ['The lighting program has a command for it; the manual of the hub names it.'],
  }),
  soak: (minutes) => ({
    title: `Close the side and let the machine work for ${minutes} minutes, as hard as it will have to.`,
    lines: ['Stay near: listen and smell. At a burnt smell cut the mains at once.'],
  }),
  'cold-start': () => ({
    title: 'Look at fans and lights from the moment of power on, before the system is up.',
    lines: ["If that is too quick to see, hold the start in the firmware's setup."],
  }),
  'by-itself': () => ({
    title: 'Let the system start and wait. Start nothing by hand.',
    lines: ['Then open the list of USB devices.'],
  }),
  'sign-off': () => ({
    title: 'Sign off the first boot with your name.',
    lines: ['What was seen, and when, is in the log; the report has it point by point.'],
  }),
}

const taskText = (task: Task, minutes: number): TaskText => TASK[task](Math.round(minutes))

/** A step's sentences: one edit is the title itself, several follow it as a list. */
export function stepText(step: Do, scene: Scene): StepText {
  const sentences = fullOnce(editSentences(step.edits, scene), scene)
  const switchesOff = step.edits.some((e) => e.do === 'power' && e.to === 'off')
  const cautions = step.cautions.map((id) => caution(id, switchesOff))
  if (step.task) return { ...taskText(step.task, step.minutes), cautions }
  const places = step.edits.flatMap((e) => (e.do === 'set' ? [whereToSet(e.setting)] : [])).filter(Boolean)
  const where = [...new Set(places)]
  const [only] = sentences
  if (only === undefined) return { title: idle(step), lines: [], cautions }
  if (sentences.length > 1) return { title: SEVERAL[step.purpose], lines: [...sentences, ...where], cautions }
  return { title: leadIn(step.purpose, only), lines: [...afterPower(step), ...where], cautions }
}

/** What a change of power asks for beside the switch. */
function afterPower(step: Do): string[] {
  const edit = step.edits.at(-1)
  if (edit?.do !== 'power') return []
  // The full caution says it, point by point.
  if (step.cautions.includes(FULL)) return []
  return edit.to === 'off'
    ? ['Wait until every light in the case is out, then touch bare metal of the case.']
    : ['Wait until the machine has started and the fans have settled.']
}
