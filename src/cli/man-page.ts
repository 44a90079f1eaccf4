/**
 * The manual page, from the same table and words as the help, as `man` reads it (the man macros of roff: `.TH`, `.SH`,
 * `.TP`, as in man(7)).
 */
import type { Program } from '../wording/program.ts'
import type { Command, Option } from './command.ts'
import { COMMANDS, COMMON } from './commands.ts'
import { usage } from './help-text.ts'

/**
 * Backslashes and hyphens mean something to roff, and so does a dot or an apostrophe at the beginning of a line; letters
 * beyond ASCII are named by their number, so that every roff reads them.
 */
const roff = (text: string): string =>
  text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replace(/^([.'])/, '\\&$1')
    .replace(/[^ -~]/gu, (c) => `\\[u${(c.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`)

const head = (o: Option): string =>
  `${o.short ? `\\fB\\-${o.short}\\fR, ` : ''}\\fB\\-\\-${roff(o.name)}\\fR${o.value ? ` \\fI${roff(o.value)}\\fR` : ''}`

const option = (o: Option, text: string): string[] => ['.TP', head(o), roff(text)]

function section(command: Command, program: Program): string[] {
  const text = program.commands[command.name]
  if (!text) return []
  return [
    `.SS ${roff(usage(command))}`,
    `${roff(text.summary)}.`,
    ...(text.about.length > 0 ? ['.PP', ...text.about.map(roff)] : []),
    ...command.options.flatMap((o) => option(o, text.options[o.name] ?? '')),
    ...text.examples.flatMap(([typed, does]) => [
      '.PP',
      '.nf',
      `    ${roff(typed)}`,
      '.fi',
      `    ${roff(does)}`,
    ]),
  ]
}

/** The page, a line a string. */
export function manPage(program: Program): string[] {
  const { man } = program
  return [
    '.TH WHICHLEAD 1 "" "whichlead" ""',
    `.SH ${man.name}`,
    `whichlead \\- ${roff(man.short)}`,
    `.SH ${man.synopsis}`,
    '.B whichlead',
    '.RI [ COMMAND ]',
    '.RI [ ARGUMENTS ]',
    '.RI [ OPTIONS ]',
    `.SH ${man.description}`,
    roff(program.summary),
    ...man.about.flatMap((text) => ['.PP', roff(text)]),
    `.SH ${man.commands}`,
    ...COMMANDS.filter((c) => !c.hidden).flatMap((c) => section(c, program)),
    `.SH ${man.options}`,
    ...COMMON.flatMap((o) => option(o, program.common[o.name] ?? '')),
    `.SH ${man.exit}`,
    ...program.exitCodes.flatMap(([code, means]) => ['.TP', `\\fB${String(code)}\\fR`, roff(means)]),
    `.SH ${man.environment}`,
    ...man.variables.flatMap(([name, means]) => ['.TP', `\\fB${roff(name)}\\fR`, roff(means)]),
    `.SH ${man.files}`,
    ...man.places.flatMap(([path, means]) => ['.TP', `\\fI${roff(path)}\\fR`, roff(means)]),
  ]
}
