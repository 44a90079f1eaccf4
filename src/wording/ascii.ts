/** Text for terminals that have plain ASCII only. */

const TWINS: Readonly<Record<string, string>> = {
  '’': "'",
  '‘': "'",
  '“': '"',
  '”': '"',
  '…': '...',
  '–': '-',
  '—': '-',
  '×': 'x',
  '°': ' deg ',
  µ: 'u',
  Ω: ' ohm',
  '±': '+/-',
  '→': '->',
  '✖': 'x',
  '⚠': '!',
  '·': '-',
}

const bare = (char: string): string => char.normalize('NFD').replace(/[^\x20-\x7e]/gu, '') || '?'

/** Every character beyond ASCII as its twin, as its bare letter, or as a question mark. */
export const asAscii = (text: string): string =>
  text.replace(/[^\t\n\x20-\x7e]/gu, (char) => TWINS[char] ?? bare(char))

/** Breaks a line between words; the following lines are indented. @param width columns, Infinity for no breaking */
export function wrapped(text: string, width: number, indent = ''): string[] {
  if (text.length <= width) return [text]
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ')) {
    const next = line === '' ? word : `${line} ${word}`
    if (next.length > width && line.trim() !== '') {
      lines.push(line)
      line = indent + word
    } else line = next
  }
  return [...lines, line]
}
