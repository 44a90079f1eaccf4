/**
 * Every control of the screen that lies beside an answer, as a person at the keys uses it: what it opens is seen, and the
 * question stands there again afterwards. Keys only; what was said is read back from the log by whoever calls.
 */
import type { Prompt } from '../../src/core/checks/prompt.ts'
import type { Pty } from './pty.ts'

/** Opened and closed by the same key; what is seen while it is open. */
const PANES = {
  why: ['w', 'Why this step'],
  'so far': ['p', 'So far'],
  help: ['?', 'Keys that work here'],
  wiring: ['d', 'Wiring of the build'],
  expected: ['e', 'Seen, and what the plan says'],
} as const

/** Asks before it ends anything; any letter but y means no. */
const ASKS = { leave: ['q', 'Leave?'], 'hand over': ['h', 'Hand over?'] } as const

export const CONTROLS = [
  ...(Object.keys(PANES) as (keyof typeof PANES)[]),
  ...(Object.keys(ASKS) as (keyof typeof ASKS)[]),
  'note',
  'pins',
  'remarks',
  'find',
  'find in the wiring',
] as const

export type Control = (typeof CONTROLS)[number]

export interface At {
  readonly pty: Pty
  readonly prompt: Prompt
  /** Resolves when the question stands on the screen. */
  readonly asked: () => Promise<unknown>
}

/** Scrolls what is open to its end and back: whatever is drawn meanwhile is looked at by who watches the screen. */
const SCROLLED = 'Gjjkk  g'

const isPane = (control: Control): control is keyof typeof PANES => control in PANES
const isAsk = (control: Control): control is keyof typeof ASKS => control in ASKS

export async function use(control: Control, { pty, prompt, asked }: At): Promise<void> {
  if (isPane(control)) {
    const [key, head] = PANES[control]
    pty.write(key)
    await pty.until((rows) => rows[2]?.startsWith(head) ?? false)
    pty.write(`${control === 'so far' ? 'kkjj' : SCROLLED}${key}`)
  } else if (isAsk(control)) {
    const [key, head] = ASKS[control]
    pty.write(key)
    await pty.until((rows) => rows[2]?.startsWith(head) ?? false)
    pty.write('z')
  } else await others[control]({ pty, prompt, asked })
  await asked()
}

const others: Readonly<
  Record<Exclude<Control, keyof typeof PANES | keyof typeof ASKS>, (at: At) => Promise<unknown>>
> = {
  note: async ({ pty }) => {
    pty.write('n')
    await pty.until('A note for the log')
    pty.write('seen by torchlight, q and u are only letters here')
    await pty.until('letters here_')
    pty.write('\r')
    await pty.until('Note kept.')
  },
  // Not every question is about a connector; then it says so.
  pins: async ({ pty }) => {
    pty.write('v')
    await pty.until(/^The connector|There is no connector to draw/mu)
    if (pty.rows()[2]?.startsWith('The connector')) pty.write(`${SCROLLED}v`)
  },
  // Nothing may have been told.
  remarks: async ({ pty }) => {
    pty.write('m')
    await pty.until(
      (rows) => rows[2]?.startsWith('Remarks') === true || rows.join('\n').includes('That key does nothing'),
    )
    if (pty.rows()[2]?.startsWith('Remarks')) pty.write('Ggm')
  },
  find: async ({ pty, prompt }) => {
    if (prompt.show === 'do') return
    pty.write('/zzz')
    await pty.until('Find: zzz_')
    pty.write('\x1b')
    await pty.until((rows) => !rows.join('\n').includes('Find:'))
  },
  'find in the wiring': async ({ pty }) => {
    pty.write('d')
    await pty.until((rows) => rows[2]?.startsWith('Wiring of the build') ?? false)
    pty.write('/motor')
    await pty.until('Find: motor_')
    pty.write('\r')
    await pty.until((rows) => rows.some((r) => r.trim() === 'Find: motor'))
    pty.write('d')
  },
}
