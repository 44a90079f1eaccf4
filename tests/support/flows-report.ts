/** What exploring the flows found, as the page of the flows tells it. */
import { whichSymptom } from '../../flows/which-symptom.ts'
import { symptomText } from '../../src/wording/en/symptoms.ts'
import type { FlowsReport } from '../../src/wording/flows-page.ts'
import type { StateConfig } from '../../src/wording/mermaid.ts'
import type { Explored } from './explore.ts'
import { properties } from './flow-properties.ts'

export const flowsReport = (explored: readonly Explored[]): FlowsReport => ({
  flows: explored.map((one) => ({
    id: one.flow.id,
    name: symptomText(one.flow.id).name,
    machine: one.flow.machine.config as StateConfig,
    states: one.states.length,
    transitions: one.moves.length,
    refused: one.refused,
    fails: properties.filter((p) => p.fails(one).length > 0).map((p) => p.says),
  })),
  properties: properties.map((p) => p.says),
  guide: { machine: whichSymptom.config as StateConfig },
})
