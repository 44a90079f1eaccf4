/**
 * A language that nobody speaks, made from English by a rule: every letter bears an accent and every word is 40 % longer,
 * as translations are. What stands on a screen without accents did not come from the language.
 */
import type { Language } from '../../src/wording/language.ts'

const ACCENTED: Readonly<Record<string, string>> = Object.fromEntries(
  Array.from(
    'AÀBƁCÇDÐEÈFƑGĜHĤIÌJĴKĶLĻMṀNÑOÒPƤQɊRŔSŠTŢUÙVṼWŴXẊYÝZŽaàbƀcçdđeèfƒgĝhĥiìjĵkķlļmṁnñoòpƥqɋrŕsštţuùvṽwŵxẋyýzž',
  )
    .join('')
    .match(/../gu)
    ?.map((two) => [...two] as [string, string]) ?? [],
)

/** A word that is accented already came through here before, inside another sentence. */
const longer = (word: string): string =>
  [...word].map((c) => ACCENTED[c] ?? c).join('') + 'ö'.repeat(Math.round(word.length * 0.4))

const inPseudo = (text: string): string => text.replace(/(?<!\p{L})[A-Za-z]+(?!\p{L})/gu, longer)

/** Texts, and what makes texts, however deep; anything else as it is. */
function changed<T>(said: T): T {
  if (typeof said === 'string') return inPseudo(said) as T
  if (Array.isArray(said)) return said.map(changed) as T
  if (typeof said === 'function')
    return ((...of: readonly unknown[]) =>
      changed((said as unknown as (...a: readonly unknown[]) => unknown)(...of))) as T
  if (typeof said !== 'object' || said === null || said instanceof Map || said instanceof Set) return said
  return Object.fromEntries(Object.entries(said).map(([key, value]) => [key, changed(value)])) as T
}

export const pseudoOf = (language: Language): Language => changed(language)
