/**
 * Damage as files suffer it, by chance from a seed: cut off, bits flipped, sectors zeroed or lost or doubled, lines lost,
 * doubled, exchanged or brought in from another job, words exchanged by hand, rubbish at the end.
 */

export interface Damaged {
  readonly how: string
  readonly bytes: Uint8Array
}

type Chance = () => number

const LF = 10
const below = (chance: Chance, n: number): number => Math.min(n - 1, Math.floor(chance() * n))

const joined = (...pieces: readonly Uint8Array[]): Uint8Array => Buffer.concat(pieces)

function linesIn(bytes: Uint8Array): Uint8Array[] {
  const lines: Uint8Array[] = []
  for (let at = 0; at < bytes.length; ) {
    const end = bytes.indexOf(LF, at)
    const next = end < 0 ? bytes.length : end + 1
    lines.push(bytes.subarray(at, next))
    at = next
  }
  return lines
}

function flipped(bytes: Uint8Array, bits: number, chance: Chance): Uint8Array {
  // A Buffer's own slice is the same memory.
  const copy = new Uint8Array(bytes)
  for (let n = 0; n < bits; n++) {
    const at = below(chance, copy.length)
    copy[at] = (copy[at] ?? 0) ^ (1 << below(chance, 8))
  }
  return copy
}

/** A stretch of bytes, up to a sector of 512. */
function stretch(bytes: Uint8Array, chance: Chance): [from: number, to: number] {
  const from = below(chance, bytes.length)
  return [from, Math.min(bytes.length, from + 1 + below(chance, 512))]
}

type Way = (bytes: Uint8Array, other: Uint8Array, chance: Chance) => Uint8Array

const byLines =
  (change: (lines: Uint8Array[], at: number, other: readonly Uint8Array[], chance: Chance) => void): Way =>
  (bytes, other, chance) => {
    const lines = linesIn(bytes)
    change(lines, below(chance, lines.length), linesIn(other), chance)
    return joined(...lines)
  }

/** What a careless or a sly hand changes: an answer, a number, a word, without the sums. */
const WORDS: readonly (readonly [RegExp, string])[] = [
  [/"reply":\["[^"]*"/, '"reply":["since"'],
  [/:dark"/, ':part"'],
  [/"reply":"done"/, '"reply":"cannot"'],
  [/"power":"off"/, '"power":"on"'],
  [/"hands":"in"/, '"hands":"out"'],
  [/"minutes":[\d.]+/, '"minutes":0'],
  [/"to":\d+/, '"to":3'],
  [/F2/, 'F1'],
]

const WAYS: Readonly<Record<string, Way>> = {
  'cut off': (bytes, _, chance) => bytes.subarray(0, below(chance, bytes.length + 1)),
  'one bit': (bytes, _, chance) => flipped(bytes, 1, chance),
  'some bits': (bytes, _, chance) => flipped(bytes, 2 + below(chance, 7), chance),
  'cut off with bits': (bytes, _, chance) =>
    flipped(bytes.subarray(0, 1 + below(chance, bytes.length)), 1, chance),
  'bits of the last line': (bytes, _, chance) => {
    const lines = linesIn(bytes)
    const last = lines.pop() ?? bytes
    return joined(...lines, flipped(last, 1 + below(chance, 3), chance))
  },
  'zeros within': (bytes, _, chance) => {
    const [from, to] = stretch(bytes, chance)
    return new Uint8Array(bytes).fill(0, from, to)
  },
  'zeros at the end': (bytes, _, chance) => {
    const from = below(chance, bytes.length)
    return joined(bytes.subarray(0, from), new Uint8Array(1 + below(chance, 4096)))
  },
  'a stretch lost': (bytes, _, chance) => {
    const [from, to] = stretch(bytes, chance)
    return joined(bytes.subarray(0, from), bytes.subarray(to))
  },
  'a stretch doubled': (bytes, _, chance) => {
    const [from, to] = stretch(bytes, chance)
    return joined(bytes.subarray(0, to), bytes.subarray(from))
  },
  'a line lost': byLines((lines, at) => void lines.splice(at, 1)),
  'a line doubled': byLines((lines, at) => void lines.splice(at, 0, lines[at] ?? new Uint8Array())),
  'two lines exchanged': byLines((lines, at, _, chance) => {
    const with_ = below(chance, lines.length)
    ;[lines[at], lines[with_]] = [lines[with_] ?? new Uint8Array(), lines[at] ?? new Uint8Array()]
  }),
  'a line of another job': byLines((lines, at, other, chance) => {
    const line = other[chance() < 0.5 ? Math.min(at, other.length - 1) : below(chance, other.length)]
    lines.splice(at, below(chance, 2), line ?? new Uint8Array())
  }),
  'the end of another job': byLines((lines, at, other) => {
    // From its first line on it would simply be the other job.
    const from = Math.max(1, at)
    lines.splice(from, lines.length, ...other.slice(from))
  }),
  'a word exchanged': (bytes, _, chance) => {
    const [find, put] = WORDS[below(chance, WORDS.length)] as (typeof WORDS)[number]
    const text = Buffer.from(bytes).toString('latin1')
    const found = [...text.matchAll(new RegExp(find, 'g'))]
    const one = found[below(chance, found.length)]
    if (one === undefined) return bytes
    return Buffer.from(text.slice(0, one.index) + put + text.slice(one.index + one[0].length), 'latin1')
  },
  'rubbish at the end': (bytes, _, chance) =>
    joined(
      bytes,
      Uint8Array.from({ length: 1 + below(chance, 300) }, () => below(chance, 256)),
    ),
  'carriage returns and rubbish': (bytes, _, chance) => {
    const text = Buffer.from(bytes).toString('latin1').replaceAll('\n', '\r\n')
    return flipped(Buffer.from(text, 'latin1'), below(chance, 2), chance)
  },
}

const names = Object.keys(WAYS)

/** One damaged copy; `other` is a log of another job. */
export function damaged(bytes: Uint8Array, other: Uint8Array, chance: Chance): Damaged {
  const how = names[below(chance, names.length)] as string
  const change = WAYS[how] as Way
  return { how, bytes: change(bytes, other, chance) }
}
