/**
 * Every control of the screen that lies beside an answer, as a person at the keys uses it: what it opens is seen, and a
 * question stands there again afterwards. Keys only; what was said is read back from the log.
 */
import type { Prompt } from '../../src/core/checks/prompt.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { kindOf, spotsOf } from '../../src/ui/state/rows.ts'
import { english } from '../../src/wording/en/english.ts'
import type { Pty } from './pty.ts'
import { eventsIn, opening, type Told } from './terminal-person.ts'

export interface At {
  readonly pty: Pty
  readonly prompt: Prompt
  readonly plan: Plan
  readonly log: string
}

export interface Control {
  /** Whether there is anything to use it on at this question, after so many answers that could be taken back. */
  readonly fits?: (prompt: Prompt, answers: number) => boolean
  /** Uses it, and waits until the screen has shown what it does. Resolves to replies that were given with it. */
  readonly use: (at: At) => Promise<readonly Told[] | undefined>
}

const { head, said } = english.screen

const headIs = (text: string) => (rows: readonly string[]) => rows[2]?.split(' │ ')[0]?.trim() === text

/** Scrolls what is open to its end and back: whatever is drawn meanwhile is looked at by who watches the screen. */
const SCROLLED = 'Gjjkk  g'

/** Opened and closed by the same key. */
const pane = (key: string, title: string, fits?: Control['fits']): Control => ({
  ...(fits ? { fits } : {}),
  use: async ({ pty }) => {
    pty.write(key)
    await pty.until(headIs(title))
    pty.write(`${SCROLLED}${key}`)
    return undefined
  },
})

/** The same, where there may be nothing to open; then it says so. */
const paneOr = (key: string, title: string, otherwise: string): Control => ({
  use: async ({ pty }) => {
    pty.write(key)
    await pty.until((rows) => headIs(title)(rows) || rows.join('\n').includes(otherwise))
    if (headIs(title)(pty.rows())) pty.write(`${SCROLLED}${key}`)
    return undefined
  },
})

/** Asks before it ends anything; any letter but y means no. */
const asksFirst = (key: string, title: string): Control => ({
  use: async ({ pty }) => {
    pty.write(key)
    await pty.until(headIs(title))
    pty.write('z')
    return undefined
  },
})

const isKind =
  (kind: ReturnType<typeof kindOf>): Control['fits'] =>
  (prompt) =>
    kindOf(prompt) === kind

const asks: Control['fits'] = (prompt) => prompt.show === 'ask'

const count = (log: string, e: string): number => eventsIn(log).filter((event) => event.e === e).length

/** What was taken back is in the log, and said below the question: the pane that asks first has the same words and questions. */
async function takesBack({ pty, log }: At, keys: string): Promise<void> {
  const before = count(log, 'undone')
  pty.write(keys)
  await pty.until(() => count(log, 'undone') > before)
  await pty.until(
    (rows) => !headIs(head['take-back'])(rows) && rows.some((row) => /^\d+ answers? taken back/u.test(row)),
  )
}

export const CONTROLS: Readonly<Record<string, Control>> = {
  why: pane('w', head.why),
  wiring: pane('d', head.wiring),
  'seen and planned': pane('e', head.expected),
  pins: paneOr('v', head.picture, said['no-picture']),
  remarks: paneOr('m', head.told, said['not-here']),
  'help at a question': pane('?', head.help, isKind('one')),
  'help at a map': pane('?', head.help, isKind('many')),
  'help at a step': pane('?', head.help, isKind('step')),
  'help at a gate': pane('?', head.help, isKind('gate')),
  leave: asksFirst('q', head.leave),
  'hand over': asksFirst('h', head['hand-over']),
  'so far': {
    use: async ({ pty }) => {
      pty.write('p')
      await pty.until(headIs(head.trail))
      pty.write('kkjj/zzz')
      await pty.until('Find: zzz_')
      pty.write('\rp')
      return undefined
    },
  },
  note: {
    use: async ({ pty, log }) => {
      const before = count(log, 'noted')
      pty.write('n')
      await pty.until(headIs(head.note))
      pty.write('seen by torchlight, q and u are only letters heee')
      await pty.until('letters heee_')
      pty.write('\x7f\x7fre')
      await pty.until('letters here_')
      pty.write('\r')
      await pty.until(said.noted)
      if (count(log, 'noted') !== before + 1) throw new Error('the note is not in the log')
      return undefined
    },
  },
  reading: {
    use: async ({ pty }) => {
      pty.write('r')
      await pty.until(headIs(head.reading))
      pty.write('no-such-file.json\r')
      await pty.until('there is no such file')
      pty.write('\x1b')
      // A letter close behind an Escape may be read as one key with Alt.
      await pty.until((rows) => !headIs(head.reading)(rows))
      return undefined
    },
  },
  find: {
    fits: asks,
    use: async ({ pty, prompt, plan }) => {
      pty.write('/zzz')
      await pty.until('Find: zzz_')
      pty.write('\x7f\x7f\x7f')
      await pty.until(/Find: ?_/u)
      pty.write('\x1b')
      await pty.until(
        (rows) => !rows.join('\n').includes('Find:') && rows.join(' ').includes(opening(prompt, { plan })),
      )
      return undefined
    },
  },
  'find in the wiring': {
    use: async ({ pty }) => {
      pty.write('d')
      await pty.until(headIs(head.wiring))
      pty.write('/motor')
      await pty.until('Find: motor_')
      pty.write('\r')
      await pty.until((rows) => rows.some((r) => r.trim() === 'Find: motor'))
      pty.write('d')
      return undefined
    },
  },
  'mark several': {
    fits: (prompt) => spotsOf(prompt).length > 1,
    use: async ({ pty, prompt }) => {
      const [one, two] = spotsOf(prompt)
      const alike = spotsOf(prompt).filter((spot) => spot.look === one?.look).length
      const none = english.screen.mark.none.slice(0, 30)
      const [on, further] = [one, two].map((spot) => ' '.repeat(spot?.marks.length ?? 0))
      pty.write('1 2 ')
      await pty.until('2 marked:')
      // After the last mark of a place comes none.
      pty.write(`${further}1${on}`)
      await pty.until(none)
      pty.write('a')
      await pty.until(`${alike} marked:`)
      pty.write('a'.repeat(one?.marks.length ?? 0))
      await pty.until(none)
      return undefined
    },
  },
  // Explanations are only told on a first boot.
  fold: {
    use: async ({ pty }) => {
      pty.write('f')
      await pty.until((rows) =>
        [said.folded, said['not-here']].some((text) => rows.join('\n').includes(text)),
      )
      if (pty.rows().join('\n').includes(said['not-here'])) return undefined
      pty.write('f')
      await pty.until(said.unfolded)
      if (headIs(head.told)(pty.rows())) pty.write('m')
      return undefined
    },
  },
  undo: {
    fits: (_, answers) => answers > 0,
    use: async (at) => {
      await takesBack(at, 'u')
      return undefined
    },
  },
  'take an earlier answer back': {
    fits: (_, answers) => answers > 1,
    use: async (at) => {
      const { pty } = at
      pty.write('pk\r')
      await pty.until(headIs(head['take-back']))
      await pty.until(/(?:This answer is|These answers are) taken back/u)
      await takesBack(at, 'y')
      return undefined
    },
  },
  // Taken back at once, so that the job still comes to its end; after the last look it is the end.
  "can't do this here": {
    fits: (prompt) => prompt.show === 'ask' && prompt.stage !== 'proof' && prompt.tools.length === 0,
    use: async (at) => {
      const { pty, log, prompt } = at
      const before = count(log, 'replied')
      pty.write('x')
      await pty.until(() => count(log, 'replied') > before)
      await pty.until(`${english.screen.taken[0]}${english.screen.ways.cannot}`)
      if (count(log, 'ended') === 0) await takesBack(at, 'u')
      return [{ prompt, reply: { say: 'cannot' } }]
    },
  },
}

/** What is still to be used, in order. Whoever runs several jobs hands on the same one. */
export interface Turn {
  readonly used: ReadonlySet<string>
  /** The control that has waited longest of those that fit here; none where all have been used and are not to be again. */
  readonly next: (prompt: Prompt, answers: number) => Control | undefined
}

/** @param again whether it begins anew once all have been used */
export function turnOfControls(again: boolean): Turn {
  const used = new Set<string>()
  let waiting = Object.entries(CONTROLS)
  return {
    used,
    next: (prompt, answers) => {
      if (waiting.length === 0 && again) waiting = Object.entries(CONTROLS)
      const found =
        waiting.find(([, { fits }]) => fits === undefined || fits(prompt, answers)) ??
        (again ? Object.entries(CONTROLS)[0] : undefined)
      if (found === undefined) return undefined
      const [name, control] = found
      used.add(name)
      waiting = waiting.filter(([waits]) => waits !== name)
      return control
    },
  }
}
