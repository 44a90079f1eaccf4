/** Help, made from the command table and the wording of the same names. */
import type { Program } from '../wording/program.ts'
import type { Argument, Command, Option } from './command.ts'
import { COMMANDS, COMMON } from './commands.ts'

const argument = ({ name, need }: Argument): string =>
  need === 'must' ? name : need === 'may' ? `[${name}]` : `[${name}…]`

const optionHead = (o: Option): string =>
  `${o.short ? `-${o.short}, ` : '    '}--${o.name}${o.value ? ` ${o.value}` : ''}${o.kind === 'values' ? ' …' : ''}`

const COLUMNS = 80

/** Words of a text on lines of at most `columns`. */
function broken(text: string, columns: number): string[] {
  const lines: string[] = []
  let now = ''
  for (const word of text.split(' ')) {
    if (now !== '' && now.length + 1 + word.length > columns) {
      lines.push(now)
      now = word
    } else now = now === '' ? word : `${now} ${word}`
  }
  return [...lines, now]
}

/** Two columns, the second starting at the same place in all rows and staying in it where it goes on. */
function table(rows: readonly (readonly [string, string])[]): string[] {
  const width = Math.max(0, ...rows.map(([left]) => left.length))
  return rows.flatMap(([left, right]) =>
    broken(right, COLUMNS - width - 4).map((line, i) =>
      `  ${(i === 0 ? left : '').padEnd(width)}  ${line}`.trimEnd(),
    ),
  )
}

/** A command to type and, under it, what it does: commands are too long for two columns. */
const examples = (rows: readonly (readonly [string, string])[]): string[] =>
  rows.flatMap(([command, does]) => [`  ${command}`, `      ${does}`])

const section = (head: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', `${head}:`, ...lines]

export const usage = (command: Command): string =>
  [
    'whichlead',
    command.name,
    ...command.arguments.map(argument),
    ...(command.options.length > 0 ? ['[OPTIONS]'] : []),
  ].join(' ')

/** The overview: what the program does, its commands, and three lines to begin with. */
export function overview(program: Program): string[] {
  const shown = COMMANDS.filter((c) => !c.hidden)
  return [
    ...broken(program.summary, COLUMNS),
    '',
    `${program.usage}: whichlead COMMAND […]`,
    ...section(
      program.heads.commands,
      table(
        shown.map((c) => [
          [c.name, ...c.arguments.map(argument)].join(' '),
          program.commands[c.name]?.summary ?? '',
        ]),
      ),
    ),
    ...section(
      program.heads.options,
      table(COMMON.map((o) => [optionHead(o), program.common[o.name] ?? ''])),
    ),
    ...section(
      program.heads.examples,
      examples(shown.flatMap((c) => program.commands[c.name]?.examples.slice(0, 1) ?? []).slice(0, 3)),
    ),
    ...section(program.heads.exit, table(program.exitCodes.map(([code, means]) => [String(code), means]))),
    '',
    program.heads.more,
  ]
}

/** One command: what it does, what it takes, examples. */
export function commandHelp(command: Command, program: Program): string[] {
  const text = program.commands[command.name]
  return [
    `${program.usage}: ${usage(command)}`,
    '',
    text?.summary ?? '',
    ...(text && text.about.length > 0 ? ['', ...broken(text.about.join(' '), COLUMNS)] : []),
    ...section(
      program.heads.options,
      table([
        ...command.options.map((o) => [optionHead(o), text?.options[o.name] ?? ''] as const),
        ...COMMON.map((o) => [optionHead(o), program.common[o.name] ?? ''] as const),
      ]),
    ),
    ...section(program.heads.examples, examples(text?.examples ?? [])),
  ]
}
