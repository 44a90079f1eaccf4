import { PassThrough } from 'node:stream'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { ESCAPE } from '../../../src/ui/keys/raw.ts'
import { createKeyboard } from '../../../src/ui/keys/stdin.ts'
import { waitFor } from '../../support/wait-for.ts'

function keyboard() {
  const terminal = new PassThrough() as unknown as NodeJS.ReadStream & { write: (bytes: string) => void }
  const { stream, start, stop } = createKeyboard(terminal)
  const keys: string[] = []
  stream.on('readable', () => {
    for (let key = stream.read() as string | null; key !== null; key = stream.read() as string | null)
      keys.push(key)
  })
  start()
  return { type: (bytes: string) => void terminal.write(bytes), keys, stop }
}

afterEach(() => void vi.useRealTimers())

describe('the keyboard', () => {
  test('gives single keys, one a read', async () => {
    const { type, keys } = keyboard()
    type('jj\r')
    await waitFor(() => expect(keys).toEqual(['j', 'j', '\r']))
  })

  test('Escape by itself is given after a moment', async () => {
    const { type, keys } = keyboard()
    type('\x1b')
    await waitFor(() => expect(keys).toEqual([ESCAPE]))
  })

  test('Escape and a key in a read of its own are two keys', async () => {
    const { type, keys } = keyboard()
    type('\x1b')
    await new Promise((resolve) => setImmediate(resolve))
    type('q')
    await waitFor(() => expect(keys).toEqual([ESCAPE, 'q']))
  })

  test('an arrow that comes in two reads is an arrow', async () => {
    // However long the machine is held up between the two.
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
    const { type, keys } = keyboard()
    type('\x1b')
    await new Promise((resolve) => setImmediate(resolve))
    type('[B')
    await new Promise((resolve) => setImmediate(resolve))
    expect(keys).toEqual(['\x1b[B'])
  })

  test('when it is stopped it hears nothing more', async () => {
    const { type, keys, stop } = keyboard()
    type('j')
    await waitFor(() => expect(keys).toEqual(['j']))
    stop()
    type('k')
    await new Promise((resolve) => setImmediate(resolve))
    expect(keys).toEqual(['j'])
  })
})
