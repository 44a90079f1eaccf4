/**
 * A whole job on a build of thirty fans, worked by keys on the screen with the bench as the person: what is chosen on the
 * screen is what the job takes, each question is in sight, and no frame is too wide or too tall.
 */
import { describe, expect, test } from 'vitest'
import { type Fault, parseFault } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import type { Reply, Session, View } from '../../src/job/view.ts'
import { rowsOf } from '../../src/ui/state/rows.ts'
import { width } from '../../src/ui/text/width.ts'
import { english } from '../../src/wording/en/english.ts'
import { personAt } from '../support/bench-person.ts'
import { memorySession } from '../support/run-job.ts'
import { waitFor } from '../support/wait-for.ts'
import { type At, screenOver } from './state/screen-at.ts'
import { thirtyFans } from './support/thirty-fans.ts'

function planOf(text: string): Plan {
  const read = readPlan(text, 'thirty.build.yaml')
  if (!read.ok) throw new Error('thirty fans do not read')
  return read.value
}

const THIRTY = planOf(thirtyFans())

const fault = (text: string): Fault => {
  const parsed = parseFault(text)
  if (!parsed) throw new Error(text)
  return parsed
}

/** The keys with which a person would say it. */
function keysFor(view: View, reply: Reply): string {
  const { prompt } = view
  const rows = rowsOf(prompt)
  if (reply.say === 'unsure') return 'c'
  if (reply.say !== 'answer' || prompt?.show !== 'ask') return ''
  if (!prompt.many) return `${rows.findIndex((r) => r.row === 'answer' && r.answer === reply.ids[0]) + 1}⏎`
  const marks = reply.ids.map((id) => {
    const at = rows.findIndex((r) => r.row === 'spot' && r.spot.marks.some((m) => m.id === id))
    const row = rows[at]
    const nth = row?.row === 'spot' ? row.spot.marks.findIndex((m) => m.id === id) : 0
    return `${at + 1}${' '.repeat(nth + 1)}`
  })
  return `${marks.join('')}⏎${reply.ids.length === 0 ? '⏎' : ''}`
}

function wellDrawn(at: At<Session>, columns: number, rows: number): void {
  const lines = at.lines()
  expect(lines.length).toBeLessThanOrEqual(rows - 1)
  for (const line of lines) expect(width(line), line).toBeLessThanOrEqual(columns)
  const { power } = at.session.view()
  expect(lines[0]).toMatch(power === 'on' ? /^\[● POWER ON \]/ : /^\[○ POWER OFF\]/)
}

const flat = (text: string): string => text.replace(/[│\s]+/g, ' ')

async function work(
  plan: Plan,
  symptom: string,
  planted: string,
  columns: number,
  rows: number,
): Promise<View> {
  const person = personAt(plan, [fault(planted)])
  const { session: real } = await memorySession(plan, symptom)
  const said: Reply[] = []
  const session: Session = {
    ...real,
    reply: async (reply) => {
      said.push(reply)
      return real.reply(reply)
    },
  }
  const at = screenOver(session, { columns, rows })
  for (let i = 0; i < 150; i++) {
    const view = session.view()
    const { prompt } = view
    wellDrawn(at, columns, rows)
    if (prompt === null) return view
    if (at.text().includes('\nRemarks')) {
      await at.type('⏎')
      continue
    }
    const title =
      prompt.show === 'do' ? english.step(prompt, view).title : english.question(prompt, view).title
    if (columns < 116) expect(flat(at.text())).toContain(flat(title).slice(0, 100))
    const before = said.length
    if (prompt.show === 'do') {
      person.did(prompt.edits)
      await waitFor(() => expect(at.text()).toMatch(/All of this is done/))
      await at.type(prompt.purpose === 'gate' ? '2' : '1')
      for (let page = 0; page < 20 && said.length === before; page++) {
        wellDrawn(at, columns, rows)
        await at.type('⏎')
      }
      expect(said.slice(before), at.text()).toEqual([{ say: 'done' }])
    } else {
      const reply = person.answer(prompt)
      await at.type(keysFor(view, reply))
      const taken = said.at(-1)
      const ids = (r: Reply | undefined) => (r?.say === 'answer' ? [...r.ids].sort() : r?.say)
      expect(said).toHaveLength(before + 1)
      expect(ids(taken)).toEqual(ids(reply))
    }
    await at.settle()
  }
  throw new Error(`the job did not end: ${at.text()}`)
}

describe('thirty fans with wide, long and right-to-left names', () => {
  test.each([
    [60, 20],
    [80, 24],
    [200, 60],
  ] as const)(
    'at %i by %i are worked by keys to the end, nothing too wide or too tall',
    async (columns, rows) => {
      const view = await work(THIRTY, 'fan-still', '前面風扇4.motor:unplugged', columns, rows)
      expect(view.end?.outcome).toBe('fixed')
    },
  )
})
