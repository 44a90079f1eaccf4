/**
 * Names that a plan may give to parts, headers, leads and lights. They become references (`F1.motor`,
 * `board.SYS1/12V`, `headers/SYS1/drive`, `F1:motor-dead`), so the marks of those are kept out of them.
 */

// Nearly every name is plain; the rule for all scripts takes some milliseconds to make ready, so it stands where it is used.
const PLAIN = /^[A-Za-z0-9_](?:[A-Za-z0-9_-]*[A-Za-z0-9_])?$/
const isWord = (name: string): boolean =>
  /^[\p{L}\p{N}_](?:[\p{L}\p{N}\p{M}_-]*[\p{L}\p{N}\p{M}_])?$/u.test(name)

/** Names that stand for something else in a reference. */
const TAKEN = new Set(['supply', 'board', 'build', 'settings', 'none', 'unknown'])

const inherited = (name: string): boolean => name in Object.prototype

const NAME_RULE = 'a name of letters, digits, - and _, such as F1 or front-top'

/** What is wrong with a name, or undefined. */
export function nameTrouble(name: string): { readonly expected: string; readonly todo: string } | undefined {
  if (name.length > 40) return { expected: `${NAME_RULE}, up to 40 long`, todo: 'choose a shorter name' }
  if (/^-|-$/.test(name)) return { expected: `${NAME_RULE}, with no - at either end`, todo: 'take the - off' }
  if (!PLAIN.test(name) && !isWord(name))
    return {
      expected: NAME_RULE,
      todo: 'choose another name; dots, blanks and slashes have a meaning in references',
    }
  if (TAKEN.has(name.toLowerCase()) || inherited(name))
    return {
      expected: 'a name that has no meaning of its own',
      todo: 'choose another name; this one is reserved',
    }
  return undefined
}
