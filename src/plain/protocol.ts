/**
 * The line protocol, version 1: what goes over the line in either direction, as schemas. The page on the protocol
 * explains every field; a driver needs nothing else. Unknown fields are ignored on both sides.
 */
import * as z from 'zod/mini'

export const PROTOCOL = 1

const reference = z
  .string()
  .check(z.minLength(1), z.describe('a part, port, pin or setting, such as F1, F1.motor, board.SYS1/12V'))
const fault = z.object({ at: reference, mode: z.string() })
const suspect = z.object({
  faults: z.array(fault).check(z.describe('one fault, or a pair that are there together')),
  p: z.number().check(z.describe('probability of this group, 0 to 1')),
  alike: z
    .array(z.object({ faults: z.array(fault) }))
    .check(z.describe('those that no available check tells apart from it')),
})
const observable = z.object({ what: z.string(), at: reference })
const value = z
  .nullable(z.string())
  .check(z.describe('null where the answer says nothing of that observable'))
const power = z.enum(['on', 'off'])
const hands = z.enum(['in', 'out'])
const edits = z.array(z.string()).check(z.describe('in their order, in the words of edits'))
const text = z.string().check(z.describe('for a person; its wording may change'))

/** What the tool writes. */
export const toolLine = {
  hello: z.object({
    type: z.literal('hello'),
    protocol: z.literal(PROTOCOL),
    plan: z.string().check(z.describe('the plan as it was named')),
    symptom: z.string().check(z.describe('which-symptom where it is to be found yet')),
    symptoms: z.array(z.string()).check(z.describe('what is looked into now, together')),
    later: z.array(z.string()).check(z.describe('taken up afterwards')),
    build: z.string(),
    log: z.string(),
  }),
  do: z.object({
    type: z.literal('do'),
    id: z.string(),
    step: z.number().check(z.describe('counts what was asked and done, from 1; names it for `undo`')),
    text,
    edits,
    power: power.check(z.describe('the power once it is done')),
    hands,
    minutes: z.number(),
    purpose: z.enum(['gate', 'check', 'repair', 'restore', 'proof']),
    cautions: z.array(z.string()),
    task: z
      .optional(z.string())
      .check(z.describe('on a first boot, what is to be done beside the edits, such as soak or sign-off')),
  }),
  ask: z.object({
    type: z.literal('ask'),
    id: z.string(),
    step: z.number().check(z.describe('as in `do`')),
    text,
    many: z.boolean(),
    observe: z.array(observable),
    about: z.optional(z.string()).check(z.describe('for a question about the past or about what is at hand')),
    at: z.optional(z.string()),
    answers: z.array(
      z.object({
        id: z.string(),
        text,
        means: z.array(value),
        observe: z.optional(observable).check(z.describe('with many: what this one is about')),
      }),
    ),
    power,
    hands,
    minutes: z.number(),
    stage: z.enum(['scope', 'check', 'proof']),
    tools: z.array(z.string()),
    again: z.optional(z.string()),
  }),
  note: z.object({
    type: z.literal('note'),
    kind: z.string(),
    text,
    facts: z.record(z.string(), z.unknown()),
  }),
  verdict: z.object({
    type: z.literal('verdict'),
    text,
    suspects: z.array(suspect),
    repair: z.nullable(z.object({ id: z.string(), text, edits })),
  }),
  why: z.object({
    type: z.literal('why'),
    text,
    minutes: z
      .nullable(z.number())
      .check(z.describe('expected minutes to a proven fix from here; null where it has no bound')),
    replies: z.array(z.object({ id: z.string(), p: z.number(), suspects: z.array(suspect) })),
    others: z.array(z.object({ id: z.string(), what: z.string(), minutes: z.number() })),
    suspects: z.array(
      z.object({
        suspect,
        for: z.array(z.object({ seq: z.number(), decibans: z.number() })),
        against: z.array(z.object({ seq: z.number(), decibans: z.number() })),
      }),
    ),
  }),
  'take-back': z.object({
    type: z.literal('take-back'),
    step: z.number().check(z.describe('the step whose answer was named')),
    takes: z.array(z.number()).check(z.describe('steps whose answers go, in their order')),
    suspects: z.array(suspect).check(z.describe('as they stand without these answers')),
    text,
  }),
  problem: z.object({
    type: z.literal('problem'),
    text,
    expected: z.array(z.string()).check(z.describe('what would have been understood')),
  }),
  end: z.object({
    type: z.literal('end'),
    outcome: z.enum(['fixed', 'nothing-wrong', 'handed-over', 'declined', 'left']),
    text,
    suspects: z.array(suspect),
    minutes: z.number(),
    log: z.string(),
  }),
} as const

export type ToolLine = { [K in keyof typeof toolLine]: z.input<(typeof toolLine)[K]> }[keyof typeof toolLine]

const yes = z.literal(true)

/** What the other side writes: exactly one of these. */
export const driverLine = {
  done: z.object({
    done: yes,
    by: z
      .optional(z.string().check(z.trim(), z.minLength(1)))
      .check(z.describe('who signs, where the task is to sign off')),
  }),
  answer: z.object({ answer: z.string() }),
  answers: z.object({ answers: z.array(z.string()) }),
  unsure: z.object({ unsure: yes }),
  cannot: z.object({ cannot: yes }),
  undo: z.object({
    undo: z
      .union([yes, z.int().check(z.gte(1))])
      .check(z.describe('true: the last answer; a number: that of this step')),
  }),
  without: z.object({
    without: z.int().check(z.gte(1), z.describe('the step whose answer might be taken back')),
  }),
  why: z.object({ why: yes }),
  note: z.object({ note: z.string().check(z.trim(), z.minLength(1)) }),
  read: z.object({
    read: z.string().check(z.minLength(1), z.describe('what another tool printed, whole')),
    as: z.optional(z.array(z.string())).check(z.describe('which name in it is which place: fan1=SYS1')),
  }),
  fold: z
    .object({ fold: z.boolean() })
    .check(z.describe('keep why and what else it may mean out of the text of notes')),
  'hand-over': z.object({ 'hand-over': yes }),
  leave: z.object({ leave: yes }),
} as const

export type DriverWord = keyof typeof driverLine
