/**
 * A menu: what is wrong, which job, which build. The list is drawn by ink-select-input, but it hears no keys: left alone it
 * takes the wrong row when two keys come close together, and takes a digit at once. Here one reducer moves the highlight and
 * Enter takes the row that it holds, so what is taken is what is highlighted.
 */
import { Box, Text, useInput } from 'ink'
import SelectInput from 'ink-select-input'
import { useRef, useState } from 'react'
import type { ScreenWords } from '../wording/screen.ts'
import type { HeldEnter } from './keys/held-enter.ts'
import type { Key } from './keys/key.ts'
import { splitKeys } from './keys/split.ts'
import { AT_TOP, type Chosen, rowsShown } from './state/menu-keys.ts'
import { type Marked, markingKey, type Taking } from './state/menu-marks.ts'
import { type Line, paragraph, wrap } from './text/line.ts'
import { middleCut, shortened } from './text/width.ts'
import { marksOf, type Size, say, sayLines } from './views/model.ts'
import { rowsAround } from './views/window.ts'

export interface Choice {
  readonly id: string
  readonly label: string
  /** A sentence, shown for the highlighted one. */
  readonly hint?: string
  /** Where several can be marked: it is only ever taken alone. */
  readonly alone?: true
}

export interface MenuProps {
  readonly choices: readonly Choice[]
  readonly title: string
  /** What is to be known before choosing, a paragraph each, above the title. */
  readonly above?: readonly string[]
  /** Which keys do what, on the last line. */
  readonly how: string
  readonly words: Pick<ScreenWords, 'filter' | 'nothingMatches' | 'more' | 'said'>
  readonly ascii: boolean
  readonly size: Size
  readonly onResize: (changed: (size: Size) => void) => void
  readonly held: HeldEnter
  /** One of the two: a menu of which one row is taken, or several. */
  readonly onChosen?: (chosen: Chosen) => void
  readonly onSeveral?: (chosen: NonNullable<Taking['chosen']>) => void
}

/** Lines that are neither rows nor what stands above: title, blanks, hint, filter, keys. */
const AROUND = 10
const MOST_HINT = 4
const MOST_TITLE = 3
const MOST_ROW = 2
/** Wider lines tire the eye. */
export const MOST_COLUMNS = 100
const LEAST_ROWS = 5

/** A row in as many lines as it may have; of what is longer, beginning and end. */
function rowLines(label: string, columns: number, mark: string): string[] {
  const lines = wrap(label, columns)
  return lines.length <= MOST_ROW
    ? lines
    : [...lines.slice(0, MOST_ROW - 1), middleCut(lines.slice(MOST_ROW - 1).join(' '), columns, mark)]
}

/** Lines of a title, and the room for what is to be known above so many rows. */
const titleOf = (title: string, ascii: boolean, columns: number): Line[] =>
  sayLines({ ascii }, title, Math.min(columns, MOST_COLUMNS)).slice(0, MOST_TITLE)

export const roomAbove = (title: string, rows: number, ascii: boolean, size: Size): number =>
  Math.max(
    1,
    size.rows - AROUND - titleOf(title, ascii, size.columns).length + 1 - Math.min(rows, LEAST_ROWS),
  )

/** The menu itself; keys of one read are taken one after the other before anything is drawn. */
export function Menu(props: MenuProps) {
  const { choices, title, above = [], how, words, ascii, onResize } = props
  const many = props.onSeveral !== undefined
  const [size, setSize] = useState(props.size)
  const listening = useRef(false)
  if (!listening.current) {
    listening.current = true
    onResize(setSize)
  }
  const held = useRef<Marked>({ highlight: AT_TOP, marks: [] })
  const [{ highlight, marks: marked }, setHeld] = useState(held.current)
  const [tooSoon, setTooSoon] = useState(false)
  const { at, filter, typing } = highlight
  const labels = choices.map((choice) => choice.label)
  const single = new Set(choices.flatMap(({ alone }, i) => (alone || !many ? [i] : [])))
  const gone = useRef(false)
  const take = (key: Key): void => {
    if (gone.current) return
    const { marked, chosen } = markingKey(held.current, key, labels, single)
    held.current = marked
    setTooSoon(false)
    setHeld(marked)
    if (chosen === undefined) return
    gone.current = typeof chosen === 'object'
    told(props, chosen)
  }
  useInput((input, ink) => {
    for (const key of splitKeys(input, ink)) {
      if (key.key === 'enter') {
        // The same as long as this menu stands.
        props.held.pressed(
          listening,
          () => take(key),
          () => setTooSoon(true),
        )
      } else {
        props.held.broken()
        take(key)
      }
    }
  })
  const box = (choice: number): string =>
    !many ? '' : single.has(choice) ? '    ' : marked.includes(choice) ? '[x] ' : '[ ] '
  const marks = marksOf({ ascii })
  const columns = Math.min(size.columns, MOST_COLUMNS)
  const titleLines = titleOf(title, ascii, size.columns)
  const known = above
    .flatMap((text) => sayLines({ ascii }, text, columns))
    .slice(-roomAbove(title, choices.length, ascii, size))
  const limit = Math.max(1, size.rows - AROUND - (titleLines.length - 1) - known.length)
  const digits = String(choices.length).length
  const shown = rowsShown(labels, filter)
  const indent = digits + 2 + (many ? 4 : 0)
  const rows = shown.map((choice) =>
    rowLines(say({ ascii }, labels[choice] ?? ''), columns - 4 - indent, marks.cut),
  )
  // The part of the list that is seen, with the highlighted row in it; what lies above and below is counted.
  const [from, last] = rowsAround(
    rows.map((row) => row.length),
    at,
    limit,
  )
  const below = shown.length - 1 - last
  const items = shown.slice(from, last + 1).map((choice, i) => ({
    value: choices[choice]?.id ?? '',
    label: `${String(from + i + 1).padStart(digits)}  ${box(choice)}${rows[from + i]?.join(`\n${' '.repeat(indent)}`)}`,
  }))
  const current = choices[shown[at] ?? -1]
  // What did not fit on its row is said in full below.
  const cut = current !== undefined && rows[at]?.join(' ') !== say({ ascii }, current.label)
  const hint = [...(cut ? [current.label] : []), ...(current?.hint ? [current.hint] : [])].join(' ')
  const text = (what: string): string => shortened(say({ ascii }, what), columns, marks.cut)
  return (
    <Box flexDirection="column" height={Math.max(1, size.rows - 1)}>
      {known.map((line, row) => (
        <Text key={`known ${String(row)}`} wrap="truncate">
          {line.map((s) => s.text).join('') || ' '}
        </Text>
      ))}
      {known.length > 0 ? <Text> </Text> : null}
      {titleLines.map((line, row) => (
        <Text key={`title ${String(row)}`} bold wrap="truncate">
          {line.map((s) => s.text).join('')}
        </Text>
      ))}
      <Text wrap="truncate">
        {typing || filter !== ''
          ? text(words.filter(filter) + (typing ? '_' : ''))
          : from > 0
            ? text(`  ${marks.up} ${words.more(from)}`)
            : ' '}
      </Text>
      {items.length === 0 ? <Text wrap="truncate">{text(words.nothingMatches)}</Text> : null}
      <SelectInput
        // Made anew for each place of the highlight: the list has no memory of its own that could differ.
        key={`at ${at} from ${from} of ${limit} in ${filter}`}
        items={items}
        initialIndex={at - from}
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
      <Text dimColor>{below > 0 ? text(`  ${marks.down} ${words.more(below)}`) : ' '}</Text>
      {(hint ? paragraph(say({ ascii }, hint), columns - 2).slice(0, MOST_HINT) : []).map((line, row) => (
        <Text key={`hint ${String(row)}`} dimColor wrap="truncate">
          {`  ${line.map((s) => s.text).join('')}`}
        </Text>
      ))}
      <Box flexGrow={1} />
      <Text bold={tooSoon} wrap="truncate">
        {text(tooSoon ? words.said['held-key'] : how)}
      </Text>
    </Box>
  )
}

/** A menu of one row tells it as one. */
function told({ onChosen, onSeveral }: MenuProps, chosen: NonNullable<Taking['chosen']>): void {
  if (onSeveral) onSeveral(chosen)
  else if (typeof chosen === 'object' && 'take' in chosen) onChosen?.({ take: chosen.take[0] ?? 0 })
  else onChosen?.(chosen)
}
