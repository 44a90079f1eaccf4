/**
 * Runs the built program over its line protocol and, when asked to, kills it without warning (SIGKILL, as a power cut
 * would) at a chosen point: at a message, right after a reply was handed in, or when its log has so many lines. The
 * log is what is left to look at.
 */
import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'

export const PROGRAM = fileURLToPath(new URL('../../dist/whichlead.mjs', import.meta.url))

export type Message = Readonly<Record<string, unknown>> & { readonly type: string }
export type Said = Readonly<Record<string, unknown>>

export type KillPoint =
  /** When the nth message (from 1) has come, before anything is said to it. */
  | { readonly atMessage: number }
  /** The moment the nth reply (from 1) has been handed over; the program may be anywhere in taking it. */
  | { readonly afterReply: number }
  /** As soon as the log is seen to have n whole lines. */
  | { readonly atLogLines: number; readonly log: string }

export interface LineRun {
  readonly args: readonly string[]
  /** What to say to a message; undefined says nothing. */
  readonly reply: (message: Message, all: readonly Message[]) => Said | undefined
  readonly kill?: KillPoint
  readonly program?: string
  readonly cwd?: string
  readonly env?: Readonly<Record<string, string>>
  /** A run that hangs is ended after this; a failure of the test. */
  readonly deadlineMs?: number
}

export interface LineResult {
  readonly messages: readonly Message[]
  readonly said: readonly Said[]
  readonly code: number | null
  readonly signal: NodeJS.Signals | null
  readonly stderr: string
}

/** Whole lines in a file; 0 where there is none. */
export function wholeLines(path: string): number {
  try {
    return readFileSync(path).filter((byte) => byte === 10).length
  } catch {
    return 0
  }
}

/** The run to its end, by itself or by the kill. */
export function runLines(run: LineRun): Promise<LineResult> {
  const child: ChildProcessWithoutNullStreams = spawn(
    process.env.WHICHLEAD_NODE ?? process.execPath,
    [run.program ?? PROGRAM, ...run.args],
    {
      cwd: run.cwd,
      env: { PATH: process.env.PATH ?? '', ...run.env },
    },
  )
  const messages: Message[] = []
  const said: Said[] = []
  let stderr = ''
  const { kill } = run
  const watch =
    kill !== undefined && 'atLogLines' in kill
      ? setInterval(() => {
          if (wholeLines(kill.log) >= kill.atLogLines) child.kill('SIGKILL')
        }, 1)
      : undefined
  const deadline = setTimeout(() => child.kill('SIGABRT'), run.deadlineMs ?? 50_000)
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    stderr += text
  })
  // The pipe breaks when the program is gone; that is what is being tested.
  child.stdin.on('error', () => {})
  createInterface({ input: child.stdout }).on('line', (line) => {
    // The last line of a killed program may be half a one.
    const message = parseMessage(line)
    if (message === undefined) return
    messages.push(message)
    if (kill !== undefined && 'atMessage' in kill && messages.length >= kill.atMessage) {
      child.kill('SIGKILL')
      return
    }
    const answer = run.reply(message, messages)
    if (answer === undefined) return
    said.push(answer)
    child.stdin.write(`${JSON.stringify(answer)}\n`)
    if (kill !== undefined && 'afterReply' in kill && said.length >= kill.afterReply) child.kill('SIGKILL')
  })
  return new Promise((resolve, reject) => {
    child.on('error', reject)
    child.on('close', (code, signal) => {
      clearInterval(watch)
      clearTimeout(deadline)
      if (signal === 'SIGABRT')
        reject(new Error(`the program hung: ${JSON.stringify(messages.at(-1))} ${stderr}`))
      else resolve({ messages, said, code, signal, stderr })
    })
  })
}

function parseMessage(line: string): Message | undefined {
  try {
    return JSON.parse(line) as Message
  } catch {
    return undefined
  }
}
