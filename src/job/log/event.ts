/**
 * What happens in a job, as the log keeps it: one event a line. `FORMAT` counts up when an older program could no
 * longer replay what a newer one writes; a new field that may be left out does not count.
 */
import * as z from 'zod/mini'
import type { FlowStep } from '../../../flows/shared/step.ts'
import type { End, Note, Prompt, Suspect, Verdict } from '../../core/checks/prompt.ts'
import type { ReadBody } from '../read-body.ts'
import { readFields } from './read-line.ts'
import { endSchema, promptSchema, stepSchema, suspectSchema, tellingSchema } from './records.ts'
import { type Symptoms, symptomsFields } from './symptoms-line.ts'

export const FORMAT = 3

/** A plan as it was read: the file itself and what it includes, whole, so that the log stands alone. */
export interface PlanCopy {
  readonly file: string
  readonly text: string
  readonly includes: readonly { readonly file: string; readonly text: string }[]
}

export type Option = string | number | boolean

export interface Opened {
  readonly e: 'opened'
  readonly format: number
  /** Drawn at random when the job begins, so that copies of its log are known as one job. */
  readonly id?: string
  /** Version of the program. */
  readonly tool: string
  readonly plan: PlanCopy
  /** Of the plan and its includes: `planDigest`. */
  readonly digest: string
  /** The build's name in the plan, so that jobs can be listed without reading plans. */
  readonly build: string
  readonly symptom: string
  /** Told with it. */
  readonly also?: readonly string[]
  readonly who?: string
  readonly where?: string
  readonly options: Readonly<Record<string, Option>>
}

/** `text` is the sentence as it was shown, so that a log can be read without the program. */
export interface Told {
  readonly e: 'told'
  readonly record: Note | Verdict
  readonly text?: string
}

export interface Shown {
  readonly e: 'shown'
  readonly prompt: Prompt
  readonly text?: string
  /** The answers as shown, by id. */
  readonly answers?: Readonly<Record<string, string>>
}

export interface Replied {
  readonly e: 'replied'
  /** Number of the `shown` line. */
  readonly to: number
  readonly reply: 'done' | 'unsure' | 'cannot' | readonly string[]
  /** Number of the `read` line that answered in a person's place. */
  readonly read?: number
  /** Who signed, where the step was to sign. */
  readonly by?: string
  /** Number of the `replied` line that had said it before. */
  readonly told?: number
}

export interface Undone {
  readonly e: 'undone'
  /** Number of the `replied` line that is taken back. */
  readonly of: number
}

export interface Noted {
  readonly e: 'noted'
  readonly text: string
  /** Number of the `shown` line that stood there. */
  readonly to?: number
}

/** Explanations are folded away from here on, or shown again. */
export interface Folded {
  readonly e: 'folded'
  readonly folded: boolean
}

/** The technician stops here and wants what was found handed over. */
export interface HandingOver {
  readonly e: 'handing-over'
}

export interface Left {
  readonly e: 'left'
  /** Asked for, Ctrl+C, a signal, or no more input. */
  readonly how?: 'asked' | 'interrupted' | 'stopped' | 'end-of-input'
}

/** What was cut off the end of a log before it was gone on with; the bytes are in `<log>.rest`. */
export interface Cut {
  readonly line: number
  readonly bytes: number
}

export interface Resumed {
  readonly e: 'resumed'
  readonly tool: string
  readonly digest: string
  /** The plan as it is now, where it is another than before. */
  readonly plan?: PlanCopy
  readonly cut?: Cut
}

export interface Suspects {
  readonly e: 'suspects'
  readonly suspects: readonly Suspect[]
  /** At the bench so far, as the steps are costed. */
  readonly minutes: number
  /** Groups still worth telling apart. */
  readonly left?: number
}

/** What the engine proposed; replaying takes it from here, so a newer engine does not change an old job. */
export interface Stepped {
  readonly e: 'step'
  readonly step: FlowStep
}

export interface Ended {
  readonly e: 'ended'
  readonly end: End
  readonly text?: string
}

export type LogBody =
  | Opened
  | Told
  | Shown
  | Replied
  | Undone
  | Noted
  | Folded
  | HandingOver
  | Left
  | Resumed
  | Suspects
  | Symptoms
  | Stepped
  | ReadBody
  | Ended

/** `seq` counts lines from 1 and is the order; `at` is the clock's word (UTC, ISO 8601) and may jump. */
export interface Stamp {
  readonly seq: number
  readonly at: string
}

export type LogEvent = LogBody & Stamp
export type EventKind = LogBody['e']

const text = z.string()
const line = z.int().check(z.gte(1))
const stamp = { seq: line, at: z.iso.datetime() }
const option = z.union([text, z.number(), z.boolean()])
const planCopy = z.object({
  file: text,
  text,
  includes: z.array(z.object({ file: text, text })),
})

const kinds = [
  z.object({
    ...stamp,
    e: z.literal('opened'),
    format: z.int().check(z.gte(1)),
    id: z.exactOptional(text),
    tool: text,
    plan: planCopy,
    digest: text,
    build: text,
    symptom: text,
    also: z.exactOptional(z.array(text)),
    who: z.exactOptional(text),
    where: z.exactOptional(text),
    options: z.record(text, option),
  }),
  z.object({ ...stamp, e: z.literal('told'), record: tellingSchema, text: z.exactOptional(text) }),
  z.object({
    ...stamp,
    e: z.literal('shown'),
    prompt: promptSchema,
    text: z.exactOptional(text),
    answers: z.exactOptional(z.record(text, text)),
  }),
  z.object({
    ...stamp,
    e: z.literal('replied'),
    to: line,
    reply: z.union([z.enum(['done', 'unsure', 'cannot']), z.array(text)]),
    read: z.exactOptional(line),
    by: z.exactOptional(text),
    told: z.exactOptional(line),
  }),
  z.object({ ...stamp, e: z.literal('undone'), of: line }),
  z.object({ ...stamp, e: z.literal('noted'), text, to: z.exactOptional(line) }),
  z.object({ ...stamp, e: z.literal('folded'), folded: z.boolean() }),
  z.object({ ...stamp, e: z.literal('handing-over') }),
  z.object({
    ...stamp,
    e: z.literal('left'),
    how: z.exactOptional(z.enum(['asked', 'interrupted', 'stopped', 'end-of-input'])),
  }),
  z.object({
    ...stamp,
    e: z.literal('resumed'),
    tool: text,
    digest: text,
    plan: z.exactOptional(planCopy),
    cut: z.exactOptional(z.object({ line, bytes: line })),
  }),
  z.object({
    ...stamp,
    e: z.literal('suspects'),
    suspects: z.array(suspectSchema),
    minutes: z.number().check(z.gte(0)),
    left: z.exactOptional(z.int().check(z.gte(0))),
  }),
  z.object({ ...stamp, ...symptomsFields }),
  z.object({ ...stamp, e: z.literal('step'), step: stepSchema }),
  z.object({ ...stamp, ...readFields }),
  z.object({ ...stamp, e: z.literal('ended'), end: endSchema, text: z.exactOptional(text) }),
] as const

export const eventSchema = z.discriminatedUnion('e', kinds) satisfies z.core.$ZodType<LogEvent>

const known: ReadonlySet<string> = new Set(
  kinds.flatMap((kind): readonly string[] => kind.shape.e.def.values),
)

export const isKnownKind = (kind: string): kind is EventKind => known.has(kind)
