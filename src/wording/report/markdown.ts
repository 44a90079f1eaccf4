/**
 * A page as Markdown (CommonMark with the tables and struck text that most readers know). Text from people is
 * escaped, so that a note with a pipe or a star in it neither breaks a table nor turns bold.
 */
import type { Block, Cell } from './block.ts'

/** Characters that mean something to Markdown anywhere in a line. */
export const escapeMarkdown = (text: string): string =>
  text
    .replace(/[\\`*_[\]<>|~#]/g, '\\$&')
    .replace(/&(?=#?\w+;)/g, '&amp;')
    // What would begin a list or a heading at the start of a line.
    .replace(/^([-+=])(?=\s|[-+=]|$)/, '\\$1')
    .replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2')

function cell({ text, struck, after }: Cell): string {
  const safe = escapeMarkdown(text.replaceAll('\n', ' '))
  const said = struck && safe !== '' ? `~~${safe}~~` : safe
  return after === undefined ? said : `${said} (${escapeMarkdown(after)})`
}

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`

function table(head: readonly Cell[], rows: readonly (readonly Cell[])[]): string {
  const rule = head.map(({ right }) => (right ? '---:' : '---'))
  return [row(head.map(cell)), row(rule), ...rows.map((cells) => row(cells.map(cell)))].join('\n')
}

function fenced(text: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map((run) => run[0].length))
  const fence = '`'.repeat(longest + 1)
  return `${fence}\n${text}\n${fence}`
}

function block(b: Block): string {
  switch (b.is) {
    case 'title':
      return `# ${escapeMarkdown(b.text)}`
    case 'section':
      return `## ${escapeMarkdown(b.text)}`
    case 'facts':
      return b.facts
        .map(([label, value]) => `- **${escapeMarkdown(label)}:** ${escapeMarkdown(value)}`)
        .join('\n')
    case 'text':
      return b.strong ? `**${escapeMarkdown(b.text)}**` : escapeMarkdown(b.text)
    case 'list':
      return b.items.map((item, i) => `${b.numbered ? `${i + 1}.` : '-'} ${escapeMarkdown(item)}`).join('\n')
    case 'table':
      return table(b.head, b.rows)
    case 'command':
      return fenced(b.text)
    // Drawings are for HTML; the tables beside them say the same.
    case 'chart':
    case 'wiring':
      return ''
  }
}

/** The whole page, with a line end at its end. */
export const markdownReport = (page: readonly Block[]): string =>
  `${page
    .map(block)
    .filter((text) => text !== '')
    .join('\n\n')}\n`
