/**
 * The job for another program: JSON, one object a line, in both directions. A line that is not understood gets a
 * problem and the question stands; it is not written again.
 */
import { graveFindings } from '../core/audit/grave.ts'
import type { Prompt } from '../core/checks/prompt.ts'
import type { Session, View } from '../job/view.ts'
import { english } from '../wording/en/english.ts'
import type { Language } from '../wording/language.ts'
import { type DriverSaid, expectedLines, readDriverLine } from './driver-lines.ts'
import { say } from './kept.ts'
import { notToldYet } from './not-told-yet.ts'
import type { ToolLine } from './protocol.ts'
import { asked, standingSteps } from './take-back.ts'
import type { Ended, Talk } from './talk.ts'
import { endLine, findingLine, helloLine, promptLine, takeBackLine, toldLine, whyLine } from './tool-lines.ts'

/** A word that fits only the other kind of prompt. */
function misfit(said: DriverSaid, prompt: Prompt): string | undefined {
  if (said === null || !('reply' in said)) return undefined
  const { reply } = said
  if (reply.say === 'unsure' && prompt.show === 'do') return 'a thing to do is done or cannot be done'
  if (reply.say === 'answer' && prompt.show === 'do') return 'this is a thing to do, not a question'
  if (reply.say === 'done' && prompt.show === 'ask') return 'this is a question, not a thing to do'
  return undefined
}

/**
 * Runs one job to its end, or until the input ends: then it is left. `plan` is told in the greeting.
 * Does not close the session; whoever opened it does.
 */
export async function runLines(
  session: Session,
  talk: Talk,
  plan: string,
  language: Language = english,
): Promise<Ended> {
  const write = (line: ToolLine) => talk.write(`${JSON.stringify(line)}\n`)
  const problem = (text: string, expected: readonly string[]) =>
    write({ type: 'problem', text, expected: [...expected] })
  let told: View['told'] | undefined
  let shown: View['prompt'] = null
  const show = (): Ended | undefined => {
    const view = session.view()
    for (const one of notToldYet(view.told, told)) write(toldLine(one, view, language))
    told = view.told
    if (view.prompt !== null) {
      // A reading may leave the question as it stands; then it is not written again.
      if (view.prompt !== shown) write(promptLine(view.prompt, view, language))
      shown = view.prompt
      return undefined
    }
    if (view.end !== null) write(endLine(view.end, view, language))
    return view.end?.outcome ?? null
  }

  write(helloLine(session.view(), plan))
  for (const finding of graveFindings(session.view().findings))
    write(findingLine(finding, session.view(), language))
  const before = show()
  if (before !== undefined) return before
  for await (const line of talk.lines) {
    const view = session.view()
    const { prompt } = view
    if (prompt === null) break
    const said = readDriverLine(line, prompt)
    if (said === null) continue
    const wrong = 'problem' in said ? said.problem : misfit(said, prompt)
    if (wrong !== undefined) problem(wrong, expectedLines(prompt))
    else if ('why' in said) write(whyLine(session.why(), view, language))
    else if ('takeBack' in said) {
      const named = asked(session, said.takeBack)
      if (named) write(takeBackLine(said.takeBack, named.without, view, language))
      else {
        const standing = standingSteps(view)
        problem(
          language.dialogue.noTakingBack(said.takeBack, standing),
          standing.map((step) => `{"undo":${step}}`),
        )
      }
      if (named && said.done) {
        const kept = await say(session, { say: 'undo', seq: named.seq }, language)
        if (!kept.ok) problem(kept.lines.join(' '), kept.expected)
        else show()
      }
    } else if ('reply' in said) {
      const kept = await say(session, said.reply, language)
      if (!kept.ok) problem(kept.lines.join(' '), kept.expected)
      else if (said.reply.say !== 'note' && said.reply.say !== 'fold') {
        const ended = show()
        if (ended !== undefined) return ended
      }
    }
  }
  const kept = await say(session, { say: 'leave' }, language)
  if (!kept.ok) problem(kept.lines.join(' '), kept.expected)
  return show() ?? null
}
