/** The symptoms of a job, from its log: as it was opened, as the guide found them, several where several were told. */
import { WHICH_SYMPTOM } from '../../../flows/which-symptom.ts'
import type { LogEvent } from './event.ts'

/** In the order in which they were taken up; empty while nobody knows. */
export function symptomsIn(events: readonly LogEvent[]): readonly string[] {
  const guides = new Set<number>()
  let found: readonly string[] = []
  for (const event of events) {
    if (event.e === 'opened')
      found = event.symptom === WHICH_SYMPTOM ? [] : [event.symptom, ...(event.also ?? [])]
    else if (event.e === 'shown') {
      const { prompt } = event
      if (prompt.show === 'ask' && 'about' in prompt && prompt.about === 'symptom') guides.add(event.seq)
    } else if (event.e === 'replied' && guides.has(event.to)) guides.add(event.seq)
    else if (event.e === 'undone' && guides.has(event.of)) found = []
    else if (event.e === 'symptoms' && event.after === undefined) found = [...event.now, ...event.later]
  }
  return found
}
