/** Work that is done in parts, so that nobody waits for the whole of it at once. */
export type InParts<T> = Generator<undefined, T>

/** All that is left of it, in one go. */
export function whole<T>(parts: InParts<T>): T {
  let part = parts.next()
  while (!part.done) part = parts.next()
  return part.value
}
