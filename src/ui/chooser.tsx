/**
 * A menu: what is wrong, which job, which build. The list is drawn by ink-select-input, but it hears no keys: left alone it
 * takes the wrong row when two keys come close together, and takes a digit at once. Here one reducer moves the highlight and
 * Enter takes the row that it holds, so what is taken is what is highlighted.
 */
import { Box, Text, useInput } from 'ink'
import SelectInput from 'ink-select-input'
import { useRef, useState } from 'react'
import type { Language } from '../wording/language.ts'
import type { Key } from './keys/key.ts'
import { splitKeys } from './keys/split.ts'
import { type Mounted, mount } from './mount.tsx'
import { paragraph } from './text/line.ts'
import { middleCut, shortened } from './text/width.ts'
import { marksOf, type Size, say } from './views/model.ts'

export interface Choice {
  readonly id: string
  readonly label: string
  /** A sentence, shown for the highlighted one. */
  readonly hint?: string
}

export interface ChooserOptions {
  readonly title: string
  readonly language: Language
  readonly ascii: boolean
  readonly colour: boolean
  readonly stdout: NodeJS.WriteStream
  readonly stdin: NodeJS.ReadStream
}

/** Where the highlight is, and the digits typed so far of a number of two. */
export interface Highlight {
  readonly at: number
  readonly digits: string
}

export type Chosen =
  | { readonly take: number }
  | { readonly leave: 'end' | 'interrupt' }
  | 'suspend'
  | 'redraw'

/** One key of a menu with `count` rows: the highlight after it, and what it ends in, if it does. Digits only highlight. */
export function chooserKey(
  before: Highlight,
  key: Key,
  count: number,
): { readonly highlight: Highlight; readonly chosen?: Chosen } {
  const to = (at: number, digits = ''): { highlight: Highlight } => ({
    highlight: { at: Math.max(0, Math.min(count - 1, at)), digits },
  })
  const still = { ...before, digits: '' }
  switch (key.key) {
    case 'up':
    case 'left':
      return to(before.at - 1)
    case 'down':
    case 'right':
    case 'tab':
      return to(before.at + 1)
    case 'home':
    case 'page-up':
      return to(0)
    case 'end':
    case 'page-down':
      return to(count - 1)
    case 'enter':
      return count === 0 ? { highlight: still } : { highlight: still, chosen: { take: before.at } }
    case 'escape':
      return { highlight: still, chosen: { leave: 'end' } }
    case 'interrupt':
      return { highlight: still, chosen: { leave: 'interrupt' } }
    case 'suspend':
    case 'redraw':
      return { highlight: still, chosen: key.key }
    case 'erase':
      return { highlight: still }
    case 'char':
      break
  }
  if (key.char === 'j') return to(before.at + 1)
  if (key.char === 'k') return to(before.at - 1)
  if (key.char === 'q') return { highlight: still, chosen: { leave: 'end' } }
  for (const digits of /^\d$/.test(key.char) ? [before.digits + key.char, key.char] : []) {
    const number = Number(digits)
    if (number >= 1 && number <= count) return to(number - 1, digits)
  }
  return { highlight: still }
}

interface MenuProps {
  readonly choices: readonly Choice[]
  readonly title: string
  /** Which keys do what, on the last line. */
  readonly how: string
  readonly ascii: boolean
  readonly size: Size
  readonly onResize: (changed: (size: Size) => void) => void
  readonly onChosen: (chosen: Chosen) => void
}

/** The menu itself; keys of one read are taken one after the other before anything is drawn. */
export function Menu({ choices, title, how, ascii, size: first, onResize, onChosen }: MenuProps) {
  const [size, setSize] = useState(first)
  const listening = useRef(false)
  if (!listening.current) {
    listening.current = true
    onResize(setSize)
  }
  const held = useRef<Highlight>({ at: 0, digits: '' })
  const [at, setAt] = useState(0)
  useInput((input, ink) => {
    for (const key of splitKeys(input, ink)) {
      const { highlight, chosen } = chooserKey(held.current, key, choices.length)
      held.current = highlight
      if (chosen !== undefined) {
        onChosen(chosen)
        return
      }
    }
    setAt(held.current.at)
  })
  const marks = marksOf({ ascii })
  const columns = Math.min(size.columns, 100)
  const limit = Math.max(1, size.rows - 10)
  const digits = String(choices.length).length
  const items = choices.map((choice, i) => ({
    value: choice.id,
    label: middleCut(
      `${String(i + 1).padStart(digits)}  ${say({ ascii }, choice.label)}`,
      columns - 4,
      marks.cut,
    ),
  }))
  const hint = choices[at]?.hint
  return (
    <Box flexDirection="column" height={Math.max(1, size.rows - 1)}>
      <Text bold wrap="truncate">
        {shortened(say({ ascii }, title), columns, marks.cut)}
      </Text>
      <Text> </Text>
      <SelectInput
        // Made anew for each place of the highlight: the list has no memory of its own that could differ.
        key={`at ${at} of ${limit}`}
        items={items}
        initialIndex={at}
        limit={limit}
        isFocused={false}
        indicatorComponent={({ isSelected = false }) => (
          <Text bold>{isSelected ? `${marks.pointer} ` : '  '}</Text>
        )}
        itemComponent={({ isSelected = false, label }) => (
          <Text bold={isSelected} inverse={isSelected} wrap="truncate">
            {label}
          </Text>
        )}
      />
      <Text> </Text>
      {(hint ? paragraph(say({ ascii }, hint), columns - 2).slice(0, 3) : []).map((line, row) => (
        <Text key={`hint ${String(row)}`} dimColor wrap="truncate">
          {`  ${line.map((s) => s.text).join('')}`}
        </Text>
      ))}
      <Box flexGrow={1} />
      <Text wrap="truncate">{shortened(say({ ascii }, how), columns, marks.cut)}</Text>
    </Box>
  )
}

/** Shows a menu and resolves to the id taken, or to null with the exit code of leaving (0, 130, or of a signal). */
export async function runChooser(
  choices: readonly Choice[],
  options: ChooserOptions,
): Promise<{ readonly id: string; readonly code: 0 } | { readonly id: null; readonly code: number }> {
  let id: string | null = null
  const chosen =
    (mounted: Mounted) =>
    (what: Chosen): void => {
      if (what === 'suspend') mounted.suspend()
      else if (what === 'redraw') mounted.redraw()
      else if ('take' in what) {
        id = choices[what.take]?.id ?? null
        mounted.end(0)
      } else mounted.end(what.leave === 'interrupt' ? 130 : 0)
    }
  const code = await mount(options, (mounted) => (
    <Menu
      choices={choices}
      title={options.title}
      how={options.language.screen.choose.how}
      ascii={options.ascii}
      size={mounted.size()}
      onResize={mounted.onResize}
      onChosen={chosen(mounted)}
    />
  ))
  return id === null ? { id, code } : { id, code: 0 }
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
