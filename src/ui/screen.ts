/**
 * The screen's memory outside React: the cursor, the job's last view, and what a key does to both. React only draws it,
 * so a key always acts on what the last key left, never on what was drawn last.
 */
import type { Done } from '../io/trouble.ts'
import type { HandIn } from '../job/hand-in.ts'
import type { Reply, Session, View, Why, Without } from '../job/view.ts'
import type { Language } from '../wording/language.ts'
import { logWordsOf } from '../wording/report/language.ts'
import type { HeldEnter } from './keys/held-enter.ts'
import type { Key } from './keys/key.ts'
import { type Event, keymap } from './keys/keymap.ts'
import { type Cursor, freshCursor, heldBack, type Message, promptKey } from './state/cursor.ts'
import type { Act } from './state/facts.ts'
import { reduce } from './state/reduce.ts'
import { kindOf, rowsOf } from './state/rows.ts'
import { type Frame, frame } from './views/frame.ts'
import type { Model, Size } from './views/model.ts'
import { hasToRead, toldNeedsPage, withGrave } from './views/told.ts'

/** What the screen asks of the terminal and of the program around it. */
export interface Surroundings {
  readonly language: Language
  readonly ascii: boolean
  /** How long the keyboard must be quiet before a gate takes an answer, milliseconds. */
  readonly settleMs: number
  readonly held: HeldEnter
  readonly leave: (how: 'end' | 'interrupt') => void
  readonly suspend: () => void
  readonly redraw: () => void
  readonly failed: (error: unknown) => void
  /** Gets a reading from where a person said it is. */
  readonly fetch: (from: string) => Promise<Done<{ readonly text: string }>>
}

export interface Screen {
  readonly subscribe: (changed: () => void) => () => void
  /** Changes whenever there is something new to draw. */
  readonly version: () => number
  readonly frame: () => Frame
  readonly resize: (size: Size) => void
  readonly key: (key: Key) => void
  /** To be called when what `version` stands for is on the screen; keys typed before are not for this prompt. */
  readonly drawn: () => void
  readonly close: () => void
}

export function createScreen(session: Session, size: Size, around: Surroundings): Screen {
  let view = withGrave(session.view())
  let why: Why | null = null
  let without: Without | null = null
  let shownSize = size
  let version = 0
  let drawnPrompt = ''
  let timer: ReturnType<typeof setTimeout> | undefined
  let drawn: { version: number; frame: Frame } | undefined
  const { held } = around
  const listeners = new Set<() => void>()
  const modelAt = (at: Cursor): Model => ({
    view,
    why,
    without,
    cursor: at,
    language: around.language,
    words: around.language.screen,
    ascii: around.ascii,
    size: shownSize,
  })
  const model = (): Model => modelAt(cursor)

  /** @param known what was told before: it has been read */
  function start(message: Message | null, known: View['told'] = []): Cursor {
    const first = rowsOf(view.prompt)[0]?.id ?? null
    const toldRead = view.told.every((t) => known.includes(t))
    const fresh = freshCursor(promptKey(view), first, kindOf(view.prompt) !== 'gate', toldRead)
    const at = { ...fresh, message }
    return hasToRead(view, known) && toldNeedsPage(modelAt(at)) ? { ...at, mode: 'told' } : at
  }

  let cursor: Cursor = start(null)

  function changed(): void {
    version++
    for (const listener of listeners) listener()
  }

  const drawing = (): Frame => {
    if (drawn?.version !== version) drawn = { version, frame: frame(model()) }
    return drawn.frame
  }

  /** A gate opens once no key has come for a while: what was typed ahead, or a held key, cannot pass it. */
  function settleLater(): void {
    clearTimeout(timer)
    if (cursor.settled) return
    timer = setTimeout(() => {
      cursor = { ...cursor, settled: true }
      changed()
    }, around.settleMs)
  }

  function take(next: View, message: Message | null): void {
    const known = view.told
    view = next
    why = null
    without = null
    cursor = start(message, known)
    // The same gate afresh, after a reading that answered nothing: nothing else will tell that it is drawn.
    if (drawnPrompt === cursor.prompt) settleLater()
    changed()
  }

  const wordsFor = (reply: Reply): Message | null => {
    const words = around.language.screen
    if (reply.say === 'note') return { say: 'noted' }
    if (reply.say === 'fold') return { say: reply.folded ? 'folded' : 'unfolded' }
    if (reply.say === 'read') return { say: 'was-read' }
    if (reply.say === 'undo') return { say: 'taken-back', count: without?.takes.length ?? 1 }
    if (reply.say === 'done') return { say: 'did', what: around.language.labels.done }
    if (reply.say === 'unsure' || reply.say === 'cannot')
      return { say: view.prompt?.show === 'do' ? 'did' : 'recorded', what: words.ways[reply.say] }
    if (reply.say !== 'answer' || view.prompt?.show !== 'ask') return null
    const { prompt } = view
    const said = reply.ids.map((id) => around.language.answer(prompt, id, view))
    const what = said.length > 0 ? around.language.list(said) : around.language.labels.none
    return { say: 'recorded', what }
  }

  async function send(reply: Reply): Promise<void> {
    const before = promptKey(view)
    const message = wordsFor(reply)
    const result = await session.reply(reply)
    if (!result.ok) return refused(around.language.refusal(result.refusal))
    const next = session.view()
    if (reply.say === 'leave' || next.end?.outcome === 'left') {
      around.leave('end')
      return
    }
    // A note leaves the prompt as it is: the cursor stays where it was.
    if ((reply.say === 'note' || reply.say === 'fold') && promptKey(next) === before) {
      view = next
      cursor = { ...cursor, busy: false, message }
      if (reply.say === 'fold') cursor = refolded(cursor)
      changed()
      return
    }
    take(next, message)
  }

  const refolded = (at: Cursor): Cursor => ({
    ...at,
    scroll: 0,
    mode: toldNeedsPage(modelAt(at)) ? 'told' : 'job',
  })

  /** Why something was not taken: in full where a reading is handed in, else as a remark. */
  function refused(text: string): void {
    const at: Cursor = { ...cursor, busy: false }
    cursor = at.mode === 'reading' ? { ...at, unread: text } : { ...at, message: { say: 'refused', text } }
    changed()
  }

  async function read({ from, as }: HandIn): Promise<void> {
    const got = await around.fetch(from)
    if (got.ok) await send({ say: 'read', text: got.text, as, by: from })
    else refused(logWordsOf(around.language).trouble(got.trouble).join(' '))
  }

  function perform(act: Act): void {
    switch (act.act) {
      case 'read':
        read(act.handIn).catch(around.failed)
        return
      case 'reply':
        send(act.reply).catch(around.failed)
        return
      case 'take-back':
        send({ say: 'undo', seq: act.seq }).catch(around.failed)
        return
      case 'exit':
        around.leave('end')
        return
      case 'interrupt':
        around.leave('interrupt')
        return
      case 'suspend':
        around.suspend()
        return
      case 'redraw':
        around.redraw()
    }
  }

  /** What an Enter answers; asked once more whether nothing is marked, it is another question. */
  const shownNow = (): string =>
    `${cursor.prompt} ${cursor.mode} ${cursor.scroll} ${cursor.message?.say === 'none-marked' ? 'once more' : ''}`

  function key(pressed: Key): void {
    // Whatever it means here: who presses another key has looked.
    if (pressed.key !== 'enter') held.broken()
    const event = keymap(
      { mode: cursor.mode, kind: kindOf(view.prompt), filtering: cursor.filtering },
      pressed,
    )
    if (event === null) return
    const always = event.on === 'interrupt' || event.on === 'suspend' || event.on === 'redraw'
    // Typed before this prompt was on the screen, so not meant for it.
    if (!always && drawnPrompt !== cursor.prompt) return
    settleLater()
    if (pressed.key === 'enter') held.pressed(shownNow(), () => act(event), notTaken)
    else act(event)
  }

  function notTaken(): void {
    cursor = heldBack(cursor)
    changed()
  }

  function act(event: Event): void {
    const outcome = reduce(cursor, event, drawing().facts)
    cursor = outcome.cursor
    // Before what follows from the pane that is open: what is said of it goes into the remark.
    if (outcome.act) perform(outcome.act)
    if (cursor.mode === 'why' && why === null && view.prompt !== null) why = session.why()
    if (cursor.mode !== 'take-back') without = null
    else if (without === null && cursor.seq !== null) without = session.without(cursor.seq)
    changed()
  }

  return {
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    version: () => version,
    frame: drawing,
    resize: (next) => {
      if (next.columns === shownSize.columns && next.rows === shownSize.rows) return
      shownSize = next
      changed()
    },
    key,
    drawn: () => {
      if (drawnPrompt === cursor.prompt) return
      drawnPrompt = cursor.prompt
      settleLater()
    },
    close: () => clearTimeout(timer),
  }
}
