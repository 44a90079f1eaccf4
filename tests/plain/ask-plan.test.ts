/** A plan begun by questions: what is asked, what is understood, and that what is typed stands in the plan. */
import { describe, expect, test } from 'vitest'
import { startAnswer } from '../../src/core/plan/start-answer.ts'
import { startPlan } from '../../src/core/plan/start-plan.ts'
import { type StartId, startQuestions } from '../../src/core/plan/start-questions.ts'
import { askPlan } from '../../src/plain/ask-plan.ts'
import type { InputLine } from '../../src/plain/lines-in.ts'
import { english } from '../../src/wording/en/english.ts'
import { startWords } from '../../src/wording/en/new-plan.ts'
import { planOf } from '../support/build.ts'

async function* typed(lines: readonly string[]): AsyncGenerator<InputLine> {
  for (const text of lines) yield { text }
}

async function asked(lines: readonly string[]) {
  let told = ''
  const write = (text: string) => {
    told += text
  }
  const answers = await askPlan({ lines: typed(lines), write }, startWords, english)
  return { answers, told }
}

const question = (id: StartId) => {
  const found = startQuestions.find((q) => q.id === id)
  if (!found) throw new Error(id)
  return found
}

describe('beginning a plan by questions', () => {
  test('what is typed stands in the plan', async () => {
    const { answers } = await asked(['Attic render box', '4', '4', '180 mA', '5 V', '8'])
    const plan = planOf(startPlan(answers ?? {}, startWords.remarks))
    expect(plan.build).toBe('Attic render box')
    expect(plan.parts.filter((p) => p.kind === 'fan')).toHaveLength(4)
    expect(plan.parts[0]).toMatchObject({ motor: { amps: 0.18 }, lights: [{ leds: 8, volts: 5 }] })
  })

  test('nothing typed at all gives a plan with what is usual, and says that the input ended', async () => {
    const { answers, told } = await asked([])
    expect(answers).toEqual({})
    expect(told).toContain('The input ended')
    expect(planOf(startPlan(answers ?? {}, startWords.remarks)).parts.length).toBeGreaterThan(2)
  })

  test('Enter alone through all questions is the same as no answer', async () => {
    const { answers } = await asked(Array.from({ length: 40 }, () => ''))
    expect(startPlan(answers ?? {}, startWords.remarks)).toBe(startPlan({}, startWords.remarks))
  })

  test('does not ask for LEDs where the fans have no lights', async () => {
    const { told } = await asked(['', '', '', '', 'none', '', '', '', '', '', '', ''])
    expect(told).not.toContain(startWords.ask.leds)
    expect(told).not.toContain(startWords.ask.lightsOn)
  })

  test('what is no answer is said, and the question stands', async () => {
    const { answers, told } = await asked(['Bench', 'many', '0', '61', '5'])
    expect(told).toContain('"many" is not a whole number from 1 to 60')
    expect(told.split(startWords.ask.fans)).toHaveLength(5)
    expect(answers).toMatchObject({ fans: 5 })
  })

  test('goes back over an answer, and forgets it', async () => {
    const { answers } = await asked(['Bench', '5', 'back', '6'])
    expect(answers).toMatchObject({ build: 'Bench', fans: 6 })
  })

  test('leaves without a plan', async () => {
    expect((await asked(['Bench', 'leave', '5'])).answers).toBeNull()
  })

  test('has words for every question and every choice', () => {
    for (const { id, answer } of startQuestions) {
      expect(startWords.ask[id].length, id).toBeGreaterThan(10)
      if (answer.is === 'choice')
        for (const choice of answer.choices)
          expect(startWords.choices[id]?.[choice]?.length, `${id} ${choice}`).toBeGreaterThan(3)
    }
  })

  test('breaks lines at the width of the terminal', async () => {
    let told = ''
    const write = (text: string) => {
      told += text
    }
    await askPlan({ lines: typed([]), write, columns: 60 }, startWords, english)
    for (const line of told.split('\n')) expect(line.length).toBeLessThanOrEqual(60)
  })
})

describe('an answer', () => {
  test.each([
    ['0.25', 0.25],
    ['250 mA', 0.25],
    ['0.25A', 0.25],
    ['unknown', undefined],
    ['', undefined],
  ])('of %j to a current', (said, value) => {
    expect(startAnswer(question('fanAmps'), said)).toEqual({ ok: true, value })
  })

  test.each([
    ['0,25', 'comma'],
    ['12 V', 'no-current'],
    ['-1', 'out-of-range'],
    ['7 A', 'out-of-range'],
    ['lots', 'no-current'],
  ])('of %j to a current is refused as %s', (said, why) => {
    expect(startAnswer(question('fanAmps'), said)).toEqual({ ok: false, why })
  })

  test('is a word of the list, its number, or a beginning of one alone', () => {
    const lights = question('lights')
    expect(startAnswer(lights, '12 v')).toEqual({ ok: true, value: '12 V' })
    expect(startAnswer(lights, '2')).toEqual({ ok: true, value: '12 V' })
    expect(startAnswer(lights, 'n')).toEqual({ ok: true, value: 'none' })
    expect(startAnswer(lights, '9')).toEqual({ ok: false, why: 'no-choice' })
    // The word wins over the place in the list: these are the holes of the plug.
    expect(startAnswer(question('fanPins'), '3')).toEqual({ ok: true, value: '3' })
  })
})
