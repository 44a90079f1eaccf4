/**
 * Menus at a terminal: what is wrong, which job, which build, the next step of an exercise. One page of the terminal for as
 * many of them as come one after the other.
 */
import { Text, useInput } from 'ink'
import { useSyncExternalStore } from 'react'
import type { Language } from '../wording/language.ts'
import { type Choice, Menu, MOST_COLUMNS, roomAbove } from './menu.tsx'
import { type Mounted, mount } from './mount.tsx'
import type { Chosen } from './state/menu-keys.ts'
import { lastThatFit, lineText } from './text/line.ts'
import { sayLines } from './views/model.ts'

export type { Choice }

export interface ChooserOptions {
  readonly title?: string
  readonly above?: readonly string[]
  readonly language: Language
  readonly ascii: boolean
  readonly stdout: NodeJS.WriteStream
  readonly stdin: NodeJS.ReadStream
}

/** What was taken; or null, with the exit code of leaving (0, 130, or of a signal) and whether it was only one level back. */
export type Taken =
  | { readonly id: string; readonly code: 0 }
  | { readonly id: null; readonly code: number; readonly back: boolean }

/** What is to be known, a paragraph each; what was read before stands there only as far as there is room. */
export interface Above {
  readonly texts: readonly string[]
  readonly wasRead?: boolean
}

export interface Menus {
  /** Shows a menu in the place of the one before. */
  readonly choose: (choices: readonly Choice[], title: string, above?: Above) => Promise<Taken>
  /** Gives the terminal back. */
  readonly close: () => Promise<void>
}

interface Shown {
  readonly nth: number
  readonly choices: readonly Choice[]
  readonly title: string
  readonly above?: readonly string[]
  readonly taken: (taken: Taken) => void
}

interface PageProps {
  readonly subscribe: (changed: () => void) => () => void
  readonly shown: () => Shown | undefined
  readonly there: Mounted
  readonly options: ChooserOptions
  readonly chosen: (what: Chosen) => void
}

function Page({ subscribe, shown, there, options, chosen }: PageProps) {
  const menu = useSyncExternalStore(subscribe, shown)
  // Between two menus somebody has to listen, or the terminal would be let go for a moment.
  useInput(() => {})
  if (!menu) return <Text> </Text>
  return (
    <Menu
      // A new menu begins at its top.
      key={menu.nth}
      choices={menu.choices}
      title={menu.title}
      {...(menu.above ? { above: menu.above } : {})}
      words={options.language.screen}
      how={options.language.screen.choose.how}
      ascii={options.ascii}
      size={there.size()}
      onResize={there.onResize}
      held={there.held}
      onChosen={chosen}
    />
  )
}

/** Menus one after the other on one page of the terminal, which is taken and given back only once. */
export function openMenus(options: ChooserOptions): Menus {
  let shown: Shown | undefined
  let ended: number | undefined
  let mounted: Mounted | undefined
  const listeners = new Set<() => void>()

  function show(next: Shown): void {
    shown = next
    for (const listener of listeners) listener()
  }
  function answer(taken: Taken): void {
    const waits = shown
    // It stands there, deaf, until the next one comes.
    if (waits) shown = { ...waits, taken: () => {} }
    waits?.taken(taken)
  }
  function chosen(what: Chosen): void {
    if (what === 'suspend') mounted?.suspend()
    else if (what === 'redraw') mounted?.redraw()
    else if ('take' in what) {
      const id = shown?.choices[what.take]?.id
      if (id !== undefined) answer({ id, code: 0 })
    } else {
      const code = what.leave === 'interrupt' ? 130 : 0
      answer({ id: null, code, back: what.leave === 'back' })
    }
  }

  // On the terminal from the first menu on, so that one who never chooses never sees it change.
  let finished: Promise<number> | undefined
  function open(): void {
    finished ??= mount(options, (there) => {
      mounted = there
      const subscribe = (changed: () => void) => {
        listeners.add(changed)
        return () => listeners.delete(changed)
      }
      return (
        <Page subscribe={subscribe} shown={() => shown} there={there} options={options} chosen={chosen} />
      )
    }).then((code) => {
      ended = code
      answer({ id: null, code, back: false })
      return code
    })
  }

  const one = (choices: readonly Choice[], title: string, above?: readonly string[]): Promise<Taken> =>
    new Promise((taken, failed) => {
      if (ended !== undefined) return taken({ id: null, code: ended, back: false })
      show({ nth: (shown?.nth ?? 0) + 1, choices, title, ...(above ? { above } : {}), taken })
      open()
      finished?.catch(failed)
    })

  return {
    choose: async (choices, title, { texts, wasRead = false } = { texts: [] }) => {
      const { ascii, language, stdout } = options
      const size = { columns: stdout.columns || 80, rows: stdout.rows || 24 }
      const all = texts.map((t) => sayLines({ ascii }, t, Math.min(size.columns, MOST_COLUMNS)).map(lineText))
      const room = roomAbove(title, choices.length, ascii, size)
      const lines = (wasRead ? lastThatFit(all, room) : all).flat()
      const goOn = [{ id: 'go-on', label: language.screen.choose.readOn }]
      // What has no room above the rows is read on pages before; the last of it stands there.
      while (lines.length > room) {
        const page = lines.splice(0, Math.min(roomAbove(title, 1, ascii, size), lines.length - 1))
        const read = await one(goOn, title, page)
        if (read.id === null) return read
      }
      return one(choices, title, lines)
    },
    close: async () => {
      mounted?.end(0)
      await finished
    },
  }
}

/** Shows one menu. */
export async function runChooser(choices: readonly Choice[], options: ChooserOptions): Promise<Taken> {
  const menus = openMenus(options)
  const taken = await menus.choose(choices, options.title ?? '', { texts: options.above ?? [] })
  await menus.close()
  return taken
}

/** The symptoms as a menu, in the language's words. */
export const symptomChoices = (ids: readonly string[], language: Language): Choice[] =>
  ids.map((id) => {
    const { name, means } = language.symptom(id)
    return { id, label: name, hint: means }
  })

/** Asks what is wrong; resolves as `runChooser`. */
export const chooseSymptom = (ids: readonly string[], options: Omit<ChooserOptions, 'title'>) =>
  runChooser(symptomChoices(ids, options.language), {
    ...options,
    title: options.language.screen.choose.symptom,
  })
