/**
 * Whole jobs of the built program at a real pseudo-terminal, from the choice of the symptom to the proof: what was
 * highlighted is what the log records, no line is longer than the terminal, no frame taller.
 */
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { parseFault } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { readPlanFile } from '../../src/io/read-plan.ts'
import { personAt } from '../support/bench-person.ts'
import { ownFolder } from '../support/own-folder.ts'
import { envIn, NODE, PROGRAM, TEN } from '../support/program.ts'
import { openPty, type Pty } from '../support/pty.ts'
import { eventsIn, type Hands, workAt } from '../support/terminal-person.ts'

const PAST = {
  since: 'new',
  worked: 'never',
  'comes-and-goes': 'no',
  spare: 'yes',
  tool: 'yes',
  consent: 'yes',
}

let folder: string
let pty: Pty | undefined
beforeEach(() => {
  folder = ownFolder()
})
afterEach(async () => {
  pty?.kill()
  await pty?.ended
  pty?.screen.dispose()
  pty = undefined
})

function planAt(path: string): Plan {
  const read = readPlanFile(path)
  if (!read.ok) throw new Error(`${path} cannot be read`)
  return read.value
}

const faultNamed = (text: string) => {
  const fault = parseFault(text)
  if (!fault) throw new Error(`${text} is no fault`)
  return fault
}

const jobs: [symptom: string, fault: string, columns: number, rows: number, hands: Hands][] = [
  ['lights-dark', 'F3.light:unplugged', 80, 24, 'one by one'],
  ['lights-dark', 'H1.power:unplugged', 60, 20, 'in a burst'],
  ['fan-still', 'F4.motor:unplugged', 60, 20, 'one by one'],
  ['fan-still', 'F9:seized', 80, 24, 'in a burst'],
  ['zero-rpm', 'F7.motor:open-TACH', 80, 24, 'in a burst'],
  ['lights-stuck', 'host/program:not-running', 132, 43, 'one by one'],
]

describe('a job at a terminal', () => {
  test.each(jobs)(
    '%s: %s is found and proven fixed at %i by %i, keys %s',
    async (symptom, fault, columns, rows, hands) => {
      const log = join(folder, 'job.ndjson')
      const opened = openPty({
        command: NODE,
        arguments: [PROGRAM, 'diagnose', TEN, '--symptom', symptom, '--log', log],
        columns,
        rows,
        cwd: folder,
        env: { ...envIn(folder), LANG: 'C.UTF-8' },
      })
      pty = opened
      const flaws: string[] = []
      opened.onDrawn(() => {
        if (!opened.screen.alternate()) return
        if (opened.screen.wrapped() > 0) flaws.push(`a line too long:\n${opened.rows().join('\n')}`)
        if ((opened.rows().at(-1) ?? '') !== '') flaws.push(`a frame too tall:\n${opened.rows().join('\n')}`)
      })
      const plan = planAt(TEN)
      const person = personAt(plan, [faultNamed(fault)], { past: PAST })
      const told = await workAt(opened, log, person, plan, hands)

      const events = eventsIn(log)
      const recorded = events.flatMap((e) => (e.e === 'replied' ? [e.reply] : []))
      const meant = told.map(({ reply }) => (reply.say === 'answer' ? [...reply.ids] : reply.say))
      expect(recorded.map(sorted)).toEqual(meant.map(sorted))

      const end = events.find((e) => e.e === 'ended')
      expect(end?.end.outcome).toBe('fixed')
      await opened.until('Fixed, and proven')
      opened.write('\r')
      expect(await opened.ended).toMatchObject({ code: 0 })
      expect(opened.screen.alternate()).toBe(false)
      expect(opened.screen.history().join('\n')).toContain('Record of the job')
      expect(flaws).toEqual([])
    },
  )
})

/** Marks may be recorded in any order. */
const sorted = (reply: string | readonly string[]) => (typeof reply === 'string' ? reply : [...reply].sort())
