/** Which jobs are looked for, from the command line: words, and what a job must be, fit or fall in. */
import { flowOf, flows } from '../../flows/all.ts'
import type { Query } from '../job/history/history.ts'
import { reportWordsOf } from '../wording/report/language.ts'
import type { Given, Shell } from './command.ts'
import { near } from './near.ts'

const OUTCOMES = ['fixed', 'nothing-wrong', 'handed-over', 'declined', 'left', 'open'] as const
type Outcome = (typeof OUTCOMES)[number]

const isOutcome = (text: string): text is Outcome => (OUTCOMES as readonly string[]).includes(text)

/** A year, a month or a day, as its first moment and the first one after it, UTC; undefined where it is none. */
export function spanOf(text: string): { readonly from: string; readonly after: string } | undefined {
  const [, year, month, day] = /^(\d{4})(?:-(\d\d)(?:-(\d\d))?)?$/.exec(text.trim()) ?? []
  if (year === undefined) return undefined
  const [y, m, d] = [Number(year), Number(month ?? '1'), Number(day ?? '1')]
  const from = new Date(Date.UTC(y, m - 1, d))
  if (from.getUTCMonth() !== m - 1 || from.getUTCDate() !== d) return undefined
  const after =
    day !== undefined
      ? Date.UTC(y, m - 1, d + 1)
      : month !== undefined
        ? Date.UTC(y, m, 1)
        : Date.UTC(y + 1, 0, 1)
  return { from: from.toISOString(), after: new Date(after).toISOString() }
}

/** Undefined where something given is not what it should be; that was said. */
export function filtersOf(given: Given, shell: Shell): Query | undefined {
  const words = reportWordsOf(shell.language).jobs
  const [from, to] = [given.values.get('from'), given.values.get('to')]
  const [begin, end] = [from, to].map((text) => (text === undefined ? undefined : spanOf(text)))
  const outcome = given.values.get('outcome')
  const symptom = given.values.get('symptom')
  const refuse = (line: string): undefined => {
    shell.err(line)
    return undefined
  }
  if (from !== undefined && begin === undefined) return refuse(words.badDate('from', from))
  if (to !== undefined && end === undefined) return refuse(words.badDate('to', to))
  if (begin !== undefined && end !== undefined && begin.from >= end.after)
    return refuse(words.emptySpan(from ?? '', to ?? ''))
  if (outcome !== undefined && !isOutcome(outcome)) return refuse(words.badOutcome(outcome, OUTCOMES))
  if (symptom !== undefined && !flowOf(symptom)) {
    const ids = flows.map((f) => f.id)
    return refuse(shell.language.program.say.unknownSymptom(symptom, near(symptom, ids), ids))
  }
  const [build, part, cause] = ['build', 'part', 'cause'].map((name) => given.values.get(name))
  return {
    words: given.arguments.join(' '),
    ...(build === undefined ? {} : { build }),
    ...(part === undefined ? {} : { part }),
    ...(cause === undefined ? {} : { cause }),
    ...(symptom === undefined ? {} : { symptom }),
    ...(outcome === undefined ? {} : { outcome }),
    ...(begin === undefined ? {} : { from: begin.from }),
    ...(end === undefined ? {} : { to: end.after }),
  }
}
