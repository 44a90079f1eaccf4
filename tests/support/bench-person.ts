/**
 * A person at the bench, played by the bench itself: does what is asked, looks where it is told, says what the model
 * of the build shows with some faults planted. Errors and "can't tell" come by a rule that the test gives.
 */
import { type Build, compile } from '../../src/core/bench/build.ts'
import type { Edit } from '../../src/core/bench/edit.ts'
import type { Observable, Value } from '../../src/core/bench/observable.ts'
import { type Plant, run } from '../../src/core/bench/run.ts'
import type { Ask } from '../../src/core/checks/prompt.ts'
import { faultByName } from '../../src/core/faults/catalogue.ts'
import type { Fault } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import type { Reply } from '../../src/job/view.ts'

export interface Person {
  readonly build: Build
  readonly history: readonly Edit[]
  see(o: Observable): Value | null
  did(edits: readonly Edit[]): void
  answer(ask: Ask): Reply
}

export interface Manner {
  /** What is told of the past; "can't tell" where it is left out. */
  readonly past?: Readonly<Record<string, string>>
  /** What is really to be seen, where that is not what the bench shows: a cause that it does not know. */
  readonly sees?: (o: Observable, shown: Value | null) => Value | null
  /** Whether this look goes wrong; gets a running number of looks. */
  readonly errs?: (look: number) => boolean
  /** Whether what comes and goes holds from now on; asked after each change to the build. Never, where it is left out. */
  readonly holds?: () => boolean
}

export function personAt(plan: Plan, faults: readonly Fault[], manner: Manner = {}): Person {
  const build = compile(plan)
  const plants = faults.map((f): Plant => {
    const known = faultByName(build, f)
    if (!known) throw new Error(`no such fault: ${f.at}:${f.mode}`)
    return known.plant
  })
  const history: Edit[] = []
  let looks = 0
  let contact = false
  const sight = (): { see: (o: Observable) => Value | null } => {
    const shown = run(build, { plants, edits: history, contact })
    return { see: (o) => (manner.sees ? manner.sees(o, shown.see(o)) : shown.see(o)) }
  }
  const see = (o: Observable): Value | null => sight().see(o)
  const errs = (): boolean => manner.errs?.(looks++) ?? false

  function marks(ask: Extract<Ask, { many: true }>): Reply {
    const now = sight()
    const ids = ask.marks.filter((m) => now.see(m.observe) === m.value).map((m) => m.id)
    if (!errs()) return { say: 'answer', ids }
    // A slip: the first thing is marked where it was not, or not where it was.
    const first = ask.marks[0]
    if (!first) return { say: 'answer', ids }
    const own = ask.marks
      .filter((m) => m.observe.at === first.observe.at && m.observe.what === first.observe.what)
      .map((m) => m.id)
    const rest = ids.filter((id) => !own.includes(id))
    return { say: 'answer', ids: rest.length < ids.length ? rest : [...rest, first.id] }
  }

  function answer(ask: Ask): Reply {
    if (ask.many) return marks(ask)
    if ('about' in ask) {
      const told = manner.past?.[ask.about]
      return told === undefined ? { say: 'unsure' } : { say: 'answer', ids: [told] }
    }
    const now = sight()
    const values = ask.observe.map((o) => now.see(o))
    const fits = ask.answers.find((a) => a.means.every((m, i) => m !== null && m === values[i]))
    const other = ask.answers.find((a) => a.means.every((m) => m === null))
    const right = fits ?? (values.every((v) => v === null) ? undefined : other)
    if (!right) return { say: 'unsure' }
    const wrong = errs() ? ask.answers.find((a) => a.id !== right.id) : undefined
    return { say: 'answer', ids: [(wrong ?? right).id] }
  }

  return {
    build,
    history,
    see,
    did: (edits) => {
      history.push(...edits)
      if (edits.some((edit) => edit.do !== 'set')) contact = manner.holds?.() ?? false
    },
    answer,
  }
}
