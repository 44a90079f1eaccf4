/**
 * Completion for bash, zsh and fish, made from the command table, so that it never knows another command or option than
 * the program. Plans and logs are completed as files; symptoms by their ids.
 */
import type { Program } from '../wording/program.ts'
import type { Command, Option } from './command.ts'
import { COMMANDS, COMMON } from './commands.ts'

export const SHELLS = ['bash', 'zsh', 'fish'] as const
export type ShellName = (typeof SHELLS)[number]

const shown = (): readonly Command[] => COMMANDS.filter((c) => !c.hidden)
const dashed = (o: Option): string => `--${o.name}`
const optionsOf = (c: Command): readonly Option[] => [...c.options, ...COMMON]

/** For a text in single quotes, in all three shells. */
const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`

function bash(symptoms: readonly string[]): string[] {
  return [
    '_whichlead() {',
    `  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} command=\${COMP_WORDS[1]} words=`,
    `  if [[ $before == --symptom ]]; then COMPREPLY=($(compgen -W ${quoted(symptoms.join(' '))} -- "$word")); return; fi`,
    '  if (( COMP_CWORD == 1 )); then',
    `    COMPREPLY=($(compgen -W ${quoted([...shown().map((c) => c.name), ...COMMON.map(dashed)].join(' '))} -- "$word"))`,
    '    return',
    '  fi',
    '  case $command in',
    ...COMMANDS.map((c) => `    ${c.name}) words=${quoted(optionsOf(c).map(dashed).join(' '))} ;;`),
    '  esac',
    `  if [[ $command == help ]]; then words=${quoted(
      shown()
        .map((c) => c.name)
        .join(' '),
    )}; fi`,
    '  if [[ $word == -* || $command == help ]]; then COMPREPLY=($(compgen -W "$words" -- "$word"))',
    '  else compopt -o filenames 2>/dev/null; COMPREPLY=($(compgen -f -- "$word")); fi',
    '}',
    'complete -F _whichlead whichlead',
  ]
}

/** A colon ends a description in zsh's lists. */
const zshText = (text: string): string =>
  text.replaceAll(':', '\\:').replaceAll('[', '\\[').replaceAll(']', '\\]')

function zsh(symptoms: readonly string[], program: Program): string[] {
  const option = (c: Command, o: Option): string => {
    const text = zshText(program.commands[c.name]?.options[o.name] ?? program.common[o.name] ?? '')
    const value =
      o.kind === 'flag' ? '' : o.name === 'symptom' ? `:symptom:(${symptoms.join(' ')})` : ':value:_files'
    return quoted(`${o.kind === 'values' ? '*' : ''}--${o.name}[${text}]${value}`)
  }
  return [
    '#compdef whichlead',
    '_whichlead() {',
    '  if (( CURRENT == 2 )); then',
    `    local -a commands=(${shown()
      .map((c) => quoted(`${c.name}:${zshText(program.commands[c.name]?.summary ?? '')}`))
      .join(' ')})`,
    '    _describe command commands',
    '    return',
    '  fi',
    '  case $words[2] in',
    ...COMMANDS.map(
      (c) =>
        `    ${c.name}) _arguments ${optionsOf(c)
          .map((o) => option(c, o))
          .join(' ')} '*:file:_files' ;;`,
    ),
    '  esac',
    '}',
    'compdef _whichlead whichlead',
  ]
}

function fish(symptoms: readonly string[], program: Program): string[] {
  const first = '-n __fish_use_subcommand'
  return [
    ...shown().map(
      (c) =>
        `complete -c whichlead -f ${first} -a ${c.name} -d ${quoted(program.commands[c.name]?.summary ?? '')}`,
    ),
    ...COMMON.map((o) => `complete -c whichlead -l ${o.name} -d ${quoted(program.common[o.name] ?? '')}`),
    ...COMMANDS.flatMap((c) =>
      c.options.map((o) => {
        const text = quoted(program.commands[c.name]?.options[o.name] ?? '')
        const value =
          o.kind === 'flag' ? '' : o.name === 'symptom' ? ` -x -a ${quoted(symptoms.join(' '))}` : ' -r'
        return `complete -c whichlead -n '__fish_seen_subcommand_from ${c.name}' -l ${o.name}${value} -d ${text}`
      }),
    ),
  ]
}

/** The script that a shell reads. */
export function completionFor(shell: ShellName, symptoms: readonly string[], program: Program): string[] {
  switch (shell) {
    case 'bash':
      return bash(symptoms)
    case 'zsh':
      return zsh(symptoms, program)
    case 'fish':
      return fish(symptoms, program)
  }
}
