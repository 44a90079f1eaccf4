/**
 * The kinds of value that a plan file has, each with its description, its range and what to say when it is wrong.
 * Every field may be left out or be `unknown`; what is then taken is decided where the part is built.
 */
import * as z from 'zod/v4/core'
import { shown, type Trouble } from './problem.ts'
import { type Dimension, quantity, scales } from './units.ts'

// A schema is made at every start and used once or twice in a run. So: no function compiled for each, which costs more than
// it saves, and each field is one schema of the library's core, which does without methods.
z.config({ jitless: true })

/** Tells readers what a schema is for. */
export function described<S extends z.$ZodType>(schema: S, meta: Readonly<Record<string, unknown>>): S {
  z.globalRegistry.add(schema, meta)
  return schema
}

/** What a field carries for its readers: people (docs, errors) and editors (JSON Schema). */
export interface FieldMeta {
  readonly description: string
  /** What a right value looks like, for an error. */
  readonly expected: string
  readonly dimension?: Dimension
  readonly min?: number
  readonly max?: number
  readonly only?: readonly number[]
  readonly words?: readonly string[]
  /** All else goes into the JSON Schema as it is. */
  readonly [more: string]: unknown
}

/** Words from which the nearest is offered need no advice. */
type Wrong = Trouble | (Omit<Trouble, 'todo'> & { readonly words: readonly string[] })

/** Tells what is wrong with a value, or with one item of a list; gives what may stand for it until then. */
type Tell = (trouble: Wrong, item?: number) => never

/**
 * A value in a plan file. Its key may be left out; where it may not, see `needed`. (A transform is asked of a key that is
 * left out too, and what makes nothing of it leaves it out; the library's type for one does not tell so.)
 */
export interface Field<T> extends z.$ZodType<T | undefined> {
  _zod: z.$ZodTypeInternals<T | undefined> & { optin: 'optional'; optout: 'optional' }
}

/** A field that is read by a function from what stands in the file, if that is a value of the right kind. */
export function readFrom<I, T>(
  isOfKind: (input: unknown) => input is I,
  meta: Readonly<Record<string, unknown>>,
  read: (input: I, tell: Tell) => T,
): Field<T> {
  const transform = (input: unknown, { issues }: z.ParsePayload): T | undefined => {
    if (input === undefined) return undefined
    const tell: Tell = (trouble, item) => {
      const path = item === undefined ? [] : [item]
      issues.push({ code: 'custom', input, path, message: trouble.expected, params: { ...trouble } })
      return z.NEVER
    }
    if (isOfKind(input)) return read(input, tell)
    issues.push({ code: 'custom', input, path: [] })
    return z.NEVER
  }
  return described(new z.$ZodTransform({ type: 'transform', transform }), meta) as Field<T>
}

const ANYTHING = new z.$ZodUnknown({ type: 'unknown' })

/** A field whose key may not be left out. @param meta what else is to be said of it */
export function needed<T>(field: Field<T>, meta: Partial<FieldMeta> = {}): z.$ZodType<T> {
  const schema = new z.$ZodPipe({ type: 'pipe', in: ANYTHING, out: field })
  return described(schema, { ...z.globalRegistry.get(field), ...meta }) as z.$ZodType<T>
}

const isNumber = (input: unknown): input is number => Number.isFinite(input)
export const isNumberOrText = (input: unknown): input is number | string =>
  typeof input === 'string' || isNumber(input)
const isYesOrText = (input: unknown): input is boolean | string =>
  typeof input === 'string' || typeof input === 'boolean'
/** What is one value, in the words of JSON Schema. */
export const ONE_VALUE: readonly string[] = ['string', 'number', 'boolean']
const isOneValue = (input: unknown): input is boolean | number | string =>
  isYesOrText(input) || isNumber(input)

interface Range {
  readonly min: number
  readonly max: number
  readonly whole?: boolean
  /** No other values than these. */
  readonly only?: readonly number[]
  /** Values near the range that hint at a slip of unit. */
  readonly sample?: string
}

const unitOf: Partial<Record<Dimension, string>> = {
  current: ' A',
  milliamps: ' mA',
  voltage: ' V',
  length: ' mm',
  speed: ' rpm',
  gauge: ' AWG',
  percent: ' %',
  temperature: ' °C',
  time: ' s',
  power: ' W',
  airflow: ' CFM',
}

/** The number that was meant, or what is wrong with it. */
export function readMeasure(
  input: number | string,
  dimension: Dimension,
  range: Range,
  expected: string,
): number | Trouble {
  const bad = (todo: string): Trouble => ({ found: shown(input), expected, todo })
  let value: number
  if (typeof input === 'number') value = input
  else {
    const got = quantity(input, dimension)
    if (!got.ok) {
      if (got.why === 'comma') return bad('write a point, not a comma, before the decimals')
      if (got.why === 'unit')
        return got.belongsTo === undefined
          ? bad(`write the unit as in ${scales[dimension].sample}`)
          : {
              found: `${shown(input)}, which is ${got.belongsTo}`,
              expected,
              todo: 'check whether value and key belong together',
            }
      return bad('write a number, with its unit if you like, or unknown')
    }
    value = got.value
  }
  if (!Number.isFinite(value)) return bad('write a number')
  if (range.whole && !Number.isInteger(value)) return bad('write a whole number')
  if (range.only && !range.only.includes(value)) return bad(`write ${range.only.join(' or ')}`)
  if (value >= range.min && value <= range.max) return value
  if (dimension === 'current' && value >= 20 && value / 1000 >= range.min && value / 1000 <= range.max)
    return bad(`write ${value} mA if milliamps are meant`)
  return bad(
    value <= 0 && range.min > 0 ? 'write what the label says, or unknown' : 'check the figure on the label',
  )
}

/** A number with or without unit, turned into the unit of its key; undefined for `unknown`. */
export function measure(description: string, dimension: Dimension, range: Range) {
  const unit = unitOf[dimension] ?? ''
  const kind =
    dimension === 'count' ? (range.whole === false ? 'a number' : 'a whole number') : scales[dimension].name
  const sample = dimension === 'count' ? '' : `, such as ${range.sample ?? scales[dimension].sample}`
  const expected = range.only
    ? range.only.map((n) => `${n}${unit}`).join(' or ')
    : `${kind} from ${range.min} to ${range.max}${unit}${sample}`
  const meta: FieldMeta = {
    description,
    expected,
    dimension,
    min: range.min,
    max: range.max,
    ...(range.only ? { only: range.only } : {}),
  }
  return readFrom(isNumberOrText, { ...meta }, (input, tell): number | undefined => {
    if (input === 'unknown') return undefined
    const got = readMeasure(input, dimension, range, expected)
    return typeof got === 'number' ? got : tell(got)
  })
}

/** A whole number. */
export const count = (description: string, min: number, max: number) =>
  measure(description, 'count', { min, max, whole: true })

/** Amps. */
export const amps = (description: string, max: number) => measure(description, 'current', { min: 0.001, max })

/** One of a few words; undefined for `unknown`. */
export function word<const W extends readonly string[]>(description: string, words: W) {
  const expected = `one of ${words.join(', ')}`
  const meta = { description, expected, words }
  return readFrom(isOneValue, meta, (input, tell): W[number] | undefined => {
    const text = input === false ? 'off' : input === true ? 'on' : String(input)
    const found = words.find((w) => w === text) ?? words.find((w) => w === text.toLowerCase())
    if (found !== undefined) return found
    return text === 'unknown' ? undefined : tell({ words, found: shown(input), expected })
  })
}

/** Yes or no; undefined for `unknown`. */
export function flag(description: string) {
  const yes = new Set(['yes', 'true', 'on'])
  const no = new Set(['no', 'false', 'off'])
  const expected = 'yes or no'
  const words = ['yes', 'no']
  return readFrom(isYesOrText, { description, expected, words }, (input, tell): boolean | undefined => {
    if (typeof input === 'boolean') return input
    const text = input.toLowerCase()
    if (yes.has(text)) return true
    if (no.has(text)) return false
    return text === 'unknown' ? undefined : tell({ words, found: shown(input), expected })
  })
}

// Nearly every text is plain; the rule for all scripts takes some time to make ready, so it stands where it is used.
const PLAIN = /^[ -~]*$/
/** Has control bytes, or marks that turn the direction of text; a terminal would obey them. */
const isUnfit = (line: string): boolean =>
  !PLAIN.test(line) && /[\p{Cc}\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]/u.test(line)

/** Free text on one line, without control characters. */
export function text(description: string, most = 200) {
  const expected = `text of up to ${most} characters`
  return readFrom(isOneValue, { description, expected, type: ONE_VALUE }, (input, tell): string => {
    const line = String(input)
      .replace(/[\n\t\r ]+/g, ' ')
      .trim()
    if (isUnfit(line)) return tell({ found: shown(input), expected, todo: 'take the control characters out' })
    return line.length > most ? tell({ found: shown(input), expected, todo: 'shorten it' }) : line
  })
}
