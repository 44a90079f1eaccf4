/** What is said when a plan's text is changed, in English. */
import type { Edited } from '../../core/plan/edit-text.ts'
import { clean, shorten } from '../clean.ts'

type Refused = Extract<Edited, { ok: false }>

const quoted = (text: string): string => `"${shorten(clean(text), 80)}"`

const dot = (text: string): string => `${shorten(clean(text), 200)}.`

const WHY: Readonly<Record<Refused['why'], string>> = {
  'not-a-plan': 'the file is no map of keys',
  'no-such-lead': 'the plan has no such lead',
  'no-list-of-leads': 'the plan has no list of leads',
  'does-not-fit': 'with that the plan could not be read any more',
}

export const planEditWords = {
  refused: (edit: string, { why, trouble }: Refused): string =>
    `${quoted(edit)}: ${WHY[why]}.${trouble ? ` Found: ${dot(trouble.found)} Expected: ${dot(trouble.expected)}` : ''}`,
  notAnEdit: (given: string): string =>
    `${quoted(given)} is not a change of a plan. Changes are: plug PORT -> PORT, unplug PORT, swap PORT PORT, set SETTING = VALUE.`,
  same: 'Nothing changes.',
  howToWrite: 'Nothing was written; --write puts it into the file.',
} as const
