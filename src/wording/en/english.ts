/** English, put together. The level is that of a good service manual: short, active, imperative, with the place named. */
import type { Language } from '../language.ts'
import { caution } from './cautions.ts'
import { dialogue } from './dialogue.ts'
import { editSentence } from './edits.ts'
import { faultWords } from './faults.ts'
import { labels } from './labels.ts'
import { list, partName, refName } from './names.ts'
import { findingLines, noteLines } from './notes.ts'
import { practiceWords } from './practice.ts'
import { problemLines, refusalText } from './problems.ts'
import { program } from './program.ts'
import { answerText, questionText } from './questions.ts'
import { screen } from './screen.ts'
import { stepText } from './steps.ts'
import { symptomNames, symptomText } from './symptoms.ts'
import { pathLine, trailLine } from './trail.ts'
import { sightingWords, valueWords } from './values.ts'
import { endLines, handingOverLines, suspectWords, verdictLines } from './verdicts.ts'
import { HELP_ME } from './which-symptom.ts'
import { whyLines } from './why.ts'

export const english: Language = {
  code: 'en',
  name: 'English',
  labels,
  part: partName,
  ref: refName,
  list,
  edit: editSentence,
  step: stepText,
  caution,
  question: questionText,
  answer: answerText,
  value: valueWords,
  sighting: sightingWords,
  fault: faultWords,
  suspect: suspectWords,
  verdict: verdictLines,
  note: noteLines,
  finding: findingLines,
  end: endLines,
  why: whyLines,
  trail: trailLine,
  path: pathLine,
  handingOver: handingOverLines,
  symptom: symptomText,
  symptoms: symptomNames,
  helpMe: HELP_ME,
  refusal: refusalText,
  problem: problemLines,
  dialogue,
  screen,
  practice: practiceWords,
  program,
}
