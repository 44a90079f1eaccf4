/**
 * The job line by line: what is told, what is asked, what was taken, each once and in order. It only ever appends, so
 * a screen reader reads it as it comes and a pipe can be kept.
 */
import { graveFindings } from '../core/audit/grave.ts'
import type { Reply, Session, View } from '../job/view.ts'
import { english } from '../wording/en/english.ts'
import type { Language } from '../wording/language.ts'
import { handIn } from './hand-in.ts'
import { say } from './kept.ts'
import { notToldYet } from './not-told-yet.ts'
import { kindOf, promptLines } from './prompt-lines.ts'
import { plainly, type Said } from './said.ts'
import { type Asked, asked, askedLines, standingSteps } from './take-back.ts'
import type { Ended, Talk } from './talk.ts'
import { understand } from './understand.ts'
import { wrap } from './wrap.ts'

const toldLines = (view: View, before: View['told'] | undefined, language: Language): string[] =>
  notToldYet(view.told, before).flatMap((t) =>
    t.show === 'note' ? language.note(t, view) : language.verdict(t, view),
  )

/** The grave findings in full, the rest by number. */
function auditLines(view: View, language: Language): string[] {
  const { findings } = view
  const grave = graveFindings(findings)
  const rest = findings.length - grave.length
  const more = rest > 0 ? [language.dialogue.moreFindings(rest)] : []
  return [...grave.flatMap((f) => language.finding(f, view)), ...more]
}

function tellLines(
  what: Extract<Said, { do: 'tell' }>['what'],
  session: Session,
  language: Language,
): string[] {
  const view = session.view()
  const { dialogue } = language
  switch (what) {
    case 'help':
      return [
        ...dialogue.help(view.prompt === null ? 'ended' : kindOf(view.prompt)),
        ...language.terms(view).map((l) => `  ${l}`),
      ]
    case 'why':
      return language.why(session.why(), view)
    case 'path':
      return view.trail.length === 0
        ? [dialogue.pathEmpty]
        : [dialogue.pathSoFar, ...view.trail.map((e) => `  ${language.trail(e, view)}`)]
    case 'where':
      return view.path.length === 0
        ? [dialogue.whereUnknown]
        : [dialogue.where + language.path(view.path, view)]
    case 'findings':
      return view.findings.length === 0
        ? [dialogue.noFindings]
        : view.findings.flatMap((f) => language.finding(f, view))
    case 'again':
      return promptLines(view, language)
  }
}

/** What leaves the question as it stands, and need not have it said again. */
const isAside = (reply: Reply): boolean => reply.say === 'note' || (reply.say === 'fold' && reply.folded)

/** What was taken, said back, so that a slip is noticed at once. */
function echo(said: Extract<Said, { do: 'reply' }>['reply'], view: View, language: Language): string {
  const { labels, dialogue } = language
  const { prompt } = view
  switch (said.say) {
    case 'undo':
      return dialogue.undone
    case 'note':
      return dialogue.noteTaken
    case 'fold':
      return said.folded ? dialogue.folded : dialogue.unfolded
    case 'answer': {
      if (prompt?.show !== 'ask') return ''
      const names = said.ids.map((id) => language.answer(prompt, id, view))
      return `${labels.noted}: ${names.length === 0 ? labels.none.toLowerCase() : language.list(names)}.`
    }
    case 'hand-over':
    case 'leave':
    case 'read':
      return ''
    case 'done': {
      const by = said.by ?? view.who
      return prompt?.show === 'do' && prompt.task === 'sign-off' && by
        ? dialogue.signed(by)
        : `${labels.noted}: ${labels.done.toLowerCase()}.`
    }
    default:
      return `${labels.noted}: ${labels[said.say].toLowerCase()}.`
  }
}

/**
 * Runs one job to its end, or until the input ends: then it is left, to be taken up again.
 * Does not close the session; whoever opened it does.
 */
export async function runPlain(session: Session, talk: Talk, language: Language = english): Promise<Ended> {
  const { dialogue } = language
  const tell = (lines: readonly string[]) => {
    for (const line of lines) talk.write(`${wrap(line, talk.columns)}\n`)
  }
  let told: View['told'] | undefined
  let takingBack: Asked | undefined
  const show = () => {
    const view = session.view()
    tell(['', ...toldLines(view, told, language), ...promptLines(view, language)])
    told = view.told
  }
  const ended = (): Ended => {
    const view = session.view()
    if (view.end === null) return null
    tell(['', ...toldLines(view, told, language)])
    tell(language.end(view.end, view))
    if (view.end.outcome === 'handed-over') tell(['', ...language.handingOver(view)])
    return view.end.outcome
  }

  tell(dialogue.hello(session.view()))
  tell(auditLines(session.view(), language))
  if (session.view().prompt === null) return ended()
  show()
  talk.write(dialogue.prompt)
  for await (const line of talk.lines) {
    const view = session.view()
    if (view.prompt === null) break
    if (takingBack !== undefined) {
      const { seq } = takingBack
      takingBack = undefined
      const sure = 'text' in line && dialogue.yes.includes(plainly(line.text))
      const kept = sure ? await say(session, { say: 'undo', seq }, language) : undefined
      tell(kept === undefined ? [dialogue.takenBackNot] : kept.ok ? [dialogue.undone] : kept.lines)
      show()
      talk.write(dialogue.prompt)
      continue
    }
    const said: Said =
      'trouble' in line
        ? { do: 'ask-back', text: line.trouble === 'too-long' ? dialogue.tooLong : dialogue.notUtf8 }
        : understand(line.text, view.prompt, view, language)
    if (said.do === 'ask-back') tell([said.text])
    else if (said.do === 'take-back') {
      takingBack = asked(session, said.step)
      tell(
        takingBack
          ? askedLines(view, takingBack, language)
          : [dialogue.noTakingBack(said.step, standingSteps(view))],
      )
    } else if (said.do === 'read') {
      const handed = await handIn(session, said, talk, language)
      tell(handed.lines)
      if (session.view().prompt === null) return ended()
      if (handed.ok) show()
    } else if (said.do === 'tell') tell(tellLines(said.what, session, language))
    else {
      const kept = await say(session, said.reply, language)
      const back = kept.ok ? [echo(said.reply, view, language)] : kept.lines
      tell(back.filter((line) => line !== ''))
      if (session.view().prompt === null) return ended()
      if (kept.ok && said.reply.say === 'fold' && !said.reply.folded) told = undefined
      if (kept.ok && !isAside(said.reply)) show()
    }
    talk.write(dialogue.prompt)
  }
  if (session.view().prompt !== null) {
    const kept = await say(session, { say: 'leave' }, language)
    tell(['', ...(kept.ok ? [] : kept.lines), dialogue.inputEnded(session.view().log)])
  }
  return session.view().end?.outcome ?? null
}
