import { describe, expect, test } from 'vitest'
import { initialTransition, transition } from 'xstate'
import { flowOf } from '../../flows/all.ts'
import { type GuideEvent, guided, QUESTIONS, whichSymptom } from '../../flows/which-symptom.ts'
import { SYMPTOMS } from '../../src/wording/en/symptoms.ts'
import { GUIDE } from '../../src/wording/en/which-symptom.ts'

/** All ways of answering to the end, with how many questions each took. */
function ways(events: readonly GuideEvent[] = []): { events: readonly GuideEvent[]; symptom: string }[] {
  const at = guided(events)
  if ('symptom' in at) return [{ events, symptom: at.symptom }]
  if (events.length > 5) throw new Error('asks without end')
  return [
    ...at.answers.flatMap(({ id }) => ways([...events, { type: 'CHOSE', answer: id }])),
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
    for (const id of Object.keys(SYMPTOMS)) expect(led).toContain(id)
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
    expect(said).toEqual(ids)
  })
})
