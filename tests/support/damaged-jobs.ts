/**
 * Jobs whose logs are damaged, and what may come of it: taken up exactly as after some beginning of what was written, or
 * refused with the place named and the file left as it is. Never an exception, never an answer that nobody gave.
 */
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Fault } from '../../src/core/faults/fault.ts'
import { readPlanTexts } from '../../src/io/read-plan.ts'
import { decodeLog } from '../../src/job/log/decode.ts'
import { openJob, resumeJob } from '../../src/job/open.ts'
import { assembleReport } from '../../src/job/report/assemble.ts'
import type { Session, View } from '../../src/job/view.ts'
import { logWords } from '../../src/wording/en/log.ts'
import { personAt } from './bench-person.ts'
import { type Damaged, damaged } from './damage.ts'

export interface Sample {
  readonly bytes: Uint8Array
  /** By number of whole lines: what stands when the job is taken up from them; undefined where there is no job yet. */
  readonly stands: readonly (string | undefined)[]
}

const clock = () => Date.UTC(2026, 2, 3, 9, 30)

const standing = ({ trail, prompt, inForce, power, minutes }: View): string =>
  JSON.stringify({ trail, prompt, inForce, power, minutes })

async function taken(path: string, salvage = false) {
  const opening = await resumeJob({ path, tool: '1', clock, salvage })
  if (!opening.ok) return { ok: false, trouble: opening.trouble } as const
  const stands = standing(opening.session.view())
  await opening.session.close()
  return { ok: true, stands, problems: opening.problems } as const
}

async function answered(session: Session, fault: Fault, replies: number): Promise<void> {
  const person = personAt(session.view().plan, [fault])
  for (let n = 0; n < replies; n++) {
    const { prompt } = session.view()
    if (!prompt) return
    if (n === 2) await session.reply({ say: 'note', text: 'Kühler zerlegt – ½ h “früher”' })
    if (n === 3) {
      await session.reply({ say: 'undo' })
      continue
    }
    if (prompt.show === 'do') person.did(prompt.edits)
    await session.reply(prompt.show === 'do' ? { say: 'done' } : person.answer(prompt))
  }
}

export interface JobToDamage {
  /** Path of its plan. */
  readonly plan: string
  readonly symptom: string
  readonly fault: Fault
  /** It is left after so many. */
  readonly replies: number
}

/** The log of such a job, and what stands after each line of it. */
export async function sampleJob(folder: string, job: JobToDamage): Promise<Sample> {
  const file = join(folder, 'sample.ndjson')
  const { read, texts } = readPlanTexts(job.plan)
  if (!read.ok) throw new Error(`${job.plan} cannot be read`)
  const opened = await openJob({
    plan: read.value,
    copy: texts,
    symptom: job.symptom,
    log: { file },
    tool: '1',
    clock,
  })
  if (!opened.ok) throw new Error(opened.trouble.kind)
  await answered(opened.session, job.fault, job.replies)
  await opened.session.reply({ say: 'leave' })
  await opened.session.close()
  const bytes = readFileSync(file)
  const stands: (string | undefined)[] = [undefined]
  for (let at = bytes.indexOf(10); at >= 0; at = bytes.indexOf(10, at + 1)) {
    writeFileSync(file, bytes.subarray(0, at + 1))
    const again = await taken(file)
    if (!again.ok) throw new Error(`a whole beginning is refused: ${again.trouble.kind}`)
    stands.push(again.stands)
  }
  rmSync(file)
  return { bytes, stands }
}

const sameBytes = (a: Uint8Array, b: Uint8Array): boolean => Buffer.compare(a, b) === 0

/** Of a sample, damaged: what came of it that may not be; empty is right. `taken` where the job went on. */
async function flawsOf(sample: Sample, { bytes }: Damaged, path: string, salvages: boolean) {
  const flaws: string[] = []
  writeFileSync(path, bytes)
  const log = decodeLog(bytes)
  const told = log.problems.map(logWords.problem)
  if (told.some((line) => line.trim() === '')) flaws.push('a problem without words')
  assembleReport(log)
  const whole = log.events.length
  const after = await taken(path)
  if (after.ok) {
    if (after.stands !== sample.stands[whole])
      flaws.push(`another job than after line ${whole} of what was written`)
    const lost = bytes.length - log.soundBytes
    if (lost > 0 && after.problems.length === 0) flaws.push(`${lost} bytes were dropped without a word`)
    return { flaws, taken: true }
  }
  const lines =
    after.trouble.kind === 'log'
      ? logWords.trouble(after.trouble.trouble)
      : after.trouble.kind === 'misfit'
        ? logWords.misfit(after.trouble)
        : []
  const names = lines.some((line) => /[Ll]ines? \d|empty|not a job log|no job/.test(line))
  if (!names) flaws.push(`refused without a place: ${after.trouble.kind} ${lines.join(' ')}`)
  if (!sameBytes(readFileSync(path), bytes)) flaws.push('refused, and the file was changed')
  if (whole > 0 && salvages) {
    const saved = await taken(path, true)
    if (!saved.ok) flaws.push('cannot be gone on with before the damage')
    else if (saved.stands !== sample.stands[whole])
      flaws.push(`salvaged to another job than after line ${whole}`)
  }
  return { flaws, taken: false }
}

export interface Count {
  variants: number
  /** Taken up from all or some beginning of the log, and refused with the place named. */
  taken: number
  refused: number
  readonly flaws: string[]
}

/** Going on before the damage plays the whole job back, which takes longest; each so many-th does. */
const SALVAGE_EACH = 10

/** So many variants over the samples, by chance from a generator. */
export async function damageAll(
  samples: readonly Sample[],
  variants: number,
  chance: () => number,
  folder: string,
): Promise<Count> {
  const count: Count = { variants: 0, taken: 0, refused: 0, flaws: [] }
  const path = join(folder, 'damaged.ndjson')
  for (let n = 0; n < variants; n++) {
    const sample = samples[n % samples.length] as Sample
    const other = samples[(n + 1) % samples.length] as Sample
    const variant = damaged(sample.bytes, other.bytes, chance)
    try {
      const { flaws, taken: on } = await flawsOf(sample, variant, path, n % SALVAGE_EACH === 0)
      count.flaws.push(...flaws.map((flaw) => `${n} ${variant.how}: ${flaw}`))
      if (on) count.taken++
      else count.refused++
    } catch (error) {
      count.flaws.push(`${n} ${variant.how}: crashed: ${error instanceof Error ? error.message : error}`)
    }
    count.variants++
  }
  return count
}
