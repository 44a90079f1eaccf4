/** The page of all flows: what was proven of each, counted, and each drawn from its own machine. */
import { type StateConfig, stateChart } from './mermaid.ts'

export interface FlowReport {
  readonly id: string
  /** The symptom as a person would say it. */
  readonly name: string
  readonly machine: StateConfig
  readonly states: number
  readonly transitions: number
  /** Events that were offered to a state and openly refused. */
  readonly refused: number
  /** Properties that do not hold; an honest page names them. */
  readonly fails: readonly string[]
}

export interface FlowsReport {
  readonly flows: readonly FlowReport[]
  readonly properties: readonly string[]
  /** The guide for who cannot name the symptom. */
  readonly guide: { readonly machine: StateConfig }
}

const chart = (lines: readonly string[]): string[] => ['```mermaid', ...lines, '```', '']

const sum = (flows: readonly FlowReport[], of: (flow: FlowReport) => number): string =>
  String(flows.reduce((total, flow) => total + of(flow), 0))

const verdict = (flow: FlowReport): string =>
  flow.fails.length === 0 ? 'all' : `not: ${flow.fails.join(' ')}`

/** Markdown. */
export function flowsPage({ flows, properties, guide }: FlowsReport): string {
  const [first] = flows
  const lines = [
    '# The flows',
    '',
    'Written by `npm run docs` from the machines themselves; a test fails when it is stale.',
    '',
    'Each symptom has a machine of its own in `flows/`. It begins with the questions of that symptom, holds the answers',
    'against the plan, and then hands over to the part that all share: carrying out what the engine proposes, behind the',
    'gate where hands go in. Power is a region of its own beside the work.',
    '',
    '## What is proven',
    '',
    'Every state that any order of events can reach was visited, with an engine that may propose any step of any kind at',
    'any time, sensible or not. In all of them:',
    '',
    ...properties.map((says, i) => `${i + 1}. ${says}`),
    '',
    '| flow | states | transitions | events refused | holds |',
    '| --- | ---: | ---: | ---: | --- |',
    ...flows.map(
      (f) => `| [${f.id}](#${f.id}) | ${f.states} | ${f.transitions} | ${f.refused} | ${verdict(f)} |`,
    ),
    `| together | ${sum(flows, (f) => f.states)} | ${sum(flows, (f) => f.transitions)} | ${sum(flows, (f) => f.refused)} | |`,
    '',
    '## What all share',
    '',
    'The power region, and the isolation. Undoing leads to `routing` from anywhere in it, so a question that is asked again',
    'is reached through the gate if power has changed since.',
    '',
    ...(first ? chart(stateChart(first.machine, { under: 'power', folded: [] })) : []),
    ...(first ? chart(stateChart(first.machine, { under: 'work.isolating', folded: ['work.ended'] })) : []),
    '## Which symptom',
    '',
    'For who cannot name it: three questions at most, by what is seen.',
    '',
    ...chart(stateChart(guide.machine, { under: '', folded: [] })),
    '## The symptoms',
    '',
    ...flows.flatMap((flow) => [
      `### ${flow.id}`,
      '',
      `${flow.name}.`,
      '',
      ...chart(stateChart(flow.machine, { under: 'work', folded: ['work.isolating', 'work.ended'] })),
    ]),
  ]
  return `${lines.join('\n').trimEnd()}\n`
}
