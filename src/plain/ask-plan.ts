/** Asks, line by line, what has to be known to begin a plan; one can go back, and what is left out is as usual. */
import { startAnswer } from '../core/plan/start-answer.ts'
import {
  type StartAnswers,
  type StartAnswersGiven,
  type StartQuestion,
  startAnswers,
  startQuestions,
} from '../core/plan/start-questions.ts'
import type { Language } from '../wording/language.ts'
import type { StartWords } from '../wording/new-plan.ts'
import { plainly } from './said.ts'
import type { Talk } from './talk.ts'
import { wrap } from './wrap.ts'

type Answers = ReadonlyMap<string, string | number | undefined>

const given = (answers: Answers): StartAnswersGiven =>
  Object.fromEntries([...answers].filter(([, value]) => value !== undefined)) as StartAnswersGiven

const soFar = (answers: Answers): StartAnswers => startAnswers.parse(given(answers))

/** The first question that still matters and has no answer. */
const nextOf = (answers: Answers): StartQuestion | undefined =>
  startQuestions.find((q) => !answers.has(q.id) && q.when(soFar(answers)))

/** The answers; null where the person leaves. The end of the input leaves the rest as usual. */
export async function askPlan(
  talk: Talk,
  words: StartWords,
  { dialogue }: Pick<Language, 'dialogue'>,
): Promise<StartAnswersGiven | null> {
  const tell = (line: string) => talk.write(`${wrap(line, talk.columns)}\n`)
  const put = (question: StartQuestion) => {
    const { answer, id } = question
    tell(`${words.ask[id]}${answer.is === 'choice' ? '' : ` [${words.usual(question)}]`}`)
    if (answer.is === 'choice')
      for (const [i, choice] of answer.choices.entries()) {
        const meaning = words.choices[id]?.[choice] ?? ''
        // A figure beside the number in the list would be taken for it.
        const named = /^\d/.test(choice) ? meaning : `${choice}: ${meaning}`
        tell(`  ${i + 1}. ${named}${choice === question.usual ? ` [${words.enter}]` : ''}`)
      }
    talk.write(dialogue.prompt)
  }
  const answers = new Map<string, string | number | undefined>()
  for (const line of words.hello) tell(line)
  let question = nextOf(answers)
  if (question) put(question)
  for await (const line of talk.lines) {
    if (!question) break
    const text = 'text' in line ? line.text : '\ufffd'
    const plain = plainly(text)
    if (dialogue.words.leave.includes(plain)) return null
    if (dialogue.words.help.includes(plain)) for (const told of words.help(question)) tell(told)
    else if (dialogue.words.undo.includes(plain)) {
      const last = [...answers.keys()].at(-1)
      if (last === undefined) tell(words.noWayBack)
      else answers.delete(last)
    } else {
      const answered = startAnswer(question, text)
      if (answered.ok) answers.set(question.id, answered.value)
      else tell(words.refused(question, answered.why, text))
    }
    question = nextOf(answers)
    if (!question) return given(answers)
    put(question)
  }
  tell('')
  tell(words.inputEnded)
  return given(answers)
}
