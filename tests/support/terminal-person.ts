/**
 * A person at the screen of the built program: reads what is asked off the log (which is on the disk before it is on the
 * screen), looks at a build with faults in it, and presses keys. What the screen highlights, and what the log then
 * records, are read back; nothing of the program is called.
 */
import { readFileSync } from 'node:fs'
import type { Prompt } from '../../src/core/checks/prompt.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import type { LogEvent } from '../../src/job/log/event.ts'
import type { Reply } from '../../src/job/view.ts'
import { english } from '../../src/wording/en/english.ts'
import type { Scene } from '../../src/wording/language.ts'
import type { Person } from './bench-person.ts'
import type { Pty } from './pty.ts'

export type Hands =
  /** Each key waits until the screen shows what the one before did. */
  | 'one by one'
  /** All keys of an answer in a single write. */
  | 'in a burst'

type Shown = Extract<LogEvent, { e: 'shown' }>

/** The whole lines of a log; none where there is no log yet. */
export function eventsIn(log: string): LogEvent[] {
  let text: string
  try {
    text = readFileSync(log, 'utf8')
  } catch {
    return []
  }
  return text
    .slice(0, text.lastIndexOf('\n') + 1)
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as LogEvent)
}

/** The question that waits for a reply. */
export function standing(events: readonly LogEvent[]): Shown | undefined {
  const last = events.findLast((e) => e.e === 'shown' || e.e === 'replied' || e.e === 'ended')
  return last?.e === 'shown' ? last : undefined
}

const flat = (rows: readonly string[]): string => rows.join(' ').replace(/[│┃|]/gu, ' ').replace(/\s+/gu, ' ')

/** The sentence that stands on the screen for a prompt. */
export const titleOf = (prompt: Prompt, scene: Scene): string =>
  (prompt.show === 'do' ? english.step(prompt, scene) : english.question(prompt, scene)).title

/** Its beginning. */
export const opening = (prompt: Prompt, scene: Scene): string => titleOf(prompt, scene).slice(0, 24)

/** Number of the row (from 1) that stands for the reply. */
function rowFor(prompt: Prompt, reply: Reply): number {
  if (prompt.show === 'do') return prompt.purpose === 'gate' ? 2 : 1
  if (prompt.many) return 1
  const ids = 'about' in prompt ? prompt.choices : prompt.answers.map((a) => a.id)
  return 1 + (reply.say === 'answer' ? ids.indexOf(reply.ids[0] ?? '') : ids.length)
}

/** The marks of a question with several, as keys: the number of each place, then Space until its mark is there. */
function markKeys(prompt: Extract<Prompt, { many: true }>, ids: readonly string[]): string[] {
  const places = [...new Set(prompt.marks.map(placeOf))]
  return ids.flatMap((id) => {
    const mark = prompt.marks.find((m) => m.id === id)
    const place = mark ? placeOf(mark) : ''
    const here = prompt.marks.filter((m) => placeOf(m) === place)
    return [String(places.indexOf(place) + 1), ' '.repeat(here.findIndex((m) => m.id === id) + 1)]
  })
}

/** A row of the screen: one thing of one place, where a plug's seat and where it goes are one thing. */
const placeOf = ({ observe }: { readonly observe: { readonly what: string; readonly at: string } }): string =>
  `${/^(?:seated|goes)$/u.test(observe.what) ? 'plug' : observe.what} ${observe.at}`

export interface Told {
  readonly prompt: Prompt
  readonly reply: Reply
}

/**
 * Does the job to its end. Resolves to what was meant to be said, in order; compare it with what the log says.
 * @param watch called when a question stands on the screen, before it is answered; may use controls. What it has answered with
 *   them it hands back; another question may stand there afterwards.
 */
export async function workAt(
  pty: Pty,
  log: string,
  person: Person,
  plan: Plan,
  hands: Hands,
  watch: (prompt: Prompt) => Promise<readonly Told[]> = async () => [],
): Promise<Told[]> {
  const told: Told[] = []
  for (let seq = 0; ; ) {
    await pty.until(() => {
      const events = eventsIn(log)
      return events.at(-1)?.e === 'ended' || (standing(events)?.seq ?? 0) > seq
    })
    const now = standing(eventsIn(log))
    if (now === undefined) return told
    seq = now.seq
    const { prompt } = now
    // The log has it before the screen: what was said last stands there as soon as the next question does.
    if (told.length > 0)
      await pty.until((rows) => rows.some((row) => /^(?:Recorded: |\d+ answers? taken back)/u.test(row)))
    await readOn(pty, opening(prompt, { plan, done: person.history }))
    told.push(...(await watch(prompt)))
    if (standing(eventsIn(log))?.seq !== seq) continue
    if (prompt.show === 'do') person.did(prompt.edits)
    const reply: Reply = prompt.show === 'do' ? { say: 'done' } : person.answer(prompt)
    told.push({ prompt, reply })
    await (hands === 'one by one' ? pressEach : pressAll)(pty, prompt, reply)
    await pty.until(() => eventsIn(log).some((e) => e.e === 'replied' && e.to === seq))
  }
}

/** Enter by one who comes to it sooner after the last Enter than a person could: another key between says that it is meant. */
const AFRESH = 'k\r'
/** The same with a key that does nothing, where the next Enter answers what was asked of the last one. */
const MEANT = 'z\r'

/** Long enough that a busy machine has drawn what stands in the log. */
const PATIENCE_MS = 8000

/** Remarks that need a page of their own come first; Enter goes on. Who sees the page stay presses again. */
async function readOn(pty: Pty, text: string): Promise<void> {
  const remarks = (rows: readonly string[]): boolean => rows[2]?.trim() === 'Remarks'
  for (let page = 0; page < 20; page++) {
    await pty.until((rows) => remarks(rows) || flat(rows).includes(text))
    if (!remarks(pty.rows())) return
    // Its end is drawn before it goes: until it has gone, nothing more is pressed, or that would be meant for the question.
    pty.write('G\r')
    await pty.until((rows) => !remarks(rows), PATIENCE_MS).catch(() => undefined)
  }
  throw new Error(`"${text}" did not come:\n${pty.rows().join('\n')}`)
}

/** Who signs at the end of a first boot. */
const NAME = 'bench two'

const asksForName = (prompt: Prompt): boolean =>
  prompt.show === 'do' && 'task' in prompt && prompt.task === 'sign-off'

const isHighlighted = (row: number) => new RegExp(`[▸>] *${row} `, 'u')

/** By its number. What is typed while a question is still being drawn is not meant for it: who sees nothing move presses again. */
async function highlight(pty: Pty, row: number): Promise<void> {
  pty.write(String(row))
  await pty.until(isHighlighted(row), PATIENCE_MS).catch(async () => {
    pty.write(String(row))
    await pty.until(isHighlighted(row))
  })
}

async function pressEach(pty: Pty, prompt: Prompt, reply: Reply): Promise<void> {
  if (prompt.show === 'ask' && prompt.many) {
    const ids = reply.say === 'answer' ? reply.ids : []
    const keys = markKeys(prompt, ids)
    for (let i = 0; i < keys.length; i += 2) {
      await highlight(pty, Number(keys[i]))
      for (const space of keys[i + 1] ?? '') {
        const before = pty.rows().join('\n')
        pty.write(space)
        await pty.until((rows) => rows.join('\n') !== before)
      }
    }
    if (reply.say !== 'answer') return pty.write('c')
    pty.write(AFRESH)
    if (ids.length > 0) return
    await pty.until(/^Nothing is marked/mu)
    return pty.write(MEANT)
  }
  const row = rowFor(prompt, reply)
  if (prompt.show === 'do') {
    // A gate shows its answers once no key has come for a while; a long step is read to its end first.
    if (prompt.purpose === 'gate') await pty.until('Not yet')
    pty.write('G')
  }
  await highlight(pty, row)
  pty.write('\r')
  if (!asksForName(prompt)) return
  await pty.until('Type your name')
  pty.write(NAME)
  await pty.until(NAME)
  pty.write('\r')
}

async function pressAll(pty: Pty, prompt: Prompt, reply: Reply): Promise<void> {
  if (prompt.show === 'ask' && prompt.many) {
    const ids = reply.say === 'answer' ? reply.ids : []
    if (ids.length === 0) return pressEach(pty, prompt, reply)
    return pty.write(`${markKeys(prompt, ids).join('')}\r`)
  }
  // What is typed ahead of a gate must not pass it.
  if (prompt.show === 'do' && prompt.purpose === 'gate') return pressEach(pty, prompt, reply)
  if (asksForName(prompt)) return pressEach(pty, prompt, reply)
  const row = rowFor(prompt, reply)
  pty.write(prompt.show === 'do' ? `G${row}\r` : `${'j'.repeat(row - 1)}${row > 1 ? '\r' : AFRESH}`)
}
