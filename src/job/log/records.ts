/**
 * The records that a log's lines carry (faults, edits, prompts, verdicts, ends) as they must look in a file. Each
 * schema is held to the type that the rest of the program uses, so neither can drift from the other.
 */
import * as z from 'zod/mini'
import type { FlowStep } from '../../../flows/shared/step.ts'
import type { Edit } from '../../core/bench/edit.ts'
import { type Observable, valuesOf, type What } from '../../core/bench/observable.ts'
import type { Ask, Do, End, Mark, Note, Prompt, Suspect, Task, Verdict } from '../../core/checks/prompt.ts'
import type { Fault } from '../../core/faults/fault.ts'

const text = z.string()
const power = z.enum(['on', 'off'])
const hands = z.enum(['in', 'out'])
const minutes = z.number().check(z.gte(0))
const share = z.number().check(z.gte(0), z.lte(1))

const faultSchema = z.object({ at: text, mode: text }) satisfies z.core.$ZodType<Fault>

const editSchema = z.discriminatedUnion('do', [
  z.object({ do: z.literal('power'), to: power }),
  z.object({ do: z.literal('unplug'), plug: text }),
  z.object({ do: z.literal('plug'), plug: text, socket: text }),
  z.object({ do: z.literal('swap'), a: text, b: text }),
  z.object({ do: z.literal('reseat'), plug: text }),
  z.object({ do: z.literal('substitute'), what: text }),
  z.object({ do: z.literal('free'), part: text }),
  z.object({ do: z.literal('set'), setting: text, value: text }),
]) satisfies z.core.$ZodType<Edit>

export const observableSchema = z.object({
  what: z.enum(Object.keys(valuesOf) as [What, ...What[]]),
  at: text,
}) satisfies z.core.$ZodType<Observable>

const taskSchema = z.enum([
  'never-on',
  'first-on',
  'on-again',
  'firmware',
  'system',
  'program',
  'save-pattern',
  'soak',
  'cold-start',
  'by-itself',
  'sign-off',
]) satisfies z.core.$ZodType<Task>

const doSchema = z.object({
  show: z.literal('do'),
  id: text,
  purpose: z.enum(['gate', 'check', 'repair', 'restore', 'proof']),
  edits: z.array(editSchema),
  power,
  hands,
  minutes,
  cautions: z.array(text),
  task: z.exactOptional(taskSchema),
}) satisfies z.core.$ZodType<Do>

const askBase = {
  show: z.literal('ask'),
  id: text,
  stage: z.enum(['scope', 'check', 'proof']),
  power,
  hands,
  minutes,
  tools: z.array(text),
  error: z.number().check(z.gte(0), z.lte(0.5)),
  again: z.exactOptional(z.enum(['conflict', 'changed', 'undone'])),
}

const markSchema = z.object({
  id: text,
  observe: observableSchema,
  value: text,
}) satisfies z.core.$ZodType<Mark>

/** The three forms share no word that tells them apart, so each refuses the others' by what it requires. */
const askSchema = z.union([
  z.object({
    ...askBase,
    many: z.literal(false),
    observe: z.array(observableSchema),
    answers: z.array(z.object({ id: text, means: z.array(z.nullable(text)) })),
  }),
  z.object({ ...askBase, many: z.literal(true), marks: z.array(markSchema) }),
  z.object({
    ...askBase,
    many: z.literal(false),
    about: z.enum(['since', 'worked', 'comes-and-goes', 'spare', 'tool', 'consent', 'symptom']),
    at: z.exactOptional(text),
    of: z.exactOptional(z.array(text)),
    choices: z.array(text),
  }),
]) satisfies z.core.$ZodType<Ask>

export const stepSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.enum(['check', 'repair', 'restore', 'again']),
    id: text,
    edits: z.array(editSchema),
    handsIn: z.boolean(),
    cycle: z.boolean(),
    minutes,
    task: z.exactOptional(taskSchema),
    ask: z.nullable(askSchema),
  }),
  z.object({
    kind: z.literal('end'),
    outcome: z.enum(['fixed', 'nothing-wrong', 'handed-over', 'declined']),
  }),
]) satisfies z.core.$ZodType<FlowStep>

export const promptSchema = z.union([doSchema, askSchema]) satisfies z.core.$ZodType<Prompt>

export const suspectSchema = z.object({
  faults: z.array(faultSchema),
  p: share,
  alike: z.array(z.object({ faults: z.array(faultSchema), p: z.exactOptional(share) })),
}) satisfies z.core.$ZodType<Suspect>

const verdictSchema = z.object({
  show: z.literal('verdict'),
  suspects: z.array(suspectSchema),
  repair: z.nullable(z.object({ id: text, edits: z.array(editSchema) })),
}) satisfies z.core.$ZodType<Verdict>

const noteSchema = z.object({
  show: z.literal('note'),
  kind: z.enum([
    'finding',
    'caution',
    'conflict',
    'assumed',
    'repeat',
    'cross-check',
    'restored',
    'read',
    'expect',
    'opens',
    'returns',
    'symptom',
  ]),
  facts: z.record(text, z.union([text, z.number(), z.array(text)])),
}) satisfies z.core.$ZodType<Note>

export const tellingSchema = z.discriminatedUnion('show', [verdictSchema, noteSchema])

export const endSchema = z.object({
  show: z.literal('end'),
  outcome: z.enum(['fixed', 'nothing-wrong', 'handed-over', 'declined', 'left']),
  suspects: z.array(suspectSchema),
  minutes,
}) satisfies z.core.$ZodType<End>
