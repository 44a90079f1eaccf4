/**
 * What the terminal sends, cut into single keys before Ink sees it: everything that is not a key of ours (focus, mouse
 * and cursor reports, answers to queries, pasted text, function keys) is dropped here. Ink 6.8 ends the program on some
 * of them (Ctrl+F1) and joins others with what follows; remove when it no longer does.
 */

const ESC = '\x1b'
const BEL = '\x07'
const pattern = (...alternatives: readonly string[]): RegExp => new RegExp(alternatives.join('|'), 'gu')

/** Where a sequence begins that may go on in the next read. */
const UNFINISHED = new RegExp(`${ESC}(?:\\[[0-?]*|O|\\][^${BEL}${ESC}]*|P[^${ESC}]*)?$`, 'u')

/** Reports: pasted text, answers to queries, a mouse report with its three bytes. */
const REPORT = pattern(
  `${ESC}\\[200~[\\s\\S]*?${ESC}\\[201~`,
  `${ESC}\\][^${BEL}${ESC}]*(?:${BEL}|${ESC}\\\\)`,
  `${ESC}[P_^X][^${ESC}]*${ESC}\\\\`,
  `${ESC}\\[M[\\s\\S]{3}`,
)

/** A control sequence with its parameters (0 to ?) and its last letter (@ to ~). */
const CSI = new RegExp(`^${ESC}\\[([0-?]*)[ -/]*([@-~])`, 'u')
const SS3 = new RegExp(`^${ESC}O([\\s\\S])`, 'u')

/** Escape by itself, in the form that Ink does not wait after. */
export const ESCAPE = `${ESC}[27u`

const LETTERS = 'ABCDHF'
const NUMBERED: Readonly<Record<string, string>> = {
  1: '\x1b[H',
  3: '\x7f',
  4: '\x1b[F',
  5: '\x1b[5~',
  6: '\x1b[6~',
  7: '\x1b[H',
  8: '\x1b[F',
}
/** Keypad keys in application mode. */
const KEYPAD: Readonly<Record<string, string>> = { M: '\r', ...digits() }

function digits(): Record<string, string> {
  return Object.fromEntries(Array.from('pqrstuvwxy', (letter, i) => [letter, String(i)]))
}

function csiKey(parameters: string, final: string): string[] {
  if (LETTERS.includes(final)) return [`\x1b[${final}`]
  if (final === '~')
    return NUMBERED[parameters.split(';')[0] ?? ''] ? [NUMBERED[parameters.split(';')[0]!]!] : []
  if (final === 'Z') return ['\t']
  return []
}

function ss3Key(final: string): string[] {
  if (LETTERS.includes(final)) return [`\x1b[${final}`]
  return KEYPAD[final] ? [KEYPAD[final]] : []
}

/**
 * Single keys out of a read, and the beginning of a sequence that is not finished yet.
 * With `last`, nothing more is waited for: an unfinished sequence counts as Escape.
 */
export function rawKeys(read: string, last = false): { readonly keys: string[]; readonly rest: string } {
  let text = read.replace(REPORT, '')
  let rest = ''
  const unfinished = UNFINISHED.exec(text)
  if (unfinished && !last) {
    rest = text.slice(unfinished.index)
    text = text.slice(0, unfinished.index)
  }
  const keys: string[] = []
  while (text !== '') {
    const [taken, given] = first(text)
    keys.push(...given)
    text = text.slice(taken)
  }
  return { keys, rest }
}

function first(text: string): [taken: number, given: string[]] {
  if (!text.startsWith('\x1b')) {
    const next = text.indexOf('\x1b')
    const plain = next < 0 ? text : text.slice(0, next)
    return [plain.length, [...plain]]
  }
  const csi = CSI.exec(text)
  if (csi) return [csi[0].length, csiKey(csi[1] ?? '', csi[2] ?? '')]
  const ss3 = SS3.exec(text)
  if (ss3) return [ss3[0].length, ss3Key(ss3[1] ?? '')]
  if (text.startsWith('\x1b\x1b')) return [1, [ESCAPE]]
  // Escape and a letter in one read: going back harms nothing, what the letter does might.
  const letter = text.length > 1 ? String.fromCodePoint(text.codePointAt(1) ?? 0).length : 0
  return [1 + letter, [ESCAPE]]
}
