/** What is the matter with a job log, in English: what, where, what was kept, and what to do. */
import type { LogProblem } from '../../job/log/decode.ts'
import type { FileTrouble, FileTroubleCode, LogTrouble, Trouble } from '../../job/log/trouble.ts'
import type { Misfit } from '../../job/play-back.ts'
import { clean, shorten } from '../clean.ts'
import type { LogWords } from '../report/words.ts'

type Say = (facts: FileTrouble['facts']) => string

const size = (bytes: number): string =>
  bytes < 1000
    ? `${bytes} bytes`
    : bytes < 1e6
      ? `${Math.round(bytes / 1000)} kB`
      : `${Math.round(bytes / 1e6)} MB`

const FILE: Readonly<Record<FileTroubleCode, Say>> = {
  exists: () => 'this file is there already. Name another with --log.',
  missing: () => 'there is no such file. Check the name and the folder.',
  'folder-missing': () =>
    'there is no such folder. Make it first, or name another place: for a job log with --log.',
  'is-a-folder': () => 'this is a folder. Name a file in it.',
  'not-a-file': () => 'this is no ordinary file. Name a file for the log.',
  'no-permission': () =>
    'you may not write here. Choose another place (for a job log with --log), or change the rights of the folder.',
  'read-only': () =>
    'this disk can only be read. Choose another place with --log; a job that is there already goes on from a copy of its log.',
  'disk-full': () =>
    'the disk is full. Make room, then answer again: what was kept so far is safe, the last answer is not in it.',
  'limit-reached': () =>
    'a quota or a limit on file size is reached. Make room, then answer again: what was kept so far is safe, the last answer is not in it.',
  'too-large': (f) =>
    `this file has ${size(Number(f.bytes))}; a job log has at most ${size(Number(f.limit))}. Is it the right file?`,
  'in-use': (f) => {
    const who = Number(f.pid) > 0 ? ` (process ${f.pid} on ${clean(String(f.host))}, since ${f.since})` : ''
    return `another program has this job open${who}. Close it there. If none is running, remove ${clean(String(f.lock))}.`
  },
  'changed-by-another': () =>
    'something else wrote to this log while the job was open. Nothing more is written, so that nothing is spoilt. Close the other program, then take the job up again.',
  vanished: () =>
    'the log was moved or removed while the job was open. Put it back, then answer again; the last answer is not kept.',
  'name-too-long': () => 'this name is too long for the disk. Choose a shorter one with --log.',
  'disk-error': (f) =>
    `the disk reports an error (${clean(String(f.system))}). The last answer is not kept. Choose another place with --log.`,
}

const stretch = ({ line, facts }: LogProblem): string =>
  facts.to === undefined ? `Line ${line}` : `Lines ${line} to ${facts.to}`

function problem(p: LogProblem): string {
  const { line, facts } = p
  switch (p.code) {
    case 'empty':
      return 'The file is empty.'
    case 'not-a-log':
      return 'This is not a job log.'
    case 'half-last-line':
      return `Line ${line} was cut off while it was written (${size(Number(facts.bytes))}); every line before it is whole.`
    case 'changed':
      return `${stretch(p)}: changed after it was written; its sum does not fit.`
    case 'unreadable':
      return facts.to === undefined
        ? `Line ${line}: not a line of a job log.`
        : `Line ${line}: not a line of a job log; up to line ${facts.to} nothing can be checked.`
    case 'out-of-order':
      return `${stretch(p)}: out of order. Number ${facts.expected} is due, ${clean(String(facts.found))} stands there: lines were lost, doubled or moved.`
    case 'unfit':
      return `${stretch(p)}: "${clean(String(facts.field))}" is not as this version knows it (${shorten(clean(String(facts.why)), 80)}).`
    case 'unknown-kind':
      return `Line ${line}: "${shorten(clean(String(facts.kind)), 40)}" is not known to this version; the line is kept as it is.`
    case 'newer-format':
      return `The log has format ${facts.format}, from version ${clean(String(facts.tool))}; this version knows format ${facts.known}.`
  }
}

function logTrouble(trouble: LogTrouble): string[] {
  const path = clean(trouble.path)
  const found = trouble.problems.map((p) => `  ${problem(p)}`)
  const { sound, beyond } = trouble.facts
  switch (trouble.code) {
    case 'no-job':
      return [`${path}: no job can be taken up from this file.`, ...found]
    case 'newer':
      return [
        `${path}: written by a newer version. It can be read with "report", but not gone on with.`,
        ...found,
        '  Update whichlead to go on with this job.',
      ]
    case 'damaged':
      return [
        `${path}: this log is damaged. Nothing was changed.`,
        ...found,
        `  Whole before the damage: ${sound} lines; after it: ${beyond}.`,
        '  To go on from before the damage, with everything else kept beside the log: add --salvage.',
      ]
  }
}

const MISFIT: Readonly<Record<Misfit, string>> = {
  flow: 'the questions of this version go another way there',
  reply: 'it answers another question than the one that stood, or with an answer that this one does not have',
  undo: 'it takes back an answer that was not given',
}

const isFileTrouble = (trouble: Trouble): trouble is FileTrouble => trouble.code in FILE

export const logWords: LogWords = {
  trouble: (trouble) =>
    isFileTrouble(trouble)
      ? [`${clean(trouble.path)}: ${FILE[trouble.code](trouble.facts)}`]
      : logTrouble(trouble as LogTrouble),
  problem,
  misfit: ({ log, line, why, tool }) => [
    `${clean(log)}: line ${line} can't have come after the lines before it. Nothing was changed.`,
    `  Line ${line}, written by version ${clean(tool)}: ${MISFIT[why]}.`,
    '  The job can be read with "report".',
    `  To go on from before line ${line}, with everything else kept beside the log: add --salvage.`,
  ],
  cutOff: (rest) =>
    `Half a last line was cut off and is kept in ${clean(rest)}; every answer before it is there.`,
}
