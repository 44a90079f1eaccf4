/**
 * A person at the bench, played by the bench itself: looks where it is told and says what the model of the build shows
 * with a fault planted. Of the past it knows nothing.
 */
import type { Build } from '../../core/bench/build.ts'
import type { Edit } from '../../core/bench/edit.ts'
import { type Plant, run } from '../../core/bench/run.ts'
import type { Ask } from '../../core/checks/prompt.ts'

/** What the bench says to a question, after all that was done to the build. */
export function benchReply(
  build: Build,
  plants: readonly Plant[],
  history: readonly Edit[],
  ask: Ask,
): readonly string[] | 'unsure' {
  if (!ask.many && 'about' in ask) return 'unsure'
  const sight = run(build, { plants, edits: history })
  if (ask.many) return ask.marks.filter((m) => sight.see(m.observe) === m.value).map((m) => m.id)
  const values = ask.observe.map((o) => sight.see(o))
  if (values.every((value) => value === null)) return 'unsure'
  const fits = ask.answers.find((a) => a.means.every((m, i) => m !== null && m === values[i]))
  const other = ask.answers.find((a) => a.means.every((m) => m === null))
  const said = fits ?? other
  return said === undefined ? 'unsure' : [said.id]
}
