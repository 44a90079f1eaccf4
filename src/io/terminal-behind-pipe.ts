/** The terminal that a person sits at while the program's own input is a pipe. */
import { openSync } from 'node:fs'
import { ReadStream } from 'node:tty'

/** Undefined where there is none, or where the system has no name for it. */
export function terminalBehindPipe(platform: NodeJS.Platform): NodeJS.ReadStream | undefined {
  if (platform === 'win32') return undefined
  try {
    return new ReadStream(openSync('/dev/tty', 'r+')) as unknown as NodeJS.ReadStream
  } catch {
    return undefined
  }
}
