/** Report and log words by language; English where a language has none of its own yet. */
import { logWords } from './en/log.ts'
import { reportWords } from './en/report.ts'
import type { Language } from './language.ts'
import type { LogWords, ReportWords } from './report-words.ts'

const REPORT: Readonly<Record<string, ReportWords>> = { en: reportWords }
const LOG: Readonly<Record<string, LogWords>> = { en: logWords }

export const reportWordsOf = (language: Language): ReportWords => REPORT[language.code] ?? reportWords

export const logWordsOf = (language: Language): LogWords => LOG[language.code] ?? logWords
