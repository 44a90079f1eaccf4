/**
 * The pages of docs/reference/, made from what the program itself uses: the fault catalogue, the looks and their trust, the
 * audit rules, the flows as state charts, the commands, and the schemas of the plan file and of the line protocol.
 */
import * as z from 'zod'
import { flows } from '../flows/all.ts'
import { COMMANDS } from '../src/cli/commands.ts'
import { commandHelp } from '../src/cli/help-text.ts'
import { compile } from '../src/core/bench/build.ts'
import { lookCost, REACH, SWITCH_MINUTES } from '../src/core/checks/looks.ts'
import { catalogue } from '../src/core/faults/catalogue.ts'
import { planJsonSchema } from '../src/core/plan/json-schema.ts'
import type { Plan } from '../src/core/plan/plan.ts'
import { driverLine, PROTOCOL, toolLine } from '../src/plain/protocol.ts'
import { english } from '../src/wording/en/english.ts'

const MADE = '<!-- Made by `npm run docs`; change the program, not this page. -->'

const table = (head: readonly string[], rows: readonly (readonly string[])[]): string[] => [
  `| ${head.join(' | ')} |`,
  `| ${head.map(() => '---').join(' | ')} |`,
  ...rows.map((row) => `| ${row.join(' | ')} |`),
]

const figure = (x: number): string => String(Number(x.toPrecision(2)))

/** Every mode with how often it can sit in an example build and how likely one of them is held to be. */
function faultsPage(plan: Plan): string {
  const build = compile(plan)
  const rows = new Map<string, { family: string; loose: boolean; weights: number[]; example: string }>()
  for (const entry of catalogue) {
    const seats = entry.seats(build)
    const key = `${entry.mode} ${entry.family}`
    const row = rows.get(key) ?? {
      family: entry.family,
      loose: entry.intermittent === true,
      weights: [],
      example: '',
    }
    row.weights.push(...seats.map((s) => s.weight))
    const [first] = seats
    if (row.example === '' && first) row.example = `${first.at}:${entry.mode}${first.arg}`
    rows.set(key, row)
  }
  const all = [...rows.values()].flatMap((r) => r.weights).reduce((a, b) => a + b, 0)
  return [
    '# Faults',
    '',
    MADE,
    '',
    `What can be wrong with one thing. Weights are judgement on a common scale (1: a plug left out on a new build), smoothed and adjustable, not measured frequency. Places and shares are those of "${plan.build}".`,
    '',
    ...table(
      ['mode', 'family', 'comes and goes', 'places', 'weight of one', 'share of all', 'example'],
      [...rows].map(([key, { family, loose, weights, example }]) => [
        `\`${key.split(' ')[0]}${key.split(' ')[0]?.endsWith('-') ? '…' : ''}\``,
        family,
        loose ? 'yes' : '',
        String(weights.length),
        weights.length === 0
          ? ''
          : [...new Set([Math.min(...weights), Math.max(...weights)].map(figure))].join(' to '),
        weights.length === 0 ? '' : `${((100 * weights.reduce((a, b) => a + b, 0)) / all).toFixed(1)} %`,
        example === '' ? '' : `\`${example}\``,
      ]),
    ),
    '',
  ].join('\n')
}

function looksPage(): string {
  return [
    '# Looks',
    '',
    MADE,
    '',
    'What can be looked at, what it costs, and how often an unaided answer is wrong (common practice, no source; to be replaced by counts).',
    `Minutes with hands in are for a place that is easy to reach; they count ${REACH.tight} times where it is tight and ${REACH['behind-cover']} times behind a cover. A change of power costs ${SWITCH_MINUTES} minutes.`,
    '',
    ...table(
      ['what', 'minutes', 'wrong', 'power', 'hands', 'tools'],
      Object.entries(lookCost).map(([what, cost]) => [
        `\`${what}\``,
        String(cost.minutes),
        `${Math.round(100 * cost.error)} %`,
        cost.power,
        cost.hands,
        cost.tools.join(', '),
      ]),
    ),
    '',
  ].join('\n')
}

interface State {
  readonly initial?: unknown
  readonly type?: unknown
  readonly states?: Readonly<Record<string, State>>
  readonly on?: Readonly<Record<string, unknown>>
  readonly always?: unknown
}

interface Move {
  readonly target?: unknown
  readonly guard?: unknown
}

const listed = (moves: unknown): unknown[] => (Array.isArray(moves) ? moves : [moves])

const guardName = (guard: unknown): string =>
  guard === undefined
    ? ''
    : typeof guard === 'string'
      ? ` [${guard}]`
      : ` [${(guard as { readonly type?: string }).type ?? 'guarded'}]`

/** A machine's states and moves as a Mermaid chart; what leads nowhere else is left out. */
function chart(config: State): string[] {
  const lines = ['```mermaid', 'stateDiagram-v2']
  const name = (path: readonly string[]): string => path.join('_')
  const draw = (state: State, path: readonly string[], indent: string): void => {
    const states = Object.entries(state.states ?? {})
    const parallel = state.type === 'parallel'
    if (typeof state.initial === 'string') lines.push(`${indent}[*] --> ${name([...path, state.initial])}`)
    states.forEach(([id, child], i) => {
      const here = [...path, id]
      if (Object.keys(child.states ?? {}).length > 0) {
        lines.push(`${indent}state "${id}" as ${name(here)} {`)
        draw(child, here, `${indent}  `)
        lines.push(`${indent}}`)
      } else lines.push(`${indent}state "${id}" as ${name(here)}`)
      if (parallel && i < states.length - 1 && path.length > 0) lines.push(`${indent}--`)
    })
    for (const [id, child] of states) {
      const moves = [
        ...Object.entries(child.on ?? {}),
        ...(child.always === undefined ? [] : [['', child.always] as const]),
      ]
      for (const [event, to] of moves)
        for (const one of listed(to)) {
          const move: Move = typeof one === 'string' ? { target: one } : ((one ?? {}) as Move)
          if (typeof move.target !== 'string') continue
          const target = move.target.startsWith('#')
            ? move.target.slice(1).replaceAll('.', '_')
            : name([...path, ...move.target.replace(/^\./u, `${id}.`).split('.')])
          const label = `${event}${guardName(move.guard)}`.trim()
          lines.push(`${indent}${name([...path, id])} --> ${target}${label ? `: ${label}` : ''}`)
        }
    }
  }
  draw(config, [], '  ')
  return [...lines, '```']
}

function flowsPage(): string {
  return [
    '# Flows',
    '',
    MADE,
    '',
    'One machine a symptom. Power is a region beside the work: with power on no state has hands in the case. A name in brackets is a guard.',
    '',
    ...flows.flatMap((flow) => [
      `## ${english.symptom(flow.id).name} (\`${flow.id}\`)`,
      '',
      `${english.symptom(flow.id).means}`,
      '',
      `Asked first: ${flow.scoping.map((t) => ('map' in t ? `a map of \`${t.map}\`` : `\`${t.about}\``)).join(', ')}. Cross-checks: ${flow.crossChecks.map((c) => `\`${c}\``).join(', ')}.`,
      '',
      ...chart(flow.machine.config as State),
      '',
    ]),
  ].join('\n')
}

function commandsPage(): string {
  const { program } = english
  return [
    '# Commands',
    '',
    MADE,
    '',
    ...COMMANDS.filter((c) => !c.hidden).flatMap((command) => [
      `## ${command.name}`,
      '',
      '```text',
      ...commandHelp(command, program),
      '```',
      '',
    ]),
    '## Exit codes',
    '',
    ...table(
      ['code', 'means'],
      program.exitCodes.map(([code, means]) => [String(code), means]),
    ),
    '',
  ].join('\n')
}

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`

function linesSchema(): unknown {
  const of = (schemas: Readonly<Record<string, z.ZodType>>): unknown[] =>
    Object.values(schemas).map((schema) => z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }))
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: `whichlead line protocol, version ${PROTOCOL}`,
    description: 'One object a line. Unknown fields are ignored on both sides.',
    $defs: {
      tool: { description: 'what the tool writes', anyOf: of(toolLine) },
      driver: { description: 'what the driver writes', anyOf: of(driverLine) },
    },
    anyOf: [{ $ref: '#/$defs/tool' }, { $ref: '#/$defs/driver' }],
  }
}

/** Every page by its file name. @param plan the example build whose faults are counted */
export function referencePages(plan: Plan): Readonly<Record<string, string>> {
  return {
    'commands.md': commandsPage(),
    'faults.md': faultsPage(plan),
    'looks.md': looksPage(),
    'flows.md': flowsPage(),
    'build.schema.json': json(planJsonSchema()),
    'lines.schema.json': json(linesSchema()),
  }
}
