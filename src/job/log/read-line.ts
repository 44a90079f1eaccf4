/** A reading as the log keeps it: the text as it was handed in, what was taken from it, and what was not and why. */
import * as z from 'zod/mini'
import type { ReadBody } from '../read-body.ts'
import { observableSchema } from './records.ts'

const text = z.string()
const words = <T extends string>() => z.custom<T>((value) => typeof value === 'string')

/** Words that a newer program may have more of are kept as they are; nothing is decided by them on replay. */
export const readFields = {
  e: z.literal('read'),
  source: words<ReadBody['source']>(),
  by: z.exactOptional(text),
  text,
  named: z.array(z.object({ name: text, ref: text })),
  taken: z.array(z.object({ observe: observableSchema, value: text, from: text, figure: text })),
  left: z.array(
    z.object({
      from: text,
      why: words<ReadBody['left'][number]['why']>(),
      figure: text,
      at: z.exactOptional(text),
    }),
  ),
  remarks: z.array(z.object({ code: words<ReadBody['remarks'][number]['code']>(), at: text })),
} as const
