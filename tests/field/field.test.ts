/**
 * Cases from the field, told in our own words: what was seen is entered as the flow of the symptom would take it, and
 * the cause that was found there is among the first three suspects; where it lies outside, no cause is named as sure.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import * as z from 'zod/mini'
import { type Edit, parseEdit } from '../../src/core/bench/edit.ts'
import { type Observable, valuesOf, type What } from '../../src/core/bench/observable.ts'
import { answersFor } from '../../src/core/checks/answers.ts'
import { lookCost } from '../../src/core/checks/looks.ts'
import { MAP_KINDS, mapAsk } from '../../src/core/checks/maps.ts'
import { faultByName } from '../../src/core/faults/catalogue.ts'
import { faultText, parseFault } from '../../src/core/faults/fault.ts'
import type { Evidence } from '../../src/core/infer/evidence.ts'
import { plannedTroubles } from '../../src/core/infer/planned.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { begin, type Job } from '../../src/job/drive/job.ts'
import { think } from '../../src/job/drive/think.ts'
import { groundFor } from '../support/run-job.ts'

const turn = z.union([
  z.strictObject({ past: z.record(z.string(), z.string()) }),
  z.strictObject({ over: z.enum(MAP_KINDS), marks: z.array(z.string()) }),
  z.strictObject({ did: z.array(z.string()) }),
  z.strictObject({ look: z.array(z.string()) }),
])
const caseSchema = z.strictObject({
  says: z.string(),
  symptom: z.string(),
  plan: z.string(),
  saw: z.array(turn),
  /** Faults of which one is the cause that was found. */
  cause: z.optional(z.array(z.string())),
  declines: z.optional(z.string()),
})
type Case = z.infer<typeof caseSchema>

const folder = new URL('../fixtures/field/', import.meta.url)
const cases = readdirSync(folder)
  .sort()
  .map((file) => {
    const read = parse(readFileSync(new URL(file, folder), 'utf8'), { schema: 'failsafe' })
    return { file, told: caseSchema.parse(read) }
  })

function planOf({ plan }: Case, file: string): Plan {
  const read = readPlan(plan, file)
  if (!read.ok) throw new Error(`${file}: ${JSON.stringify(read.problems)}`)
  return read.value
}

function sighting(text: string): { o: Observable; value: string } {
  const match = /^(\S+) (\S+) = (.+)$/.exec(text)
  const what = match?.[1] ?? ''
  if (!match || !(what in valuesOf)) throw new Error(`not a sighting: ${text}`)
  return { o: { what: what as What, at: match[2] ?? '' }, value: match[3] ?? '' }
}

function edit(text: string): Edit {
  const read = parseEdit(text)
  if (!read) throw new Error(`not an edit: ${text}`)
  return read
}

/** The job as it stands when all that was seen is entered. */
function entered(told: Case, file: string): Job {
  const job = begin(groundFor(planOf(told, file), told.symptom))
  const { build } = job.ground
  const evidence: Evidence[] = []
  const history: Edit[] = []
  for (const one of told.saw) {
    const base = { seq: evidence.length + 1, history: [...history] }
    if ('did' in one) history.push(...one.did.map(edit))
    else if ('past' in one)
      for (const [about, chosen] of Object.entries(one.past))
        evidence.push({ ...base, id: about, error: 0.25, kind: 'about', about, chosen })
    else if ('over' in one) {
      const ask = mapAsk(build, [one.over], 'scope')
      if (!ask.many) throw new Error('a map is no single question')
      const chosen = one.marks.map((mark) => {
        const [at, value] = mark.split(' ')
        const found = ask.marks.find((m) => m.observe.at === at && m.value === value)
        if (!found) throw new Error(`${file}: nothing to mark as ${mark}`)
        return found.id
      })
      evidence.push({ ...base, id: ask.id, error: ask.error, kind: 'many', marks: ask.marks, chosen })
    } else {
      const seen = one.look.map(sighting)
      const observe = seen.map((s) => s.o)
      const values = seen.map((s) => s.value)
      const answers = answersFor(observe, [values, values.map(() => 'another')])
      const chosen = answers.find((a) => a.means.every((m, i) => m === values[i]))?.id
      if (chosen === undefined) throw new Error(`${file}: no such answer: ${one.look.join()}`)
      const error = lookCost[observe[0]?.what ?? 'lit'].error
      evidence.push({ ...base, id: `look ${one.look.join()}`, error, kind: 'one', observe, answers, chosen })
    }
  }
  return { ...job, evidence, history }
}

const OUTSIDE = ['build:none-of-these', 'build:nothing-wrong']
/** Named as sure: a technician would act on it. */
const SURE = 0.7

describe.each(cases)('$file', ({ file, told }) => {
  test(told.says, () => {
    const job = entered(told, file)
    const { suspects } = think(job)
    const named = suspects.map((s) => [s, ...s.alike].map((one) => one.faults.map(faultText).join(' + ')))
    if (told.cause) {
      const planned = plannedTroubles(job.ground.build).map(faultText)
      const known = told.cause.filter((text) => {
        const fault = parseFault(text)
        return fault && (planned.includes(text) || faultByName(job.ground.build, fault))
      })
      expect(known, 'a cause that this build can have').not.toEqual([])
      const first = named.slice(0, 3).flat()
      expect(
        first.filter((name) => known.includes(name)),
        first.join('; '),
      ).not.toEqual([])
    } else {
      const outside = named
        .slice(0, 3)
        .flat()
        .some((name) => OUTSIDE.includes(name))
      const sure = suspects.find(
        (s) => s.p > SURE && !OUTSIDE.includes(faultText(s.faults[0] ?? { at: '', mode: '' })),
      )
      expect(outside || sure === undefined, named.slice(0, 3).flat().join('; ')).toBe(true)
    }
  })
})

test('the page of the field test names every case that is entered', () => {
  const page = readFileSync(new URL('../../docs/field-test.md', import.meta.url), 'utf8')
  for (const { told } of cases) expect(page).toContain(`| ${told.says} | \`${told.symptom}\` |`)
})
