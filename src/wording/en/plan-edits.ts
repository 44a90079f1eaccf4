/** What is said when a plan's text is changed, in English. */
import type { Edited } from '../../core/plan/edit-text.ts'
import { clean, shorten } from '../clean.ts'

type Why = Extract<Edited, { ok: false }>['why']

const quoted = (text: string): string => `"${shorten(clean(text), 80)}"`

const WHY: Readonly<Record<Why, string>> = {
  'not-a-plan': 'the file is no map of keys',
  'no-such-lead': 'the plan has no such lead',
  'no-list-of-leads': 'the plan has no list of leads',
  'does-not-fit': 'the plan could not be read any more; check the names, and that the socket is free',
}

export const planEditWords = {
  refused: (edit: string, why: Why): string => `${quoted(edit)}: ${WHY[why]}.`,
  notAnEdit: (given: string): string =>
    `${quoted(given)} is not a change of a plan. Changes are: plug PORT -> PORT, unplug PORT, swap PORT PORT, set SETTING = VALUE.`,
  same: 'Nothing changes.',
  howToWrite: 'Nothing was written; --write puts it into the file.',
} as const
