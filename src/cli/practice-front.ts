/** What an exercise is shown on: menus on the screen, or line by line. */

import { runChoice } from '../plain/choice.ts'
import { wrap } from '../plain/wrap.ts'
import type { ExitCode, Given, Shell } from './command.ts'
import { factsOf, frontEndFor, prepareForScreen, talkOf, typedLines } from './front-end.ts'
import type { Choose } from './practice-talk.ts'

interface Front {
  readonly choose: Choose
  /** Prints what stands below the prompt at the end. */
  readonly tell: (lines: readonly string[]) => void
  /** Exit code once it was left. */
  readonly code: () => ExitCode
  readonly close: () => Promise<void>
}

const GO_ON = 'go-on'
/** So much of what was seen stands above a menu; the pages before had it all. */
const SEEN_ABOVE = 2

function byLines(given: Given, shell: Shell): Front {
  const ends = talkOf(shell, typedLines(shell), given.flags.has('ascii'))
  const tell = (lines: readonly string[]): void => {
    for (const line of lines) ends.write(`${wrap(line, ends.columns)}\n`)
  }
  return {
    tell,
    code: () => 0,
    close: async () => {},
    choose: async ({ title, fresh, beware, choices }) => {
      tell([...fresh, ...beware, ''])
      return (await runChoice(title, choices, ends, shell.language)) ?? undefined
    },
  }
}

async function onScreen(given: Given, shell: Shell): Promise<Front> {
  prepareForScreen(shell)
  const { openMenus } = await import('../ui/chooser.tsx')
  const { language, stdin, stdout } = shell
  const ascii = given.flags.has('ascii') || !factsOf(shell).unicode
  const menus = openMenus({ language, ascii, stdin, stdout })
  let code: ExitCode = 0
  const take = async (
    title: string,
    above: Parameters<typeof menus.choose>[2],
    choices: Parameters<typeof menus.choose>[0],
  ): Promise<string | undefined> => {
    const taken = await menus.choose(choices, title, above)
    if (taken.id !== null) return taken.id
    code = taken.code as ExitCode
    return taken.back ? 'back' : undefined
  }
  return {
    tell: byLines(given, shell).tell,
    code: () => code,
    close: menus.close,
    choose: async ({ title, fresh, freshTitle, seen, beware, choices }) => {
      // What the bench answers is read before the next thing is asked, however long that takes.
      if (fresh.length > 0) {
        const read = await take(freshTitle, { texts: fresh }, [{ id: GO_ON, label: language.practice.goOn }])
        if (read === undefined) return undefined
      }
      const rows = choices.map(({ id, name, hint }) => ({ id, label: name, hint }))
      const above = beware.length > 0 ? { texts: beware } : { texts: seen.slice(-SEEN_ABOVE), wasRead: true }
      return take(title, above, rows)
    },
  }
}

/** The front end that the terminal and the options call for. */
export const frontFor = async (given: Given, shell: Shell): Promise<Front> =>
  frontEndFor(given, shell) === 'screen' ? onScreen(given, shell) : byLines(given, shell)
