/**
 * The plan file as a JSON Schema (draft 2020-12), for editors that complete and underline. It is made from the same
 * schemas that read the file. It knows keys, words, units and the range of bare numbers; what needs the whole plan
 * (does that port exist, is it free) only the reader knows.
 */
import * as z from 'zod/mini'
import { type FieldMeta, ONE_VALUE } from './fields.ts'
import { leadSchema } from './lead-line.ts'
import { partForms, partKinds } from './parts/every.ts'
import { NONE_KEYS } from './parts/fans.ts'
import { settingsSchema } from './settings.ts'
import { boardSchema, supplySchema } from './surroundings.ts'
import { type Dimension, scales } from './units.ts'

export type JsonSchema = { [key: string]: unknown }

const NAME = '[\\p{L}\\p{N}_]([\\p{L}\\p{N}\\p{M}_-]*[\\p{L}\\p{N}\\p{M}_])?'
/** A name, or a range of names. */
const NAMES = `^${NAME}(\\.\\.${NAME})?$`
const LEAD = '^\\s*\\S+\\s*(->|→)\\s*\\S+\\s*$'

const anyCase = (unit: string): string =>
  [...unit]
    .map((char) => {
      const [low, up] = [char.toLowerCase(), char.toUpperCase()]
      if (low !== up && up.length === 1) return `[${low}${up}]`
      return /[.^$*+?()[\]{}|\\/]/.test(char) ? `\\${char}` : char
    })
    .join('')

/** Numbers with a unit of the dimension, as text. */
function unitPattern(dimension: Dimension): string {
  const units = Object.keys(scales[dimension].units)
  if (dimension === 'temperature') units.push('°f', 'f')
  const number = '[+\\-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+\\-]?\\d{1,3})?'
  const gauge = dimension === 'gauge' ? '|^\\s*([aA][wW][gG]|#)\\s*\\d+\\s*$' : ''
  return `^\\s*${number}\\s*(${units.map(anyCase).join('|')})?\\s*$|^unknown$${gauge}`
}

const textDef = (dimension: Dimension): string => `${dimension}-as-text`

const textDefs = (): JsonSchema =>
  Object.fromEntries(
    (Object.keys(scales) as Dimension[]).map((dimension) => [
      textDef(dimension),
      {
        description: `${scales[dimension].name} with its unit, such as ${scales[dimension].sample}; or unknown`,
        type: 'string',
        pattern: unitPattern(dimension),
      },
    ]),
  )

/** The keys by which a field tells people what it is; no words of JSON Schema. */
const OWN_KEYS = ['expected', 'dimension', 'min', 'max', 'only', 'words']

function asField(meta: FieldMeta, out: JsonSchema): void {
  if (meta.dimension !== undefined) {
    const type = meta.dimension === 'count' ? 'integer' : 'number'
    const bare = meta.only ? { enum: meta.only } : { type, minimum: meta.min, maximum: meta.max }
    out.anyOf = [bare, { $ref: `#/$defs/${textDef(meta.dimension)}` }]
  }
  const words = meta.words
  if (!Array.isArray(words)) return
  delete out.anyOf
  const yesNo = words.includes('yes') && words.includes('no')
  const onOff = words.includes('on') && words.includes('off')
  out.enum = [
    ...words,
    ...(words.includes('unknown') ? [] : ['unknown']),
    ...(yesNo ? ['true', 'false', 'on', 'off'] : []),
    ...(yesNo || onOff ? [true, false] : []),
  ]
}

const LIGHTS = 'several lights by the name of their plug'

/** One schema as people write it: before units are taken off and usual values filled in. */
function written(schema: z.ZodMiniType): JsonSchema {
  const made = z.toJSONSchema(schema, {
    io: 'input',
    // A field is read by a function, which says nothing to the library; what it takes stands in its description.
    unrepresentable: 'any',
    override: ({ zodSchema, jsonSchema }) => {
      const out = jsonSchema as JsonSchema
      const meta = z.globalRegistry.get(zodSchema) as FieldMeta | undefined
      for (const key of OWN_KEYS) delete out[key]
      if (meta) asField(meta, out)
      if (typeof meta?.description === 'string' && meta.description.startsWith(LIGHTS)) {
        const { description, ...byName } = { ...out }
        for (const key of Object.keys(out)) delete out[key]
        out.description = description
        out.anyOf = [byName, { type: 'array', minItems: 1, items: byName.additionalProperties }]
      }
    },
  }) as JsonSchema
  delete made.$schema
  return made
}

const asMap = (value: unknown): JsonSchema => value as JsonSchema

/** Maps of named things take ranges as names, and nothing at all for "with the usual values". */
function named(schema: JsonSchema, keys: readonly string[]): JsonSchema {
  const properties = asMap(schema.properties)
  for (const key of keys) {
    const map = asMap(properties[key])
    map.propertyNames = { pattern: NAMES }
    map.additionalProperties = {
      anyOf: [map.additionalProperties, { type: 'null' }, { const: 'unknown' }],
    }
    properties[key] = { anyOf: [map, { type: 'null' }] }
  }
  return schema
}

const onlyIf = (condition: JsonSchema, holds: JsonSchema, otherwise?: JsonSchema): JsonSchema =>
  Object.fromEntries([
    ['if', condition],
    ['then', holds],
    ...(otherwise ? [['else', otherwise] as const] : []),
  ])

/** A part is of its kind, or like another; then it may have any key that some kind has. */
function partSchema(): JsonSchema {
  const any = [...new Set(partKinds.flatMap((kind) => Object.keys(partForms[kind].schema.shape)))]
  const like = {
    properties: {
      like: { description: 'the part or stock part that it is identical to', type: ['string', 'number'] },
      ...Object.fromEntries(any.map((key) => [key, true])),
    },
    additionalProperties: false,
  }
  const ofKind = {
    required: ['kind'],
    properties: { kind: { description: 'what kind of part it is', enum: partKinds } },
    allOf: partKinds.map((kind) =>
      onlyIf({ required: ['kind'], properties: { kind: { const: kind } } }, { $ref: `#/$defs/${kind}` }),
    ),
  }
  return { type: 'object', ...onlyIf({ required: ['like'] }, like, ofKind) }
}

/** Keys that may be `none`. */
function orNone(schema: JsonSchema, keys: readonly string[]): JsonSchema {
  const properties = asMap(schema.properties)
  for (const key of keys) properties[key] = { anyOf: [properties[key], { const: 'none' }] }
  return schema
}

const orNothing = (schema: JsonSchema): JsonSchema => ({ anyOf: [schema, { type: 'null' }] })

const list = (items: JsonSchema, description: string): JsonSchema => ({
  description,
  anyOf: [{ type: 'array', items }, { type: 'null' }],
})

const freeText = (description: string): JsonSchema => ({ description, type: ONE_VALUE })

/** The JSON Schema of a plan file. */
export function planJsonSchema(): JsonSchema {
  const parts = {
    type: 'object',
    propertyNames: { pattern: NAMES },
    additionalProperties: { $ref: '#/$defs/part' },
  }
  const file = { type: 'string', minLength: 1 }
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'wiring plan of a desktop PC build',
    type: 'object',
    additionalProperties: false,
    required: ['parts'],
    properties: {
      build: freeText('the name of the build'),
      note: freeText('anything worth knowing'),
      uses: {
        description: 'files with a stock of parts, beside the plan',
        anyOf: [file, { type: 'array', items: file }],
      },
      stock: { description: 'parts that others can be like, without being in the build', ...parts },
      supply: orNothing(named(written(supplySchema), ['leads'])),
      board: orNothing(
        named(written(boardSchema), ['fan_headers', 'pump_headers', 'light_headers', 'usb_headers']),
      ),
      parts: { description: 'everything that has ports, by name', ...parts, minProperties: 1 },
      leads: list(
        { anyOf: [{ type: 'string', pattern: LEAD }, written(leadSchema)] },
        'what goes where, in either direction: F1.motor -> board.SYS1',
      ),
      settings: orNothing(written(settingsSchema)),
      light_order: list(
        { type: ['string', 'number'] },
        'lit parts in the order in which an effect should run',
      ),
      readings: orNothing({
        description:
          'by fan header (SYS1), fan port of a controller (C1.fan2) or part on USB (H1): the names that readings have for it',
        type: 'object',
        additionalProperties: {
          anyOf: [{ type: ['string', 'number'] }, { type: 'array', items: { type: ['string', 'number'] } }],
        },
      }),
      spares: list(freeText('a thing'), 'what can be had at the bench'),
    },
    $defs: {
      ...textDefs(),
      part: partSchema(),
      ...Object.fromEntries(
        partKinds.map((kind) => [
          kind,
          {
            ...orNone(written(partForms[kind].schema), NONE_KEYS[kind] ?? []),
            description: partForms[kind].about,
          },
        ]),
      ),
    },
  }
}
