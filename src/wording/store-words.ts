/** What is said of a store that several benches share; English where a language has no words of its own yet. */
import type { StoreTrouble } from '../job/history/history.ts'
import { storeWords } from './en/store.ts'
import type { Language } from './language.ts'

export interface StoreWords {
  /** What, where, and what to do. */
  readonly trouble: (trouble: StoreTrouble) => string
  /** One line: the trouble in short, and that nothing is lost by it. */
  readonly goingOn: (trouble: StoreTrouble) => string
  readonly handedIn: (done: { readonly taken: number; readonly known: number }, where: string) => string
  /** Jobs that are left for another time. */
  readonly waiting: (jobs: number) => string
  readonly refused: (log: string, trouble: StoreTrouble) => string
  readonly noStore: string
  readonly noSuchJob: (id: string, where: string) => string
  /** Forgetting is for all who share the store. */
  readonly forgotten: (where: string) => string
  readonly badLimit: (given: string) => string
  /** There are more jobs than these. */
  readonly more: (shown: number) => string
}

const WORDS: Readonly<Record<string, StoreWords>> = { en: storeWords }

export const storeWordsOf = (language: Language): StoreWords => WORDS[language.code] ?? storeWords
