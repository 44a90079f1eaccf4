/**
 * The pages of docs/reference/, made from what the program itself uses: the fault catalogue, the looks and their trust, the
 * commands, and the schemas of the plan file and of the line protocol.
 */
import * as z from 'zod/mini'
import { COMMANDS } from '../src/cli/commands.ts'
import { commandHelp } from '../src/cli/help-text.ts'
import { lookCost, REACH, SWITCH_MINUTES } from '../src/core/checks/looks.ts'
import { planJsonSchema } from '../src/core/plan/json-schema.ts'
import type { Plan } from '../src/core/plan/plan.ts'
import { driverLine, PROTOCOL, toolLine } from '../src/plain/protocol.ts'
import { english } from '../src/wording/en/english.ts'
import { faultWords } from '../src/wording/en/faults.ts'
import { faultsPage } from '../src/wording/faults-page.ts'

const MADE = '<!-- Made by `npm run docs`; change the program, not this page. -->'

const table = (head: readonly string[], rows: readonly (readonly string[])[]): string[] => [
  `| ${head.join(' | ')} |`,
  `| ${head.map(() => '---').join(' | ')} |`,
  ...rows.map((row) => `| ${row.join(' | ')} |`),
]

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
  const of = (schemas: Readonly<Record<string, z.core.$ZodType>>): unknown[] =>
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
    'faults.md': faultsPage([plan], faultWords),
    'looks.md': looksPage(),
    'build.schema.json': json(planJsonSchema()),
    'lines.schema.json': json(linesSchema()),
  }
}
