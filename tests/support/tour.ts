/** The tour of the README, read off the page itself: what the screen says and what is pressed, row by row, and its commands. */
import type { Pty } from './pty.ts'

export interface Stop {
  readonly sees: string
  readonly keys: readonly string[]
}

const KEYS: Readonly<Record<string, string>> = { Enter: '\r', Space: ' ' }

/** Rows of the tables with `you press`, in order. */
export function tourOf(page: string): Stop[] {
  return page.split('\n').flatMap((line): Stop[] => {
    const cells = line.split('|').map((c) => c.trim())
    const keys = [...(cells[2] ?? '').matchAll(/`([^`]+)`/gu)].map((m) => m[1] ?? '')
    const isStop = cells.length === 5 && keys.length > 0 && keys.every((k) => /^(?:\d|Enter|Space)$/u.test(k))
    return isStop ? [{ sees: cells[1] ?? '', keys }] : []
  })
}

/** Commands in the page's shell blocks that begin with `start`, without their comments. */
export const commandsOf = (page: string, start: string): string[] =>
  [...page.matchAll(/```sh\n([\s\S]*?)```/gu)]
    .flatMap((m) => (m[1] ?? '').split('\n'))
    .map((line) => line.replace(/\s+#.*$/u, '').trim())
    .filter((line) => line.startsWith(start))

const flat = (rows: readonly string[]): string => rows.join(' ').replace(/\s+/gu, ' ')

/** An Enter sooner after the last one, with no other key between, is taken for a key tapped twice; milliseconds. */
const FINGER_MS = 310

const finger = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, FINGER_MS))

/** Presses one row's keys, each once the screen has answered the one before. */
export async function doStop(pty: Pty, { sees, keys }: Stop): Promise<void> {
  await pty.until((rows) => flat(rows).includes(sees))
  for (const [i, key] of keys.entries()) {
    // A gate shows its answers only once the keyboard has been quiet.
    await pty.until((rows) => !rows.join('\n').includes('Read this first …'))
    if (key === 'Enter' && (i === 0 || keys[i - 1] === 'Enter')) await finger()
    const before = pty.rows().join('\n')
    pty.write(KEYS[key] ?? key)
    await pty.until((rows) => rows.join('\n') !== before)
  }
}
