import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { planJsonSchema } from '../../../src/core/plan/json-schema.ts'
import { portsOf } from '../../../src/core/plan/ports.ts'
import { startPlan as startText } from '../../../src/core/plan/start-plan.ts'
import {
  type StartAnswersGiven,
  type StartQuestion,
  startAnswers,
  startQuestions,
} from '../../../src/core/plan/start-questions.ts'
import { startWords } from '../../../src/wording/en/new-plan.ts'
import { planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'

const startPlan = (given: StartAnswersGiven): string => startText(given, startWords.remarks)

const answerTo = ({ id, answer }: StartQuestion): fc.Arbitrary<Record<string, unknown>> => {
  const value =
    answer.is === 'text'
      ? fc.string({ unit: 'binary' })
      : answer.is === 'count'
        ? fc.integer({ min: answer.min, max: answer.max })
        : answer.is === 'amps'
          ? fc.double({ min: 0.01, max: answer.max, noNaN: true })
          : fc.constantFrom(...answer.choices)
  return fc.option(value.map((v) => ({ [id]: v }))).map((given) => given ?? {})
}

/** Any answers that the questions allow, some left out. */
const answers = fc
  .tuple(...startQuestions.map(answerTo))
  .map((parts) => Object.assign({}, ...parts) as StartAnswersGiven)

describe('a plan begun by questions', () => {
  test('reads without problems whatever was answered, and suits the JSON Schema', () => {
    const accepts = new Ajv2020({ strict: false }).compile(planJsonSchema())
    fc.assert(
      fc.property(answers, (given) => {
        const text = startPlan(given)
        planOf(text)
        expect(accepts(parse(text)) || accepts.errors).toBe(true)
      }),
      { numRuns: 30 },
    )
  })

  test('forgets no plug: each fan, hub and splitter is wired or named among those without a socket', () => {
    fc.assert(
      fc.property(answers, (given) => {
        const text = startPlan(given)
        const plan = planOf(text)
        const wired = new Set(plan.leads.map((lead) => lead.plug))
        const left = new Set([...text.matchAll(/^ {2}# - (\S+) ->$/gm)].map((m) => m[1]))
        for (const port of plan.parts.flatMap(portsOf))
          if (port.gender === 'plug')
            expect(wired.has(port.ref) || left.has(port.ref), `${port.ref}\n${text}`).toBe(true)
      }),
      { numRuns: 30 },
    )
  })

  test('has as many fans as were counted, on what they were said to be on', () => {
    const plan = planOf(startPlan({ fans: 7, motorsOn: 'splitters', fanHeaders: 2, fanAmps: 0.2, leds: 12 }))
    expect(plan.parts.filter((part) => part.kind === 'fan')).toHaveLength(7)
    expect(plan.parts.filter((part) => part.kind === 'fan-splitter').length).toBeLessThanOrEqual(3)
    expect(plan.assumed.has('parts.F1.motor.amps')).toBe(false)
    expect(
      plan.leads.filter((lead) => lead.socket.startsWith('board.') && lead.plug.endsWith('.usb')),
    ).toHaveLength(2)
  })

  test('an amperage that nobody knew is marked as assumed', () => {
    const plan = planOf(startPlan({ fans: 2 }))
    expect(plan.assumed.has('parts.F1.motor.amps')).toBe(true)
    expect(plan.assumed.has('board.fan_headers.SYS1.amps')).toBe(true)
  })

  test('says which lead found no socket', () => {
    const text = startPlan({ fans: 4, fanHeaders: 1, lights: 'none' })
    expect(text).toContain('  # - F3.motor ->\n  # - F4.motor ->')
    expect(planOf(text).leads).toHaveLength(2)
  })

  test('is commented for the person who goes on with it', () => {
    expect(
      startPlan({})
        .split('\n')
        .filter((line) => line.trim().startsWith('#')).length,
    ).toBeGreaterThan(3)
  })
})

describe('the questions', () => {
  test('ask for every answer once, and the usual ones are allowed ones', () => {
    expect(startQuestions.map((q) => q.id).sort()).toEqual(Object.keys(startAnswers.shape).sort())
    for (const { id, answer, usual } of startQuestions) {
      if (answer.is === 'choice') expect(answer.choices, id).toContain(usual)
      if (answer.is === 'count' && usual !== undefined) {
        expect(usual).toBeGreaterThanOrEqual(answer.min)
        expect(usual).toBeLessThanOrEqual(answer.max)
      }
    }
  })

  test('do not ask for lights where there are none', () => {
    const dark = startAnswers.parse({ lights: 'none', pump: 'none', motorsOn: 'headers' })
    const asked = startQuestions.filter((q) => q.when(dark)).map((q) => q.id)
    expect(asked).not.toContain('leds')
    expect(asked).not.toContain('lightsOn')
    expect(asked).not.toContain('hubPorts')
    expect(asked).toContain('motorsOn')
  })
})
