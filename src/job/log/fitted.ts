/** Whether a value is of a form, and if not what is wrong with it first: where, and why in the library's own English. */
import * as z from 'zod/mini'
import en from 'zod/v4/locales/en.js'

export type Fitted<T> =
  | { readonly fits: true; readonly value: T }
  | { readonly fits: false; readonly at: string; readonly why: string }

const { localeError } = en()

export function fitted<T>(schema: z.core.$ZodType<T>, value: unknown): Fitted<T> {
  const read = z.safeParse(schema, value, { error: localeError })
  if (read.success) return { fits: true, value: read.data }
  const [issue] = read.error.issues
  return { fits: false, at: issue?.path.join('.') ?? '', why: issue?.message ?? '' }
}
