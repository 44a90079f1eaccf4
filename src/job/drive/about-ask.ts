/** Questions about the past, and what may be answered to them. */
import type { About, Ask } from '../../core/checks/prompt.ts'

const CHOICES: Readonly<Record<About, readonly string[]>> = {
  since: ['new', 'changed', 'suddenly'],
  worked: ['never', 'once'],
  'comes-and-goes': ['yes', 'no'],
  spare: ['yes', 'no'],
  tool: ['yes', 'no'],
  consent: ['yes', 'no'],
}

export const aboutAsk = (about: About, stage: Ask['stage']): Ask => ({
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
  choices: CHOICES[about],
})
