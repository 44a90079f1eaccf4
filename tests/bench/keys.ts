/** How long a key takes in whole jobs at a terminal: from the key that gives an answer to the next question in full. */
import type { Fault } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { personAt } from '../support/bench-person.ts'
import { openPty, type Pty } from '../support/pty.ts'
import { workAt } from '../support/terminal-person.ts'

export interface KeysJob {
  /** Node and the program. */
  readonly command: readonly [string, string]
  readonly planFile: string
  readonly plan: Plan
  readonly symptom: string
  readonly faults: readonly Fault[]
  /** An empty folder of the job's own. */
  readonly folder: string
  /** The program's environment. */
  readonly env: Readonly<Record<string, string>>
  /** Milliseconds that the person looks before each answer. */
  readonly look: number
}

/** Milliseconds, one for each answer and step. A key that only turns a page of remarks is not counted. */
export async function keysOf(job: KeysJob): Promise<number[]> {
  const [command, program] = job.command
  const log = `${job.folder}/job.ndjson`
  const args = [program, 'diagnose', job.planFile, '--symptom', job.symptom, '--log', log]
  const pty = openPty({ command, arguments: args, cwd: job.folder, env: job.env })
  const waits: number[] = []
  let pressed: number | undefined
  const hands: Pty = {
    ...pty,
    write: (keys) => {
      pressed = pty.rows()[2]?.trim() === 'Remarks' ? undefined : performance.now()
      pty.write(keys)
    },
  }
  try {
    await workAt(hands, log, personAt(job.plan, job.faults), job.plan, 'one by one', async () => {
      if (pressed !== undefined) waits.push(performance.now() - pressed)
      await new Promise((done) => setTimeout(done, job.look))
      return []
    })
    return waits
  } finally {
    pty.kill()
  }
}
