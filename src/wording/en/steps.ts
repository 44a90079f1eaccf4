/** A thing to do, as a technician reads it: what for, what with, in which order. */
import type { Edit } from '../../core/bench/edit.ts'
import type { Do, Purpose } from '../../core/checks/prompt.ts'
import type { Scene, StepText } from '../language.ts'
import { caution, FULL } from './cautions.ts'
import { editSentence, whereToSet } from './edits.ts'

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
  return edits.flatMap((edit, i) => {
    const before = edits[i - 1]
    const after = edits[i + 1]
    if (edit.do === 'power' && edit.to === 'off' && after?.do === 'power' && after.to === 'on')
      return [POWER_CYCLE]
    if (edit.do === 'power' && edit.to === 'on' && before?.do === 'power' && before.to === 'off') return []
    return [editSentence(edit, scene)]
  })
}

/** A step's sentences: one edit is the title itself, several follow it as a list. */
export function stepText(step: Do, scene: Scene): StepText {
  const sentences = editSentences(step.edits, scene)
  const cautions = step.cautions.map(caution)
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
