/** The one component that listens to keys and draws: the screen's lines, printed. */
import { Box, Text, useInput } from 'ink'
import { memo, useLayoutEffect, useSyncExternalStore } from 'react'
import { splitKeys } from './keys/split.ts'
import type { Screen } from './screen.ts'
import type { Line, Span, Tone } from './text/line.ts'

/**
 * No colours: one that can be read on a light ground cannot be read on a dark one, and nobody tells which it is. The
 * terminal's own text on its own ground is what its owner can read; bold and inverse keep that contrast.
 */
const LOOK: Readonly<Record<Tone, Omit<React.ComponentProps<typeof Text>, 'children'>>> = {
  plain: {},
  strong: { bold: true },
  dim: { dimColor: true },
  picked: { inverse: true, bold: true },
}

/** Frames and rules stand back; what is to be read never does. */
const isRead = /[\p{L}\p{N}]/u

const lookOf = ({ text, tone }: Span) => LOOK[tone === 'dim' && isRead.test(text) ? 'plain' : tone]

const same = (a: Line, b: Line): boolean =>
  a.length === b.length && a.every((s, i) => s.text === b[i]?.text && s.tone === b[i]?.tone)

/** Most rows stay as they are from one frame to the next. */
const Row = memo(
  ({ line }: { readonly line: Line }) => (
    <Text wrap="truncate">
      {line.length === 0
        ? ' '
        : line.map((piece, i) => (
            <Text key={`${String(i)} ${piece.tone}`} {...lookOf(piece)}>
              {piece.text}
            </Text>
          ))}
    </Text>
  ),
  (before, now) => same(before.line, now.line),
)

export const Lines = ({ lines }: { readonly lines: readonly Line[] }) => (
  <Box flexDirection="column">
    {lines.map((line, row) => (
      // Rows of a screen have no other name than their number.
      <Row key={`row ${String(row)}`} line={line} />
    ))}
  </Box>
)

export function App({ screen }: { readonly screen: Screen }) {
  const version = useSyncExternalStore(screen.subscribe, screen.version)
  useInput((input, key) => {
    for (const single of splitKeys(input, key)) screen.key(single)
  })
  // In the same turn in which Ink has painted: a key that comes after is meant for what is seen.
  useLayoutEffect(() => {
    if (version === screen.version()) screen.drawn()
  }, [screen, version])
  return <Lines lines={screen.frame().lines} />
}
