/** What the manual page says beside the help: heads in the order that manual pages have, variables, files. */
import type { ManWords } from '../man.ts'

export const manWords: ManWords = {
  name: 'NAME',
  short: 'find what is wrong with the fan and light wiring of a desktop PC build',
  synopsis: 'SYNOPSIS',
  description: 'DESCRIPTION',
  about: [
    'The wiring plan of a build is a YAML file that ends in .build.yaml. It is checked before power-on, asked when something is wrong, and used to prove the fix.',
    'Without a command, at a terminal: a menu of jobs to take up again, builds in this folder, and ways to begin.',
  ],
  commands: 'COMMANDS',
  options: 'OPTIONS OF ALL COMMANDS',
  exit: 'EXIT STATUS',
  environment: 'ENVIRONMENT',
  variables: [
    ['NO_COLOR', 'set to anything: no colour; FORCE_COLOR has the last word'],
    ['WHICHLEAD_PLAIN', 'set to 1: line by line, for screen readers'],
    ['XDG_STATE_HOME', 'where job logs are kept, instead of ~/.local/state'],
    ['XDG_CACHE_HOME', 'where compiled code is kept, instead of ~/.cache'],
    ['WHICHLEAD_CODE_CACHE', 'set to off: no compiled code is kept between runs'],
    ['LC_ALL, LC_MESSAGES, LANG', 'the language of sentences, and whether more than ASCII can be shown'],
    [
      'WHICHLEAD_STORE',
      'the store that several benches share, as postgres://USER@HOST/DATABASE; PGPASSWORD and ~/.pgpass have the password',
    ],
    ['WHICHLEAD_STORE_WITHOUT_NAMES', 'set to 1: jobs are handed in without people, places, paths and notes'],
    ['WHICHLEAD_DEBUG', 'set to 1: a mistake of the program itself is told with its stack'],
  ],
  files: 'FILES',
  places: [
    ['*.build.yaml', 'wiring plans'],
    [
      '~/.local/state/whichlead/jobs/*.ndjson',
      'job logs, one event a line; the place differs on other systems',
    ],
  ],
}
