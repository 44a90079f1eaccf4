/** Questions about the past, and what may be answered to them. */
import type { About, Ask } from '../../core/checks/prompt.ts'

const CHOICES: Readonly<Record<Exclude<About, 'symptom'>, readonly string[]>> = {
  since: ['new', 'changed', 'suddenly'],
  worked: ['never', 'once'],
  'comes-and-goes': ['yes', 'no'],
  spare: ['yes', 'no'],
  tool: ['yes', 'no'],
  consent: ['yes', 'no'],
}

/** @param of the symptoms that it is about, so that the question can name them */
export const aboutAsk = (
  about: keyof typeof CHOICES,
  stage: Ask['stage'],
  of: readonly string[] = [],
): Ask => ({
  show: 'ask',
  id: about,
  stage,
  power: 'on',
  hands: 'out',
  minutes: 0.5,
  tools: [],
  error: 0.25,
  many: false,
  about,
  ...(of.length === 0 ? {} : { of }),
  choices: CHOICES[about],
})
