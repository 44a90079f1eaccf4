/** A language with the figures of a person's locale, and the way back to the plain one for programs. */
import { type Figures, figures, inFigures } from './figures.ts'
import type { Language } from './language.ts'

const spoken = new WeakMap<Language, { readonly plain: Language; readonly by: Figures }>()

/** @param by none: the language as it is */
export function localised(language: Language, by: Figures | undefined): Language {
  if (by === undefined) return language
  const with_ = inFigures(language, by)
  spoken.set(with_, { plain: language, by })
  return with_
}

/** As logs, JSON and other programs get it: figures in the neutral forms. */
export const neutral = (language: Language): Language => spoken.get(language)?.plain ?? language

export const figuresIn = (language: Language): Figures => spoken.get(language)?.by ?? figures()

/** Words that go with a language, in its figures. */
export const inItsFigures = <T>(words: T, language: Language): T => inFigures(words, spoken.get(language)?.by)
