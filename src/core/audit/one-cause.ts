/** Findings with one cause: where the graver or more exact one is told, its remedy cures the other too. */
import type { Finding } from './finding.ts'
import type { Wiring } from './wiring.ts'

/** What is told, and what then goes without saying where it is about the same header or fans. */
const SAYS_IT: readonly (readonly [told: string, covered: string])[] = [
  ['cpu-header-no-tach', 'tach-none'],
  ['cpu-header-no-tach', 'tach-missing'],
  ['tach-way-empty', 'tach-missing'],
]

/** About one header; or of the fans that the other is about, all hang on sockets that the first names. */
function sameCause(w: Wiring, told: Finding, other: Finding): boolean {
  if (told.facts.at !== undefined) return told.facts.at === other.facts.at
  const sockets = other.refs.flatMap((ref) => w.leadAt(ref)?.socket ?? [])
  return sockets.length > 0 && sockets.every((socket) => told.refs.includes(socket))
}

/** The findings without those that another one stands for. */
export const oncePerCause = (w: Wiring, found: readonly Finding[]): Finding[] =>
  found.filter(
    (other) =>
      !SAYS_IT.some(
        ([rule, covered]) =>
          covered === other.rule && found.some((told) => told.rule === rule && sameCause(w, told, other)),
      ),
  )
