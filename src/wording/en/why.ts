/** Why this step: what it costs, what each reply would mean, what speaks for and against each suspect. */
import type { View, Why } from '../../job/view.ts'
import { answerText } from './answers.ts'
import { inTurn } from './edits.ts'
import { labels } from './labels.ts'
import { questionText } from './questions.ts'
import { trailLine } from './trail.ts'
import { suspectWords } from './verdicts.ts'

/** Ten decibans are odds of ten to one; words, because the figure says little at a bench. */
function strength(decibans: number): string {
  const weight = Math.abs(decibans)
  return weight >= 15 ? 'very strongly' : weight >= 8 ? 'strongly' : weight >= 3 ? 'clearly' : 'a little'
}

function replyName(id: string, view: View): string {
  const { prompt } = view
  if (prompt?.show === 'ask') return answerText(prompt, id, view)
  return id === 'done' ? labels.done : id
}

function evidence(view: View, items: Why['suspects'][number]['speaksFor'], head: string): string[] {
  const told = items.filter((i) => Math.abs(i.decibans) >= 0.5).slice(0, 3)
  return told.flatMap(({ seq, decibans }) => {
    const entry = view.trail.find((e) => e.seq === seq)
    return entry ? [`    ${head} ${strength(decibans)}: step ${trailLine(entry, view)}`] : []
  })
}

const repliesLines = (why: Why, view: View): string[] =>
  why.replies.length === 0
    ? []
    : [
        'What each answer would mean:',
        ...why.replies.map((r) => {
          const [top] = r.suspects
          const then = top
            ? `then ${labels.percent(top.p)} for: ${suspectWords(top, view)}`
            : 'then nothing stands out'
          return `  ${replyName(r.id, view)} (expected ${labels.percent(r.p)}): ${then}`
        }),
      ]

const suspectsLines = (why: Why, view: View): string[] =>
  why.suspects.length === 0
    ? []
    : [
        'Suspects, and what speaks for and against:',
        ...why.suspects
          .slice(0, 5)
          .flatMap((s) => [
            `  ${labels.percent(s.suspect.p)}  ${suspectWords(s.suspect, view)}`,
            ...evidence(view, s.speaksFor, 'for,'),
            ...evidence(view, s.speaksAgainst, 'against,'),
          ]),
      ]

/** What else was weighed, as far as it is more than a name of the engine's own. */
function othersLines(why: Why): string[] {
  const [best] = why.others
  return best === undefined
    ? []
    : [
        `Weighed against ${why.others.length === 1 ? 'one other step' : `${why.others.length} other steps`}; the best of them would take ${labels.minutes(best.expectedMinutes)} in all.`,
      ]
}

/** The heads and rows of the explanation, top down. */
export function whyLines(why: Why, view: View): string[] {
  const { prompt } = view
  const about =
    prompt === null
      ? []
      : [prompt.show === 'ask' ? questionText(prompt, view).title : inTurn(prompt.edits, view).join(' ')]
  const expected = Number.isFinite(why.expectedMinutes)
    ? [`With this step first, a proven fix takes ${labels.minutes(why.expectedMinutes)} more, as a rule.`]
    : []
  return [...about, ...expected, ...othersLines(why), ...repliesLines(why, view), ...suspectsLines(why, view)]
}
