/**
 * What a typed line means, given what is asked. A number, an id, a whole wording or its unambiguous beginning is an
 * answer; a few words are ways to go on. Exact beats beginning, and what fits two things is asked back, never guessed.
 */
import type { Ask, Prompt } from '../core/checks/prompt.ts'
import { handInOf } from '../job/hand-in.ts'
import type { Way } from '../wording/dialogue.ts'
import type { Language, Scene } from '../wording/language.ts'
import { plainly, type Said } from './said.ts'
import { stepNamed } from './take-back.ts'
import { understandMarks } from './understand-marks.ts'

/** Ids of what can be answered, in the order in which they are numbered. */
export function answerIds(ask: Ask): readonly string[] {
  if (ask.many) return ask.marks.map((m) => m.id)
  return 'about' in ask ? ask.choices : ask.answers.map((a) => a.id)
}

const TELLS: ReadonlySet<Way> = new Set(['help', 'why', 'path', 'where', 'findings', 'again'])

interface Target {
  readonly names: readonly string[]
  /** Those of the names that a beginning may stand for; other words for a way must be typed whole. */
  readonly begins: readonly string[]
  readonly shown: string
  readonly said: Said
}

function wayTarget(way: Way, words: readonly string[], prompt: Prompt): Target | undefined {
  const [shown] = words
  if (shown === undefined) return undefined
  const target = (said: Said): Target => ({ names: words, begins: [shown], said, shown })
  if (TELLS.has(way)) return target({ do: 'tell', what: way as 'help' })
  if (way === 'none')
    return prompt.show === 'ask' && prompt.many
      ? target({ do: 'reply', reply: { say: 'answer', ids: [] } })
      : undefined
  if (way === 'done')
    return prompt.show === 'do' ? target({ do: 'reply', reply: { say: 'done' } }) : undefined
  if (way === 'unsure' && prompt.show === 'do') return undefined
  if (way === 'fold' || way === 'unfold')
    return target({ do: 'reply', reply: { say: 'fold', folded: way === 'fold' } })
  return target({ do: 'reply', reply: { say: way as 'unsure' } })
}

function answerTargets(ask: Ask, scene: Scene, language: Language): Target[] {
  return answerIds(ask).map((id) => {
    const shown = language.answer(ask, id, scene)
    const names = [plainly(id), plainly(shown)]
    return {
      names,
      begins: names,
      shown,
      said: { do: 'reply', reply: { say: 'answer', ids: [id] } },
    }
  })
}

const distinct = (targets: readonly Target[]): Target[] =>
  targets.filter((t, i) => targets.findIndex((u) => JSON.stringify(u.said) === JSON.stringify(t.said)) === i)

function note(text: string, language: Language): Said | undefined {
  const word = language.dialogue.noteWord
  if (plainly(text) === word) return { do: 'ask-back', text: language.dialogue.noteEmpty }
  const given = new RegExp(`^\\s*${word}[\\s:]+(.*)$`, 'isu').exec(text)?.[1]?.trim()
  return given ? { do: 'reply', reply: { say: 'note', text: given } } : undefined
}

/** `read FILE fan1=SYS1 …`; a name of a file may stand in quotes. */
function reading(text: string, language: Language): Said | undefined {
  const word = language.dialogue.readWord
  if (plainly(text) === word) return { do: 'ask-back', text: language.dialogue.readWhat }
  const given = new RegExp(`^\\s*${word}\\s+(.*)$`, 'isu').exec(text)?.[1]?.trim()
  if (!given) return undefined
  const handIn = handInOf(given)
  return handIn ? { do: 'read', ...handIn } : { do: 'ask-back', text: language.dialogue.readWhat }
}

/** Whoever is to sign types the name; words that are ways to go on are none. */
const signed = (line: string, prompt: Prompt): Said | undefined =>
  prompt.show === 'do' && prompt.task === 'sign-off'
    ? { do: 'reply', reply: { say: 'done', by: line.trim() } }
    : undefined

function byNumber(n: number, prompt: Prompt, language: Language): Said {
  if (prompt.show === 'do')
    return n === 1
      ? { do: 'reply', reply: { say: 'done' } }
      : { do: 'ask-back', text: language.dialogue.outOfRange(n, 1) }
  const ids = answerIds(prompt)
  const id = ids[n - 1]
  return id === undefined
    ? { do: 'ask-back', text: language.dialogue.outOfRange(n, ids.length) }
    : { do: 'reply', reply: { say: 'answer', ids: [id] } }
}

/** Reads one line against what is asked. An empty line says the question again. */
export function understand(line: string, prompt: Prompt, scene: Scene, language: Language): Said {
  const text = plainly(line)
  if (text === '') return { do: 'tell', what: 'again' }
  const noted = note(line, language)
  if (noted) return noted
  const step = stepNamed(line, language)
  if (step !== undefined) return { do: 'take-back', step }
  const handed = reading(line, language)
  if (handed) return handed
  const ways = (Object.entries(language.dialogue.words) as [Way, readonly string[]][]).flatMap(
    ([way, words]) => wayTarget(way, words, prompt) ?? [],
  )
  const exactWay = ways.find((t) => t.names.includes(text))
  if (prompt.show === 'ask' && prompt.many)
    return exactWay?.said ?? understandMarks(text, prompt, language) ?? beginning(text, ways, line, language)
  const signature = signed(line, prompt)
  if (signature && !exactWay && !/^\d+$/.test(text)) return signature
  const answers = prompt.show === 'ask' ? answerTargets(prompt, scene, language) : []
  const exactAnswer = answers.find((t) => t.names.includes(text))
  if (exactAnswer) return exactAnswer.said
  if (/^\d{1,4}$/.test(text)) return byNumber(Number(text), prompt, language)
  return exactWay?.said ?? beginning(text, [...answers, ...ways], line, language)
}

function beginning(text: string, targets: readonly Target[], line: string, language: Language): Said {
  const found = distinct(targets.filter((t) => t.begins.some((n) => n.startsWith(text))))
  const [only] = found
  if (found.length === 1 && only) return only.said
  return {
    do: 'ask-back',
    text:
      found.length === 0
        ? language.dialogue.notUnderstood(line)
        : language.dialogue.whichOf(
            line,
            found.map((t) => t.shown),
          ),
  }
}
