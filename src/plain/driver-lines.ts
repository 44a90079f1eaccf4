/** Reads a line from the other side: one JSON object with one known word in it. A mistake is told with what would do. */
import type { Prompt } from '../core/checks/prompt.ts'
import type { Reply } from '../job/view.ts'
import type { InputLine } from './lines-in.ts'
import { type DriverWord, driverLine } from './protocol.ts'

export type DriverSaid =
  | { readonly reply: Reply }
  | { readonly why: true }
  /** The answer of that step: what taking it back changes, and whether it is to be done. */
  | { readonly takeBack: number; readonly done: boolean }
  | { readonly problem: string; readonly expected: readonly string[] }
  /** A blank line: nothing was said. */
  | null

const WORDS = Object.keys(driverLine) as DriverWord[]

const ALWAYS = [
  '{"undo":true}',
  '{"undo":STEP}',
  '{"without":STEP}',
  '{"why":true}',
  '{"note":"…"}',
  '{"read":"…","as":["fan1=SYS1"]}',
  '{"fold":true}',
  '{"hand-over":true}',
  '{"leave":true}',
]

/** What would be understood now, as lines to write. */
export function expectedLines(prompt: Prompt | null): string[] {
  if (prompt === null) return []
  if (prompt.show === 'do') return ['{"done":true}', '{"cannot":true}', ...ALWAYS]
  return [
    prompt.many ? '{"answers":["ID",…]}' : '{"answer":"ID"}',
    '{"unsure":true}',
    '{"cannot":true}',
    ...ALWAYS,
  ]
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

const replies: { [K in Exclude<DriverWord, 'why' | 'without'>]: (line: never) => Reply } = {
  done: (line: { by?: string }) => ({ say: 'done', ...(line.by === undefined ? {} : { by: line.by }) }),
  answer: (line: { answer: string }) => ({ say: 'answer', ids: [line.answer] }),
  answers: (line: { answers: string[] }) => ({ say: 'answer', ids: line.answers }),
  unsure: () => ({ say: 'unsure' }),
  cannot: () => ({ say: 'cannot' }),
  undo: () => ({ say: 'undo' }),
  note: (line: { note: string }) => ({ say: 'note', text: line.note }),
  read: (line: { read: string; as?: string[] }) => ({ say: 'read', text: line.read, as: line.as ?? [] }),
  fold: (line: { fold: boolean }) => ({ say: 'fold', folded: line.fold }),
  'hand-over': () => ({ say: 'hand-over' }),
  leave: () => ({ say: 'leave' }),
}

export function readDriverLine(line: InputLine, prompt: Prompt | null): DriverSaid {
  const expected = expectedLines(prompt)
  const problem = (text: string): DriverSaid => ({ problem: text, expected })
  if ('trouble' in line)
    return problem(line.trouble === 'too-long' ? 'the line is too long' : 'the line is not UTF-8')
  const text = line.text.replace(/^\ufeff/, '')
  if (text.trim() === '') return null
  const json = parse(text)
  if (typeof json !== 'object' || json === null || Array.isArray(json)) return problem('not a JSON object')
  const given = WORDS.filter((w) => Object.hasOwn(json, w))
  const [word] = given
  if (word === undefined) return problem('none of the known words is in the object')
  if (given.length > 1) return problem(`one word at a time, not ${given.join(' and ')}`)
  const read = driverLine[word].safeParse(json)
  if (!read.success) return problem(`the value of "${word}" does not fit`)
  if (word === 'why') return { why: true }
  if (word === 'without' && 'without' in read.data) return { takeBack: read.data.without, done: false }
  if (word === 'undo' && 'undo' in read.data && read.data.undo !== true)
    return { takeBack: read.data.undo, done: true }
  return { reply: (replies[word as keyof typeof replies] as (line: unknown) => Reply)(read.data) }
}
