/** What hangs on a plug. */
import { type Build, NOWHERE } from '../bench/build.ts'

/** Deeper than this no build is plugged together. */
const DEEPEST = 4

/** A plug and those below it, the nearest first; nothing for no plug. */
export function plugAndBelow(build: Build, plug: number, depth = 0): readonly number[] {
  const entry = build.parts[build.partOf[plug] ?? NOWHERE]
  if (!entry || depth > DEEPEST) return []
  return [plug, ...entry.sockets.flatMap((s) => plugAndBelow(build, build.plugIn[s] ?? NOWHERE, depth + 1))]
}
