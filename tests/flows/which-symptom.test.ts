import { describe, expect, test } from 'vitest'
import { initialTransition, transition } from 'xstate'
import { flowOf } from '../../flows/all.ts'
import {
  ANYTHING_ELSE,
  type GuideEvent,
  guided,
  QUESTIONS,
  signsOf,
  WHICH_SYMPTOM,
  whichSymptom,
} from '../../flows/which-symptom.ts'
import { SYMPTOMS } from '../../src/wording/en/symptoms.ts'
import { GUIDE } from '../../src/wording/en/which-symptom.ts'

const chose = (answer: string): GuideEvent => ({ type: 'CHOSE', answer })

/** All ways of answering to a first symptom, with how many questions each took. */
function ways(events: readonly GuideEvent[] = []): { events: readonly GuideEvent[]; symptom: string }[] {
  const at = guided(events)
  if ('symptoms' in at) return at.symptoms.map((symptom) => ({ events, symptom }))
  if (at.ask === ANYTHING_ELSE) return at.found.map((symptom) => ({ events, symptom }))
  if (events.length > 5) throw new Error('asks without end')
  return [
    ...at.answers.flatMap(({ id }) => ways([...events, chose(id)])),
    ...ways([...events, { type: 'UNSURE' }]),
  ]
}

describe('the guide for who cannot name the symptom', () => {
  test('asks three questions at most, and each way ends at a symptom that has a name', () => {
    for (const { events, symptom } of ways()) {
      expect(events.length).toBeLessThanOrEqual(3)
      expect(SYMPTOMS[symptom], symptom).toBeDefined()
      expect(flowOf(symptom), symptom).toBeDefined()
    }
  })

  test('leads to every symptom there is', () => {
    const led = new Set(ways().map((w) => w.symptom))
    for (const id of Object.keys(SYMPTOMS)) if (id !== WHICH_SYMPTOM) expect(led).toContain(id)
  })

  test('leaves nobody alone who cannot tell: everything is looked over', () => {
    for (const { events, symptom } of ways())
      if (events.some((e) => e.type === 'UNSURE')) expect(symptom).toBe('survey')
  })

  test('takes every answer back, up to the first question', () => {
    for (const { events } of ways()) {
      const undone: GuideEvent[] = [...events]
      for (let n = events.length - 1; n >= 0; n--) {
        undone.push({ type: 'UNDO' })
        expect(guided(undone)).toEqual(guided(events.slice(0, n)))
      }
    }
  })

  test('refuses an answer that was not offered', () => {
    const [start] = initialTransition(whichSymptom)
    expect(start.can({ type: 'CHOSE', answer: 'rust' })).toBe(false)
    expect(start.can({ type: 'UNDO' })).toBe(false)
    expect(transition(whichSymptom, start, { type: 'CHOSE', answer: 'rust' })[0].value).toEqual(start.value)
  })

  test('has words for every question and every answer, and none too many', () => {
    const ids = Object.fromEntries(Object.entries(QUESTIONS).map(([q, list]) => [q, list.map((a) => a.id)]))
    const said = Object.fromEntries(Object.entries(GUIDE).map(([q, text]) => [q, Object.keys(text.answers)]))
    const { [ANYTHING_ELSE]: more, ...rest } = said
    expect(rest).toEqual(ids)
    expect(more).toEqual(['that-is-all', 'more'])
  })

  test('asks whether anything else is wrong, and takes a second and a third symptom, not more', () => {
    const dark = [chose('lights'), chose('dark')]
    expect(guided(dark)).toMatchObject({ ask: ANYTHING_ELSE, found: ['lights-dark'] })
    expect(guided([...dark, chose('that-is-all')])).toEqual({ symptoms: ['lights-dark'] })
    expect(guided([...dark, { type: 'UNSURE' }])).toEqual({ symptoms: ['lights-dark'] })
    const still = [...dark, chose('more'), chose('fans'), chose('stand-still')]
    expect(guided(still)).toMatchObject({ ask: ANYTHING_ELSE, found: ['lights-dark', 'fan-still'] })
    expect(guided([...still, chose('more'), chose('not-found')])).toEqual({
      symptoms: ['lights-dark', 'fan-still', 'not-listed'],
    })
  })

  test('offers a build that was never switched on, or is dead as a whole, only at first', () => {
    const again = guided([chose('lights'), chose('dark'), chose('more')])
    const ids = 'answers' in again ? again.answers.map((a) => a.id) : []
    expect(ids).toEqual(['fans', 'lights', 'figures', 'not-found', 'later'])
    const refused = [chose('lights'), chose('dark'), chose('more'), chose('nothing-at-all')]
    expect(guided(refused)).toEqual(again)
  })

  test('takes the answers to a second symptom back one by one, to before the first', () => {
    const events = [
      chose('lights'),
      chose('dark'),
      chose('more'),
      chose('fans'),
      chose('flat-out'),
      chose('that-is-all'),
    ]
    const undone = [...events]
    for (let n = events.length - 1; n >= 0; n--) {
      undone.push({ type: 'UNDO' })
      expect(guided(undone)).toEqual(guided(events.slice(0, n)))
    }
  })

  test('says the signs of every symptom that has its own', () => {
    const without = Object.keys(SYMPTOMS).filter((id) => signsOf(id).length === 0)
    expect(without.sort()).toEqual(['first-boot', 'survey', 'which-symptom', 'works-then-stops'])
  })
})
