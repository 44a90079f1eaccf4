/** All commands in one table of plain data. Help, completion, suggestions and the parser read it. */
import type { Command, Option } from './command.ts'

const flag = (name: string): Option => ({ name, kind: 'flag' })
const value = (name: string, stands: string): Option => ({ name, kind: 'value', value: stands })
const values = (name: string, stands: string): Option => ({ name, kind: 'values', value: stands })

const PLAN = { name: 'PLAN', need: 'must' } as const
/** Where the history of several benches is kept. */
const STORE = value('store', 'ADDRESS')
const frontEnd: readonly Option[] = [flag('plain'), flag('lines'), flag('ascii')]

/** Who is there, and how much is explained. */
const atTheBench: readonly Option[] = [value('who', 'NAME'), value('where', 'PLACE'), flag('fold')]

/** Taken by every command. */
export const COMMON: readonly Option[] = [
  { name: 'help', short: 'h', kind: 'flag' },
  { name: 'version', short: 'V', kind: 'flag' },
  value('lang', 'CODE'),
]

/** Taken by every command that begins a job. */
const newJob: readonly Option[] = [
  value('log', 'FILE'),
  values('readings', 'FILE'),
  values('as', 'NAME=PLACE'),
  flag('no-learning'),
  STORE,
  ...atTheBench,
  ...frontEnd,
]

export const COMMANDS: readonly Command[] = [
  {
    name: 'diagnose',
    arguments: [PLAN],
    options: [values('symptom', 'ID'), ...newJob],
  },
  {
    name: 'first-boot',
    arguments: [PLAN],
    options: newJob,
  },
  {
    name: 'resume',
    arguments: [{ name: 'LOG', need: 'may' }],
    options: [...frontEnd, flag('salvage'), flag('keep-plan'), flag('no-learning'), STORE],
  },
  {
    name: 'practice',
    arguments: [{ name: 'PLAN', need: 'may' }],
    options: [
      value('level', 'LEVEL'),
      value('seed', 'NUMBER'),
      value('fault', 'AT:MODE'),
      flag('plain'),
      flag('ascii'),
    ],
  },
  {
    name: 'check',
    arguments: [PLAN],
    options: [flag('json'), flag('lines'), value('format', 'FORM'), flag('strict'), flag('ascii')],
  },
  {
    name: 'draw',
    arguments: [PLAN],
    options: [flag('svg'), flag('sheet'), value('format', 'FORM'), value('width', 'COLUMNS'), flag('ascii')],
  },
  {
    name: 'bench',
    arguments: [PLAN],
    options: [values('fault', 'AT:MODE'), values('edit', 'EDIT'), flag('list-faults'), flag('json')],
  },
  {
    name: 'report',
    arguments: [{ name: 'LOG', need: 'may' }],
    options: [
      flag('html'),
      flag('json'),
      flag('short'),
      flag('without-names'),
      flag('as-log'),
      value('out', 'FILE'),
      flag('force'),
      STORE,
    ],
  },
  {
    name: 'replay',
    arguments: [{ name: 'LOG', need: 'must' }],
    options: [flag('ascii'), STORE],
  },
  {
    name: 'jobs',
    arguments: [{ name: 'TEXT', need: 'many' }],
    options: [
      value('build', 'NAME'),
      value('part', 'PLACE'),
      value('cause', 'MODE'),
      value('symptom', 'ID'),
      value('outcome', 'OUTCOME'),
      value('from', 'DATE'),
      value('to', 'DATE'),
      flag('csv'),
      flag('json'),
      flag('sums'),
      flag('learned'),
      flag('forget'),
      value('limit', 'NUMBER'),
      STORE,
      flag('hand-in'),
    ],
  },
  {
    name: 'new',
    arguments: [{ name: 'FILE', need: 'may' }],
    options: [value('out', 'FILE'), flag('usual'), flag('force'), flag('ascii')],
  },
  {
    name: 'edit',
    arguments: [PLAN, { name: 'CHANGE', need: 'many' }],
    options: [flag('write')],
  },
  {
    name: 'schema',
    arguments: [],
    options: [],
  },
  {
    name: 'engine',
    arguments: [],
    options: [flag('policy')],
    hidden: true,
  },
  {
    name: 'completion',
    arguments: [{ name: 'SHELL', need: 'must' }],
    options: [],
  },
  {
    name: 'help',
    arguments: [{ name: 'COMMAND', need: 'may' }],
    options: [flag('man')],
    hidden: true,
  },
]

export const commandNamed = (name: string): Command | undefined => COMMANDS.find((c) => c.name === name)
