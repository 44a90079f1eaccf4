/** The languages that are here, each loaded when it is first spoken. A new one is a folder beside `en` and one line below. */
import type { Language } from './language.ts'

const loaders = {
  en: async (): Promise<Language> => (await import('./en/english.ts')).english,
}

export type LanguageCode = keyof typeof loaders
export const LANGUAGES = Object.keys(loaders) as readonly LanguageCode[]

/** By code; `en_GB.UTF-8` and `en-GB` find `en`. Undefined where it is not here. */
export function languageFor(code: string): LanguageCode | undefined {
  const base = code.toLowerCase().split(/[-_.@]/)[0] ?? ''
  return LANGUAGES.find((known) => known === base)
}

/** The language of an environment, English where it asks for one that is not here. */
export const languageOf = (env: Readonly<Record<string, string | undefined>>): LanguageCode =>
  [env.LC_ALL, env.LC_MESSAGES, env.LANG].flatMap((c) => (c ? [languageFor(c)] : [])).find(Boolean) ?? 'en'

export const loadLanguage = (code: LanguageCode): Promise<Language> => loaders[code]()
