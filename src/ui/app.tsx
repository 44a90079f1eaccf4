/** The one component that listens to keys and draws: the screen's lines, printed. */
import { Box, Text, useInput } from 'ink'
import { useLayoutEffect, useSyncExternalStore } from 'react'
import { splitKeys } from './keys/split.ts'
import type { Screen } from './screen.ts'
import type { Line, Span, Tone } from './text/line.ts'

/** Only colours that are readable on light and dark grounds, and only beside a word or a mark that says the same. */
const LOOK: Readonly<Record<Tone, Omit<React.ComponentProps<typeof Text>, 'children'>>> = {
  plain: {},
  strong: { bold: true },
  dim: { dimColor: true },
  good: { color: 'green' },
  bad: { color: 'red', bold: true },
  accent: { color: 'magenta' },
  picked: { inverse: true, bold: true },
}

function Piece({ piece, colour }: { readonly piece: Span; readonly colour: boolean }) {
  const { color, ...look } = LOOK[piece.tone]
  return (
    <Text {...look} {...(colour && color ? { color } : {})}>
      {piece.text}
    </Text>
  )
}

export function Lines({ lines, colour }: { readonly lines: readonly Line[]; readonly colour: boolean }) {
  return (
    <Box flexDirection="column">
      {lines.map((line, row) => (
        // Rows of a screen have no other name than their number.
        <Text key={`row ${String(row)}`} wrap="truncate">
          {line.length === 0
            ? ' '
            : line.map((piece, i) => (
                <Piece key={`${String(i)} ${piece.tone}`} piece={piece} colour={colour} />
              ))}
        </Text>
      ))}
    </Box>
  )
}

export function App({ screen, colour }: { readonly screen: Screen; readonly colour: boolean }) {
  const version = useSyncExternalStore(screen.subscribe, screen.version)
  useInput((input, key) => {
    for (const single of splitKeys(input, key)) screen.key(single)
  })
  // In the same turn in which Ink has painted: a key that comes after is meant for what is seen.
  useLayoutEffect(() => {
    if (version === screen.version()) screen.drawn()
  }, [screen, version])
  return <Lines lines={screen.frame().lines} colour={colour} />
}
