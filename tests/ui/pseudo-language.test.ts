/**
 * Another language must be possible: each flow's screens in one that is made up and longer than English. No word on them
 * comes from elsewhere, none is taller or wider than the smallest screen, and the question is whole.
 */
import { expect, test } from 'vitest'
import { flows } from '../../flows/all.ts'
import { readPlanFile } from '../../src/io/read-plan.ts'
import type { View, Why } from '../../src/job/view.ts'
import { freshCursor } from '../../src/ui/state/cursor.ts'
import { rowsOf } from '../../src/ui/state/rows.ts'
import { lineText, lineWidth } from '../../src/ui/text/line.ts'
import { frame } from '../../src/ui/views/frame.ts'
import { english } from '../../src/wording/en/english.ts'
import type { Mode } from '../../src/wording/screen-mode.ts'
import { personAt } from '../support/bench-person.ts'
import { pseudoOf } from '../support/pseudo-language.ts'
import { memorySession } from '../support/run-job.ts'

const pseudo = pseudoOf(english)
const read = readPlanFile('docs/examples/small-three-fans.build.yaml')
if (!read.ok) throw new Error('the example build cannot be read')
const plan = read.value

const MODES: readonly Mode[] = [
  'job',
  'told',
  'why',
  'trail',
  'help',
  'note',
  'sign',
  'reading',
  'wiring',
  'picture',
  'expected',
  'leave',
  'hand-over',
]

/** What is printed so on keys and boards, the log's name, and what a person wrote in the plan. */
const OWN = new Set(
  ['Enter Space Esc memory ndjson GND RPM', JSON.stringify(plan)].flatMap(
    (text) => text.match(/\p{L}+/gu) ?? [],
  ),
)

function flawsOf(view: View, why: Why | null, mode: Mode): string[] {
  const cursor = { ...freshCursor('', rowsOf(view.prompt)[0]?.id ?? null, true, false), mode }
  const size = { columns: 60, rows: 20 }
  const { lines } = frame({
    view,
    why: mode === 'why' ? why : null,
    without: null,
    cursor,
    language: pseudo,
    words: pseudo.screen,
    ascii: false,
    size,
  })
  const text = lines.map(lineText).join('\n')
  const words = text.match(/(?<!\p{L})[A-Za-z]{2,}(?!\p{L})/gu) ?? []
  return [
    ...words
      .filter((word) => !OWN.has(word))
      .map((word) => `${mode}: "${word}" is not of the language\n${text}`),
    // Marks that Space goes through later are left out between two, which is said.
    ...(/…(?!,)/u.test(text) ? [`${mode}: something is cut\n${text}`] : []),
    ...(lines.length >= size.rows ? [`${mode}: too tall\n${text}`] : []),
    ...lines.filter((l) => lineWidth(l) > size.columns).map((l) => `${mode}: too wide: ${lineText(l)}`),
  ]
}

/** The first steps of each flow: its own questions, the gate, a look inside. */
const MOST = 6

test.each(flows.map(({ id }) => id))('%s', { timeout: 120_000 }, async (symptom) => {
  const { session } = await memorySession(plan, symptom)
  const person = personAt(plan, [{ at: 'F2.light', mode: 'unplugged' }])
  const flaws = new Set<string>()
  for (let step = 0; step < MOST; step++) {
    const view = session.view()
    // Working the reasons out takes as long as all else: at every second step.
    const why = step % 2 === 1 && view.prompt !== null ? session.why() : null
    for (const mode of MODES)
      if (mode !== 'why' || step % 2 === 1) for (const flaw of flawsOf(view, why, mode)) flaws.add(flaw)
    if (view.prompt === null) break
    if (view.prompt.show === 'do') person.did(view.prompt.edits)
    await session.reply(view.prompt.show === 'do' ? { say: 'done' } : person.answer(view.prompt))
  }
  expect([...flaws].slice(0, 3)).toEqual([])
})
