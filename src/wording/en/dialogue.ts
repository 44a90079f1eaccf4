/** What the line-by-line front end says of its own: greeting, help that fits the moment, what was not understood. */
import type { View } from '../../job/view.ts'
import { clean, shorten } from '../clean.ts'
import type { Dialogue } from '../dialogue.ts'
import { upper } from '../report/steps.ts'
import { shellWord } from '../shell-word.ts'
import { labels } from './labels.ts'
import { symptomNames } from './symptoms.ts'

const said = (text: string): string => `"${shorten(clean(text), 40)}"`

const CANNOT_TELL = "  can't tell       you looked and cannot say (also: unsure)"

const ALWAYS = [
  "  can't do         this cannot be done here (also: cannot, skip); it is not asked again",
  '  why              why this step, and what each answer would mean',
  '  path             what was done and seen so far',
  '  where            the run of the lead in question',
  '  findings         what the audit of the plan found',
  '  undo             take the last answer back; undo 3 takes that of step 3 (see path), after saying what it changes',
  '  note TEXT        put a note into the log',
  '  read FILE        take what another tool printed: read fans.json fan1=SYS1 (also: live, clipboard)',
  '  fold, unfold     hide why and what else it may mean on a first boot, or show it again',
  '  again            say the question once more',
  '  hand over        end here and leave a page for the next person',
  '  leave            stop for now; the job can be taken up again',
]

const HELP: Readonly<Record<'do' | 'one' | 'many' | 'ended', readonly string[]>> = {
  do: ['When it is done, type: done (or 1).', ...ALWAYS],
  one: ['Type the number of the answer, or the beginning of its words.', CANNOT_TELL, ...ALWAYS],
  many: [
    'Type the names or numbers of all of them, with blanks between: F2 F5, or 1 4, or F1..F3.',
    'To say how one is, add the word after it: F3 part. If there is none, type: none.',
    CANNOT_TELL,
    ...ALWAYS,
  ],
  ended: ['The job has ended.'],
}

const WAYS: Readonly<Record<'do' | 'one' | 'many', string>> = {
  do: "done, can't do",
  one: "a number, can't tell, can't do",
  many: "names or numbers, none, can't tell, can't do",
}

export const dialogue: Dialogue = {
  words: {
    done: ['done', 'ok', 'yes done'],
    unsure: ["can't tell", 'cant tell', 'cannot tell', 'unsure', "don't know", 'dont know'],
    cannot: ["can't do", 'cant do', 'cannot do', 'cannot', 'skip'],
    undo: ['undo', 'take back', 'back'],
    why: ['why', 'why?'],
    path: ['path', 'so far'],
    where: ['where', 'where?'],
    findings: ['findings'],
    again: ['again', 'repeat'],
    fold: ['fold'],
    unfold: ['unfold'],
    'hand-over': ['hand over', 'handover', 'hand-over'],
    leave: ['leave', 'quit', 'exit', 'stop'],
    help: ['?', 'help'],
    none: ['none', 'none of them'],
  },
  noteWord: 'note',
  readWord: 'read',
  readWhat:
    'Name a file with what another tool printed, and which name in it is which place: read fans.json fan1=SYS1. Also: read live, read clipboard.',
  readNotHere: 'No reading can be fetched here.',
  prompt: '> ',
  enter: 'Enter',
  hello: (view: View) => [
    `${clean(view.plan.build)}. ${symptomNames(view.symptoms)}.`,
    `Every answer is kept at once in ${clean(view.log)}.`,
    'Type ? for help.',
  ],
  help: (kind) => [...HELP[kind]],
  head: (n, power, hands, minutes, left) => {
    const causes = left === null ? '' : ` ${upper(labels.left(left))}.`
    return `${labels.step} ${n}. Power ${power === null ? 'not known' : labels.power[power]}, ${labels.hands[hands]}; it takes ${labels.minutes(minutes)}.${causes}`
  },
  ways: (kind, canUndo) => `(${WAYS[kind]}, why, path${canUndo ? ', undo' : ''}, leave, ? for help)`,
  notUnderstood: (text) => `${said(text)} is not one of the answers. The question stands; type ? for help.`,
  whichOf: (text, choices) => `${said(text)} may be: ${choices.join('; ')}. Which one?`,
  outOfRange: (n, last) => `There is no answer ${n}; they go from 1 to ${last}.`,
  twice: (thing) => `${said(thing)} is marked in two ways. Which one?`,
  markWords: (values) => {
    const said = values.map(([word, means]) => (word === means ? word : `${word} (${means})`))
    return values.length < 2
      ? `Each that you name is: ${said.join('')}.`
      : `Each that you name is: ${said[0]}; or, with the word after its name: ${said.slice(1).join(', ')}.`
  },
  noteTaken: 'Note kept.',
  folded: 'Explanations are folded away for the rest of the job; "unfold" shows them again.',
  unfolded: 'Explanations are shown again.',
  signHow: (who) =>
    who === null
      ? 'Type your name to sign, or: done (signs without a name).'
      : `Type: done (signs as ${clean(who)}), or another name.`,
  signed: (by) => `Signed: ${clean(by)}.`,
  noteEmpty: 'Write the note after the word: note behind the cover, hard to reach',
  nothingToUndo: 'There is nothing to take back yet.',
  undone: 'Taken back.',
  takeBackSure: 'To take this back, type: yes. Anything else leaves all as it is.',
  takenBackNot: 'Nothing was taken back.',
  noTakingBack: (step, standing) =>
    standing.length === 0
      ? 'There is nothing to take back yet.'
      : `The answer of step ${step} cannot be taken back now. Answers that stand: ${standing.length === 1 ? 'step' : 'steps'} ${standing.join(', ')}; see path.`,
  yes: ['yes', 'y'],
  pathSoFar: 'So far:',
  pathEmpty: 'Nothing has been asked yet.',
  moreFindings: (n) => `Findings of the audit that are not shown here: ${n}. To see them, type: findings`,
  noFindings: 'The audit of the plan found nothing.',
  where: 'Where: ',
  whereUnknown: 'No lead is in question yet.',
  inputEnded: (log) =>
    `The input has ended; the job is kept. Take it up again with: whichlead resume ${shellWord(clean(log))}`,
  tooLong: 'That line is too long. The question stands.',
  notUtf8: 'That line is not text. The question stands.',
}
