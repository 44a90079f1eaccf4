/** The safety of every flow, proven over all states that any order of events can reach. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { transition } from 'xstate'
import { flowOfAll, flows } from '../../flows/all.ts'
import { flowsPage } from '../../src/wording/flows-page.ts'
import { events, explore, mover, roleOf } from '../support/explore.ts'
import { properties } from '../support/flow-properties.ts'
import { flowsReport } from '../support/flows-report.ts'

const all = flows.map(explore)

test('the page of the flows is up to date: npm run docs', () => {
  const page = readFileSync(new URL('../../docs/flows.md', import.meta.url), 'utf8')
  expect(flowsPage(flowsReport(all))).toBe(page)
})

describe.each(all.map((explored) => [explored.flow.id, explored] as const))(
  'the flow %s, with an engine that may propose anything',
  (_, explored) => {
    const { flow } = explored
    test.each(properties)('$says', ({ fails }) => {
      expect(fails(explored).slice(0, 5)).toEqual([])
    })

    test('has every one of its questions, the gate, hands in, the proof and all four ends within reach', () => {
      const reached = new Set(explored.states.map((s) => s.work))
      for (const { name } of flow.scoping) expect(reached).toContain(`scoping.${name}`)
      for (const work of [
        'gate.closing',
        'gate.opening',
        'handsIn.doing',
        'handsIn.asking',
        'proving.asking',
      ])
        expect(reached).toContain(`isolating.${work}`)
      expect([...reached].filter((work) => roleOf(work) === 'ended')).toHaveLength(4)
    })
  },
)

describe('flows of several symptoms at once', () => {
  const joined = [
    ['lights-dark', 'fan-still', 'zero-rpm'],
    ['works-then-stops', 'global-effect'],
  ].map((ids) => {
    const flow = flowOfAll(ids)
    if (!flow) throw new Error(`no flow for ${ids.join()}`)
    return explore(flow)
  })
  test.each(properties)('$says', ({ fails }) => {
    for (const explored of joined) expect(fails(explored).slice(0, 5)).toEqual([])
  })

  test('reach each of their questions, and each only once', () => {
    for (const { flow, states } of joined) {
      const reached = new Set(states.map((s) => s.work))
      for (const { name } of flow.scoping) expect(reached).toContain(`scoping.${name}`)
      expect(new Set(flow.scoping.map((t) => t.name)).size).toBe(flow.scoping.length)
    }
  })
})

test('the walk moves as the library moves the flows of a job', () => {
  for (const { flow, states } of all) {
    const move = mover(flow.machine)
    for (const { snapshot } of states.filter((_, i) => i % 100 === 0))
      for (const event of events) {
        const [wanted] = transition(flow.machine, snapshot, event)
        const { value, context, status } = move(snapshot, event)
        expect({ value, context, status }).toEqual({
          value: wanted.value,
          context: wanted.context,
          status: wanted.status,
        })
      }
  }
})

const named = (says: RegExp) => {
  const property = properties.find((p) => says.test(p.says))
  if (!property) throw new Error(`no property ${says}`)
  return property
}

describe('a flow made unsafe is found out', () => {
  const [flow] = flows
  if (!flow) throw new Error('no flows')
  const broken = (guards: Parameters<typeof flow.machine.provide>[0]['guards'] & {}) =>
    explore({ ...flow, machine: flow.machine.provide({ guards }) as typeof flow.machine })

  test('by hands in the case with power on, where the gate believes it is off', () => {
    const explored = broken({ powerIsOff: () => true, mustSwitchOff: () => false })
    expect(named(/hands in the case and power on/).fails(explored)).not.toEqual([])
  })

  test('by power that changes away from the gate', () => {
    const explored = broken({ atClosingGate: () => true })
    expect(named(/changes only at the gate/).fails(explored)).not.toEqual([])
  })

  test('by a step that comes to nothing, where no place is left for it', () => {
    const explored = broken({ mustSwitchOn: () => false })
    expect(named(/taken up/).fails(explored)).not.toEqual([])
  })
})
