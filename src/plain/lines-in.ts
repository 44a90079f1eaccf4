/**
 * Lines from a stream of bytes, one at a time as they come: a pipe, a file, a terminal in line mode. What is no text
 * or has no end in sight becomes a trouble of its own instead of an exception or all of memory.
 */

export type InputLine = { readonly text: string } | { readonly trouble: 'too-long' | 'not-text' }

/** More than any answer, note or JSON object of the protocol. */
export const LONGEST_LINE = 65_536

const NEWLINE = 10

function decode(bytes: Uint8Array): InputLine {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return { text: text.replace(/\r$/, '') }
  } catch {
    return { trouble: 'not-text' }
  }
}

/** The lines of a stream; a last one without a line break counts too. */
export async function* linesIn(stream: AsyncIterable<Uint8Array | string>): AsyncGenerator<InputLine> {
  let held: Uint8Array[] = []
  let size = 0
  let skipping = false
  const take = (): InputLine => {
    const line: InputLine = skipping ? { trouble: 'too-long' } : decode(Buffer.concat(held))
    held = []
    size = 0
    skipping = false
    return line
  }
  for await (const chunk of stream) {
    const bytes = typeof chunk === 'string' ? Buffer.from(chunk) : chunk
    let from = 0
    for (;;) {
      const end = bytes.indexOf(NEWLINE, from)
      const piece = bytes.subarray(from, end < 0 ? bytes.length : end)
      size += piece.length
      if (size > LONGEST_LINE) {
        skipping = true
        held = []
      } else held.push(piece)
      if (end < 0) break
      yield take()
      from = end + 1
    }
  }
  if (size > 0) yield take()
}
