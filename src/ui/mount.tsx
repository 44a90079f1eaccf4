/**
 * Puts a component on the terminal's alternate page and takes it away again, whatever happens: an end, Ctrl+C, a signal
 * from outside, an exception. Ink lays out and keeps the components; painting and keys go through `terminal` and `keys`.
 */
import { EventEmitter } from 'node:events'
import { type Instance, render } from 'ink'
import type { ReactElement } from 'react'
import { type HeldEnter, heldEnterOf } from './keys/held-enter.ts'
import { createKeyboard } from './keys/stdin.ts'
import { createPainter } from './terminal.ts'
import type { Size } from './views/model.ts'

export interface Streams {
  readonly stdout: NodeJS.WriteStream
  readonly stdin: NodeJS.ReadStream
}

export interface Mounted {
  readonly size: () => Size
  readonly onResize: (changed: (size: Size) => void) => void
  readonly held: HeldEnter
  readonly suspend: () => void
  readonly redraw: () => void
  /** Ends with an exit code. */
  readonly end: (code: number) => void
  /** Ends with an exception, for `main` to report. */
  readonly fail: (error: unknown) => void
}

/** Exit codes as a shell gives them to a program that ended by a signal. */
const SIGNALS = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const

/** Runs until `end` or `fail`; resolves to the exit code with the terminal as it was before. */
export async function mount(streams: Streams, draw: (mounted: Mounted) => ReactElement): Promise<number> {
  const { stdout, stdin } = streams
  const painter = createPainter(stdout)
  const keyboard = createKeyboard(stdin)
  const sized = new Set<(size: Size) => void>()
  const size = (): Size => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 })
  let finish: (code: number) => void = () => {}
  let fail: (error: unknown) => void = () => {}
  const finished = new Promise<number>((resolve, reject) => {
    finish = resolve
    fail = reject
  })

  const resized = (): void => {
    painter.afresh()
    for (const changed of sized) changed(size())
  }
  const suspend = (): void => {
    if (process.platform === 'win32') return
    keyboard.stop()
    painter.leave()
    // The whole group, as the terminal itself would do it: a parent such as npm must stop too.
    process.kill(0, 'SIGTSTP')
    // Goes on here once the shell has brought the program back.
    setTimeout(back, 0)
  }
  const back = (): void => {
    keyboard.start()
    painter.enter()
    resized()
  }
  const restore = (): void => {
    keyboard.stop()
    painter.leave()
  }
  const signalled = (signal: keyof typeof SIGNALS): void => finish(SIGNALS[signal])
  const continued = (): void => resized()
  // The terminal has gone away.
  const hungUp = (): void => finish(SIGNALS.SIGHUP)
  const crashed = (error: unknown): void => {
    restore()
    fail(error)
  }

  // Ink in its debug form writes each frame as it is, without moving the cursor: that is what the painter needs.
  const canvas = Object.defineProperties(
    Object.assign(new EventEmitter(), {
      write: (frame: string): boolean => {
        if (frame !== '') painter.paint(frame)
        return true
      },
    }),
    { columns: { get: () => size().columns }, rows: { get: () => size().rows } },
  )

  let ink: Instance | undefined
  stdout.on('resize', resized)
  stdin.on('end', hungUp)
  process.on('exit', restore)
  process.on('SIGCONT', continued)
  process.prependListener('uncaughtException', crashed)
  for (const signal of Object.keys(SIGNALS)) process.on(signal, signalled)
  try {
    painter.enter()
    keyboard.start()
    const mounted: Mounted = {
      size,
      onResize: (changed) => sized.add(changed),
      held: heldEnterOf(stdin),
      suspend,
      redraw: painter.afresh,
      end: finish,
      fail,
    }
    ink = render(draw(mounted), {
      stdout: canvas as unknown as NodeJS.WriteStream,
      stdin: keyboard.stream,
      debug: true,
      exitOnCtrlC: false,
      patchConsole: false,
    })
    // A component that throws makes Ink end with the exception.
    ink.waitUntilExit().then(() => finish(0), fail)
    return await finished
  } finally {
    restore()
    ink?.unmount()
    stdout.off('resize', resized)
    stdin.off('end', hungUp)
    process.off('exit', restore)
    process.off('SIGCONT', continued)
    process.off('uncaughtException', crashed)
    for (const signal of Object.keys(SIGNALS)) process.off(signal, signalled)
  }
}
