/**
 * What every kind of part brings: the keys that it may have in a plan file, and how the typed part is made from
 * them. `use` gives the written value or the usual one, and marks the latter as assumed.
 */
import * as z from 'zod/mini'
import { described, text, word } from '../fields.ts'
import type { Part, PartKindName } from '../part.ts'

/** `key` is relative to the part: `motor.amps`. */
export type Use = <T>(key: string, given: T | undefined, common: T) => T

export interface PartForm<K extends PartKindName = PartKindName> {
  readonly kind: K
  readonly about: string
  readonly schema: z.ZodMiniObject
  /** Checks between keys are made by the caller; here every key is right in itself. */
  readonly make: (id: string, input: never, use: Use) => Extract<Part, { kind: K }>
}

/** The schema is made when a part of the kind is first read: no build has parts of all kinds. */
export const form = <K extends PartKindName, S extends z.ZodMiniObject>(
  kind: K,
  about: string,
  schemaOf: () => S,
  make: (id: string, input: z.output<S>, use: Use) => Extract<Part, { kind: K }>,
): PartForm<K> => {
  let made: S | undefined
  return {
    kind,
    about,
    get schema() {
      made ??= schemaOf()
      return made
    },
    make,
  }
}

/** Keys that every part may have. */
export const common = {
  at: text('where it sits, in your own words, such as front-bottom', 80),
  reach: word('how hard its leads are to get at: open, tight or behind-cover', [
    'open',
    'tight',
    'behind-cover',
  ] as const),
  note: text('anything worth knowing'),
}

export const kindKey = <K extends string>(kind: K) =>
  described(z.literal(kind), { description: 'what kind of part it is', expected: kind })

type Common = { readonly [K in keyof typeof common]?: z.output<(typeof common)[K]> }

/** What parts of every kind have: the id, how hard it is to reach, where it is, a note. */
export function commonOf(id: string, input: Common, use: Use) {
  return {
    id,
    reach: use('reach', input.reach, 'open' as const),
    ...(input.at === undefined ? {} : { at: input.at }),
    ...(input.note === undefined ? {} : { note: input.note }),
  }
}

/** `{ key: value }` where there is a value, for fields that may be missing. */
export const given = <K extends string, T>(key: K, value: T | undefined): { [P in K]?: T } =>
  value === undefined ? {} : ({ [key]: value } as { [P in K]: T })
