/**
 * A program at the other end of the line protocol, written from its page: it holds a build with faults in it, does
 * what it is told to do to it, and answers what the bench shows. It also watches that no hands go in while power is on.
 */
import { spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import { type Build, compile } from '../../src/core/bench/build.ts'
import { type Edit, parseEdit } from '../../src/core/bench/edit.ts'
import type { Observable, Value } from '../../src/core/bench/observable.ts'
import { run } from '../../src/core/bench/run.ts'
import { faultByName, type KnownFault } from '../../src/core/faults/catalogue.ts'
import { type Fault, parseFault } from '../../src/core/faults/fault.ts'
import { readPlanFile } from '../../src/io/read-plan.ts'
import { NODE } from './program.ts'

interface AnswerLine {
  readonly id: string
  readonly means: readonly (Value | null)[]
  readonly observe?: Observable
}

export interface Line {
  readonly type: string
  readonly id?: string
  readonly edits?: readonly string[]
  readonly power?: 'on' | 'off'
  readonly hands?: 'in' | 'out'
  readonly many?: boolean
  readonly observe?: readonly Observable[]
  readonly about?: string
  readonly answers?: readonly AnswerLine[]
  readonly suspects?: readonly {
    readonly faults: readonly Fault[]
    readonly alike: readonly { readonly faults: readonly Fault[] }[]
  }[]
  readonly outcome?: string
  readonly text?: string
}

export interface Driven {
  readonly lines: readonly Line[]
  readonly end: Line | undefined
  readonly code: number | null
  readonly stderr: string
  readonly unsafe: readonly Line[]
}

const PAST: Readonly<Record<string, string>> = {
  since: 'new',
  worked: 'never',
  spare: 'yes',
  tool: 'yes',
  consent: 'yes',
}

/** What a technician would answer at this build, as the page tells a driver to. */
export function answerTo(
  ask: Line,
  build: Build,
  faults: readonly KnownFault[],
  edits: readonly Edit[],
): object {
  const answers = ask.answers ?? []
  if (ask.about !== undefined) {
    const past =
      ask.about === 'comes-and-goes' ? (faults.some((f) => f.intermittent) ? 'yes' : 'no') : PAST[ask.about]
    return { answer: past }
  }
  const sight = run(build, {
    plants: faults.map((f) => f.plant),
    edits,
    ...(ask.power ? { power: ask.power } : {}),
  })
  if (ask.many)
    return {
      answers: answers.filter((a) => a.observe && sight.see(a.observe) === a.means[0]).map((a) => a.id),
    }
  const seen = (ask.observe ?? []).map((o) => sight.see(o))
  const fits = answers.find(
    (a) => a.means.some((m) => m !== null) && a.means.every((m, i) => m === null || m === seen[i]),
  )
  const other = answers.find((a) => a.means.every((m) => m === null))
  const found = fits ?? other
  return found ? { answer: found.id } : { unsure: true }
}

/** Drives one job of the built program to its end, or to `most` questions. */
export async function driveJob(
  program: string,
  job: { plan: string; symptom: string; faults: readonly string[]; log: string; most?: number },
  env: Readonly<Record<string, string | undefined>>,
): Promise<Driven> {
  const read = readPlanFile(job.plan)
  if (!read.ok) throw new Error(`the plan ${job.plan} cannot be read`)
  const build = compile(read.value)
  const faults = job.faults.map((text) => {
    const fault = parseFault(text)
    const known = fault && faultByName(build, fault)
    if (!known) throw new Error(`${text} is no fault of ${job.plan}`)
    return known
  })
  const child = spawn(
    NODE,
    [program, 'diagnose', job.plan, '--symptom', job.symptom, '--lines', '--log', job.log],
    { env: { ...env } },
  )
  let stderr = ''
  child.stderr.on('data', (chunk) => {
    stderr += chunk
  })
  const gone = new Promise<number | null>((resolve) => child.on('close', resolve))
  const lines: Line[] = []
  const unsafe: Line[] = []
  let edits: readonly Edit[] = []
  let power: 'on' | 'off' = 'on'
  let asked = 0
  const say = (line: object) => child.stdin.write(`${JSON.stringify(line)}\n`)
  for await (const text of createInterface({ input: child.stdout })) {
    const line = JSON.parse(text) as Line
    lines.push(line)
    if ((line.type === 'ask' || line.type === 'do') && line.hands === 'in' && power === 'on')
      unsafe.push(line)
    if (line.type === 'do') {
      const made = (line.edits ?? []).map((e) => {
        const edit = parseEdit(e)
        if (!edit) throw new Error(`"${e}" is no edit`)
        return edit
      })
      edits = [...edits, ...made]
      power = made.findLast((e) => e.do === 'power')?.to ?? power
      say({ done: true })
    } else if (line.type === 'ask') {
      say(++asked > (job.most ?? 80) ? { leave: true } : answerTo(line, build, faults, edits))
    }
  }
  child.stdin.end()
  return { lines, end: lines.find((l) => l.type === 'end'), code: await gone, stderr, unsafe }
}
