/** What the program says of itself: the overview, mistakes on the command line, files in trouble, endings. */
import { clean, shorten } from '../clean.ts'
import type { PathTrouble, Program } from '../program.ts'
import { shellWord } from '../shell-word.ts'
import { commandTexts } from './commands.ts'
import { manWords } from './man.ts'
import { symptomText } from './symptoms.ts'

const quoted = (text: string): string => `"${shorten(clean(text), 60)}"`

const meant = (near: readonly string[]): string =>
  near.length === 0 ? '' : ` Did you mean ${near.map((n) => `"${clean(n)}"`).join(' or ')}?`

const FILE: Readonly<Record<PathTrouble, string>> = {
  missing: 'there is no such file. Check the name and the folder.',
  folder: 'this is a folder. Name a file in it.',
  unreadable: 'it may not be read. Check who owns it.',
  unwritable: 'it may not be written. Choose another place with --log or --out, or change its rights.',
  exists: 'it exists already. Name another file, or replace it with --force.',
  full: 'there is no room left on that disk.',
  empty: 'it is empty. "whichlead new" writes a plan to start from.',
  binary: 'it is not text.',
  large: 'it is too large for what it should be.',
}

const symptoms = (all: readonly string[]): string =>
  all.map((id) => `\n  ${id.padEnd(14)} ${symptomText(id).name}`).join('')

export const program: Program = {
  summary:
    'Finds what is wrong with the fan and light wiring of a desktop PC build, and proves that it is fixed.',
  usage: 'Usage',
  heads: {
    commands: 'Commands',
    options: 'Options',
    examples: 'Examples',
    more: 'More about a command: whichlead help COMMAND',
    exit: 'Exit codes',
  },
  commands: commandTexts,
  common: {
    help: 'this help',
    version: 'the version',
    lang: 'the language of all sentences, such as en',
  },
  man: manWords,
  exitCodes: [
    [0, 'done, or left in good order'],
    [1, 'a check found something, or a job ended without a fix'],
    [2, 'the command line or a file needs a change'],
    [70, 'a mistake of the program itself; the job log is kept'],
    [130, 'stopped with Ctrl+C; the job log is kept'],
  ],
  say: {
    unknownCommand: (given, near) =>
      `${quoted(given)} is not a command.${meant(near)} "whichlead --help" lists them.`,
    unknownOption: (command, given, near) =>
      `${quoted(given)} is not an option of ${command ? `"whichlead ${command}"` : 'whichlead'}.${meant(near)} "whichlead ${command ? `help ${command}` : '--help'}" lists them.`,
    optionNeedsValue: (option) => `--${option} needs a value after it.`,
    optionTakesNone: (option) => `--${option} takes no value.`,
    missingArgument: (command, name) =>
      `"whichlead ${command}" needs ${name}. "whichlead help ${command}" has examples.`,
    tooMany: (command, extra) => `"whichlead ${command}" does not know what to do with ${quoted(extra)}.`,
    unknownSymptom: (given, near, all) =>
      `${quoted(given)} is not a symptom that is known.${meant(near)}${all.length > 0 ? ` There are:${symptoms(all)}` : ''}`,
    chooseSymptom: 'What is wrong with the build?',
    chooseSeveral: 'Several at once: their numbers with commas between, such as 2, 10.',
    badFault: (given, near) =>
      `${quoted(given)} is not a fault of this plan.${meant(near)} A fault is written AT:MODE; "whichlead bench PLAN --list-faults" lists them.`,
    badEdit: (given) =>
      `${quoted(given)} is not an edit. Edits are: power on, power off, unplug PORT, plug PORT -> PORT, swap PORT PORT, reseat PORT, substitute PART, free PART, set SETTING = VALUE.`,
    editNowhere: (given) =>
      `${quoted(given)} names something that this build does not have, or a value that does not fit there.`,
    written: (path) => `Written: ${clean(path)}`,
    nextCheck: (path) => `Change it to the build at hand, then: whichlead check ${shellWord(clean(path))}`,
    noJobs: (folder) => `There are no jobs yet. They will be kept in ${clean(folder)}.`,
    noJobYet: 'There is no job yet to make a report of. Name a log, or begin with: whichlead diagnose PLAN',
    jobIsOver: (log) =>
      `This job has ended; there is nothing to take up. Read it with: whichlead report ${shellWord(clean(log))}`,
    wiringNotChecked: 'The wiring itself was not checked yet: put this right first, then check once more.',
    planUnreadableNow: (file) =>
      `${clean(file)} has mistakes now ("whichlead check" names them). The job goes on with the plan in its log.`,
    noOpenJob: 'There is no job to take up again. "whichlead jobs" lists those that have ended.',
    file: (path, why) => `${clean(path)}: ${FILE[why]}`,
    crashed: (message, log) => [
      `This is a mistake in whichlead itself: ${shorten(clean(message), 300)}`,
      log
        ? `The job is kept in ${clean(log)}; take it up again with: whichlead resume ${shellWord(clean(log))}`
        : 'No job was open.',
    ],
    interrupted: (log) =>
      log
        ? [`Stopped. The job is kept; take it up again with: whichlead resume ${shellWord(clean(log))}`]
        : ['Stopped.'],
    tooSmall: (columns, rows) =>
      `This terminal is ${columns} by ${rows}; the screen needs 60 by 20. Going on line by line.`,
    replayNext: '[Enter: next step] ',
    engineNeedsPolicy: '"whichlead engine" works with --policy: it reads problems and answers with steps.',
    unknownShell: (given, known) =>
      `${quoted(given)} is not a shell that is known here. There are: ${known.join(', ')}.`,
    unknownLanguage: (given, known) =>
      `${quoted(given)} is not a language that is here. There is: ${known.join(', ')}.`,
    start: {
      jobs: 'Jobs to take up again:',
      builds: 'Builds in this folder:',
      nothing: [
        'There is no wiring plan in this folder (a file that ends in .build.yaml).',
        '  whichlead new my.build.yaml     writes one to start from',
      ],
      more: 'whichlead --help lists all commands.',
    },
  },
}
