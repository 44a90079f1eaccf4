/** The languages that are here. A new one is a folder beside `en` and one line below. */
import { english } from './en/english.ts'
import type { Language } from './language.ts'

export const LANGUAGES: readonly Language[] = [english]

/** By code; `en_GB.UTF-8` and `en-GB` find `en`. Undefined where it is not here. */
export function languageFor(code: string): Language | undefined {
  const base = code.toLowerCase().split(/[-_.@]/)[0] ?? ''
  return LANGUAGES.find((l) => l.code === base)
}

/** The language of an environment, English where it asks for one that is not here. */
export const languageOf = (env: Readonly<Record<string, string | undefined>>): Language =>
  [env.LC_ALL, env.LC_MESSAGES, env.LANG].flatMap((c) => (c ? [languageFor(c)] : [])).find(Boolean) ?? english
