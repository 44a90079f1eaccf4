/** English, put together. The level is that of a good service manual: short, active, imperative, with the place named. */
import type { Language, Scene } from '../language.ts'
import { answerText } from './answers.ts'
import { caution } from './cautions.ts'
import { dialogue } from './dialogue.ts'
import { editSentence } from './edits.ts'
import { faultWords } from './faults.ts'
import { labels } from './labels.ts'
import { kindOf, list, partName, refName } from './names.ts'
import { findingLines, noteLines } from './notes.ts'
import { practiceWords } from './practice.ts'
import { problemLines, refusalText } from './problems.ts'
import { program } from './program.ts'
import { questionText } from './questions.ts'
import { screen } from './screen.ts'
import { stepText } from './steps.ts'
import { symptomNames, symptomText } from './symptoms.ts'
import { termLines } from './terms.ts'
import { fullOnce, refNames, rowNames } from './together.ts'
import { pathLine, trailLine } from './trail.ts'
import { sightingWords, valueWords } from './values.ts'
import { endLines, handingOverLines, suspectWords, verdictLines } from './verdicts.ts'
import { HELP_ME } from './which-symptom.ts'
import { whyLines } from './why.ts'

/** The same lines, each part in full only where it stands first. */
const once =
  <T, S extends Scene>(lines: (told: T, scene: S) => string[]) =>
  (told: T, scene: S): string[] =>
    fullOnce(lines(told, scene), scene)

/** One line, which names a part in full once. */
const onceIn =
  <T>(line: (told: T, scene: Scene) => string) =>
  (told: T, scene: Scene): string =>
    fullOnce([line(told, scene)], scene)[0] ?? ''

export const english: Language = {
  code: 'en',
  name: 'English',
  labels,
  part: partName,
  kind: kindOf,
  ref: refName,
  refs: refNames,
  list,
  fullOnce,
  rows: rowNames,
  edit: onceIn(editSentence),
  step: stepText,
  caution,
  question: questionText,
  answer: answerText,
  value: valueWords,
  sighting: sightingWords,
  fault: faultWords,
  suspect: onceIn(suspectWords),
  verdict: once(verdictLines),
  note: once(noteLines),
  finding: findingLines,
  end: once(endLines),
  why: once(whyLines),
  trail: onceIn(trailLine),
  terms: termLines,
  path: pathLine,
  handingOver: (view) => fullOnce(handingOverLines(view), view),
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
