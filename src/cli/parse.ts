/**
 * Takes a command line apart by the command table. A mistake is a value: what was not understood, with the nearest
 * word that would have been. Node's own parser finds the tokens; what they mean is decided here.
 */
import { parseArgs } from 'node:util'
import type { Command, Given, Option } from './command.ts'
import { COMMANDS, COMMON, commandNamed } from './commands.ts'
import { near } from './near.ts'

export type Mistake =
  | { readonly what: 'unknown-command'; readonly given: string; readonly near: readonly string[] }
  | {
      readonly what: 'unknown-option'
      readonly command: string
      readonly given: string
      readonly near: readonly string[]
    }
  | { readonly what: 'option-needs-value'; readonly option: string }
  | { readonly what: 'option-takes-none'; readonly option: string }
  | { readonly what: 'missing-argument'; readonly command: string; readonly name: string }
  | { readonly what: 'too-many'; readonly command: string; readonly extra: string }

export type Parsed =
  | { readonly ok: true; readonly command: Command | undefined; readonly given: Given }
  | { readonly ok: false; readonly mistake: Mistake }

const spelled = (option: Option): { type: 'boolean' | 'string'; multiple: true; short?: string } => ({
  type: option.kind === 'flag' ? 'boolean' : 'string',
  multiple: true,
  ...(option.short ? { short: option.short } : {}),
})

interface Heap {
  readonly flags: Set<string>
  readonly values: Map<string, string>
  readonly lists: Map<string, string[]>
}

function take(option: Option, value: string | undefined, heap: Heap): void {
  if (option.kind === 'flag') heap.flags.add(option.name)
  else if (option.kind === 'value') heap.values.set(option.name, value ?? '')
  else heap.lists.set(option.name, [...(heap.lists.get(option.name) ?? []), value ?? ''])
}

/** The first word that is no option names the command; without one, the command is undefined. */
export function parse(argv: readonly string[]): Parsed {
  const mistake = (m: Mistake): Parsed => ({ ok: false, mistake: m })
  const first = argv.findIndex((a, i) => !a.startsWith('-') && argv[i - 1] !== '--lang')
  const name = first < 0 ? undefined : argv[first]
  const command = name === undefined ? undefined : commandNamed(name)
  if (name !== undefined && command === undefined)
    return mistake({
      what: 'unknown-command',
      given: name,
      near: near(
        name,
        COMMANDS.filter((c) => !c.hidden).map((c) => c.name),
      ),
    })
  const options = [...(command?.options ?? []), ...COMMON]
  const rest = first < 0 ? argv : argv.toSpliced(first, 1)
  const { tokens } = parseArgs({
    args: [...rest],
    options: Object.fromEntries(options.map((o) => [o.name, spelled(o)])),
    strict: false,
    tokens: true,
  })
  const heap: Heap = { flags: new Set(), values: new Map(), lists: new Map() }
  const positionals: string[] = []
  for (const token of tokens) {
    if (token.kind === 'positional') positionals.push(token.value)
    if (token.kind !== 'option') continue
    const option = options.find((o) => o.name === token.name)
    if (option === undefined)
      return mistake({
        what: 'unknown-option',
        command: command?.name ?? '',
        given: token.rawName,
        near: near(
          token.name,
          options.map((o) => o.name),
        ).map((n) => `--${n}`),
      })
    if (option.kind === 'flag' && token.value !== undefined)
      return mistake({ what: 'option-takes-none', option: option.name })
    if (
      option.kind !== 'flag' &&
      (token.value === undefined || (!token.inlineValue && /^--?[a-z]/i.test(token.value)))
    )
      return mistake({ what: 'option-needs-value', option: option.name })
    take(option, token.value, heap)
  }
  const given: Given = { arguments: positionals, ...heap }
  if (command === undefined || heap.flags.has('help')) return { ok: true, command, given }
  const wanted = command.arguments
  const missing = wanted.slice(positionals.length).find((a) => a.need === 'must')
  if (missing) return mistake({ what: 'missing-argument', command: command.name, name: missing.name })
  const extra = wanted.some((a) => a.need === 'many') ? undefined : positionals[wanted.length]
  if (extra !== undefined) return mistake({ what: 'too-many', command: command.name, extra })
  return { ok: true, command, given }
}
