/** Whether a reply fits what is asked; the prompt stands where it does not. */
import type { Prompt } from '../../core/checks/prompt.ts'
import type { Refusal, Reply } from '../view.ts'

type Said = Extract<Reply, { say: 'done' | 'answer' | 'unsure' | 'cannot' }>

/** Undefined where the reply fits; else what would. */
export function refuse(prompt: Prompt | null, said: Said): Refusal | undefined {
  if (!prompt) return { problem: 'no-prompt', expected: [] }
  if (prompt.show === 'do') {
    return said.say === 'done' || said.say === 'cannot'
      ? undefined
      : { problem: 'not-an-ask', expected: ['done', 'cannot'] }
  }
  if (said.say === 'unsure' || said.say === 'cannot') return undefined
  const ids = prompt.many
    ? prompt.marks.map((m) => m.id)
    : 'about' in prompt
      ? prompt.choices
      : prompt.answers.map((a) => a.id)
  if (said.say === 'done') return { problem: 'not-a-do', expected: ids }
  const unknown = said.ids.filter((id) => !ids.includes(id))
  if (unknown.length > 0) return { problem: 'unknown-answer', expected: ids }
  if (!prompt.many && said.ids.length !== 1) return { problem: 'one-answer', expected: ids }
  if (prompt.many && new Set(thingsOf(prompt.marks, said.ids)).size !== said.ids.length) {
    return { problem: 'one-mark-each', expected: ids }
  }
  return undefined
}

const thingsOf = (
  marks: readonly { id: string; observe: { what: string; at: string } }[],
  ids: readonly string[],
): string[] =>
  ids.map((id) => {
    const mark = marks.find((m) => m.id === id)
    return `${mark?.observe.what} ${mark?.observe.at}`
  })
