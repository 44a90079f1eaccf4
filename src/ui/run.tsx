/** The screen for one job: opens it, runs it to its end, closes the log and prints the record below the prompt. */
import type { Session } from '../job/view.ts'
import type { Language } from '../wording/language.ts'
import { App } from './app.tsx'
import { lookingAhead } from './look-ahead.ts'
import { mount } from './mount.tsx'
import { recordText } from './record.ts'
import { createScreen, type Surroundings } from './screen.ts'

export interface UiOptions {
  readonly language: Language
  readonly ascii: boolean
  readonly stdout: NodeJS.WriteStream
  readonly stdin: NodeJS.ReadStream
  /** How long the keyboard must be quiet before a power gate takes an answer, milliseconds. */
  readonly settleMs?: number
  readonly fetch: Surroundings['fetch']
}

/** Long enough that nobody has read a gate in it; a held key repeats faster than this. */
const SETTLE_MS = 400

/**
 * Runs a job on the screen. Both streams must be terminals. Resolves to the exit code: 0 at an end or when left, 130 after
 * Ctrl+C, 128 + n after a signal; the log is closed and the terminal is as it was.
 */
export async function runUi(session: Session, options: UiOptions): Promise<number> {
  const { stdout, stdin, language } = options
  let code = 70
  let close = (): void => {}
  try {
    code = await mount({ stdout, stdin }, (mounted) => {
      const drawing = createScreen(session, mounted.size(), {
        language,
        ascii: options.ascii,
        settleMs: options.settleMs ?? SETTLE_MS,
        held: mounted.held,
        leave: (how) => mounted.end(how === 'interrupt' ? 130 : 0),
        suspend: mounted.suspend,
        redraw: mounted.redraw,
        failed: mounted.fail,
        fetch: options.fetch,
      })
      const screen = lookingAhead(drawing, session, () => performance.now())
      close = screen.close
      mounted.onResize(screen.resize)
      return <App screen={screen} />
    })
  } finally {
    close()
    await session.close()
  }
  stdout.write(recordText(session.view(), language, options.ascii, stdout.columns || 80))
  return code
}
