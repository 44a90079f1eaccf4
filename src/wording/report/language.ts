/** Report and log words by language; English where a language has none of its own yet. */
import { logWords } from '../en/log.ts'
import { reportWords } from '../en/report.ts'
import type { Language } from '../language.ts'
import { inItsFigures } from '../localised.ts'
import type { LogWords, ReportWords } from './words.ts'

const REPORT: Readonly<Record<string, ReportWords>> = { en: reportWords }
const LOG: Readonly<Record<string, LogWords>> = { en: logWords }

export const reportWordsOf = (language: Language): ReportWords =>
  inItsFigures(REPORT[language.code] ?? reportWords, language)

export const logWordsOf = (language: Language): LogWords =>
  inItsFigures(LOG[language.code] ?? logWords, language)
