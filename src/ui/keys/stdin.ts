/**
 * The keyboard as Ink reads it: the terminal's bytes, cleaned by `rawKeys`, one key a read. The terminal is put in raw
 * mode and back here, so that suspending works.
 */
import { EventEmitter } from 'node:events'
import { rawKeys } from './raw.ts'

/** A sequence that does not go on within this time was Escape, milliseconds. */
const PATIENCE = 25

export interface Keyboard {
  /** To be given to Ink in place of stdin. */
  readonly stream: NodeJS.ReadStream
  readonly start: () => void
  readonly stop: () => void
}

export function createKeyboard(stdin: NodeJS.ReadStream): Keyboard {
  const queue: string[] = []
  let rest = ''
  let timer: ReturnType<typeof setTimeout> | undefined
  const emitter = new EventEmitter()

  const deliver = (chunk: string, last: boolean): void => {
    // Escape came in a read of its own, and what follows cannot go on from it: two keys, not one with Alt.
    const apart = rest === '\x1b' && chunk !== '' && !/^[[\]OP_^X]/u.test(chunk)
    if (apart) queue.push(...rawKeys(rest, true).keys)
    const read = rawKeys(apart ? chunk : rest + chunk, last)
    rest = read.rest
    queue.push(...read.keys)
    if (queue.length > 0) emitter.emit('readable')
    clearTimeout(timer)
    if (rest !== '') timer = setTimeout(() => deliver('', true), PATIENCE)
  }
  const heard = (chunk: string | Buffer): void => deliver(String(chunk), false)

  const stream = Object.assign(emitter, {
    isTTY: true as const,
    read: (): string | null => queue.shift() ?? null,
    setEncoding: () => stream,
    setRawMode: () => stream,
    resume: () => stream,
    pause: () => stream,
    ref: () => stream,
    unref: () => stream,
  })

  return {
    stream: stream as unknown as NodeJS.ReadStream,
    start: () => {
      stdin.setEncoding('utf8')
      stdin.setRawMode?.(true)
      stdin.on('data', heard)
      stdin.resume()
    },
    stop: () => {
      clearTimeout(timer)
      rest = ''
      queue.length = 0
      stdin.off('data', heard)
      stdin.setRawMode?.(false)
      stdin.pause()
    },
  }
}
