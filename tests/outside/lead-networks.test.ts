/**
 * The volts that `check` tells of lights and fans, against a general circuit simulator (ngspice, compiled to WebAssembly)
 * that solves each plan as a circuit of wires and current sinks. Told must be whoever the simulator leaves with too little,
 * nobody else, and with its figure. In both, and simpler than a real machine on purpose: loads draw their label's current
 * whatever voltage is left (real ones draw a little less, so no less is left than is told), copper is at 20 °C, contacts
 * and a strip's own foil lose nothing, and a rail stands at its volts where a lead begins.
 */
import { Simulation } from 'eecircuit-engine'
import { beforeAll, describe, expect, test } from 'vitest'
import { checkOutput } from '../../src/cli/commands/check.ts'
import { english } from '../../src/wording/en/english.ts'
import type { Build } from '../support/build.ts'
import fc from '../support/fast-check.ts'
import { everyWay, networks } from './lead-builds.ts'
import { circuitOf } from './plan-circuit.ts'

const simulator = new Simulation()
beforeAll(() => simulator.start())

/** Volts at each load, by its part and what of it draws there. */
async function simulated(made: Build, five: number, spread = false): Promise<Map<string, number>> {
  const { netlist, loads } = circuitOf(made.text(), five, spread)
  simulator.setNetList(netlist)
  const result = await simulator.runSim()
  if (result.dataType !== 'real') throw new Error('the operating point is not real')
  const at = new Map(result.data.map((d) => [d.name.toLowerCase(), d.values[0]!]))
  const volts = (node: string): number => (node === '0' ? 0 : at.get(`v(${node.toLowerCase()})`)!)
  return new Map(loads.map((l) => [`${l.part} ${l.what}`, volts(l.plus) - volts(l.ground)]))
}

interface Told {
  readonly rule: string
  readonly figure: number
  readonly facts: { readonly part?: string | string[]; readonly fan?: string | string[] }
}
/** Figures that `check --format json` tells, by rule and then as above. */
async function told(made: Build): Promise<Map<string, number>> {
  const { out } = await checkOutput(made.read(), async () => english, {
    format: 'json',
    strict: false,
    ascii: false,
    width: Number.POSITIVE_INFINITY,
    version: '0.0.0',
  })
  const { findings } = JSON.parse(out.join('\n')) as { findings: Told[] }
  return new Map(
    findings
      .filter(({ rule }) => rule.includes('-drop'))
      .flatMap(({ rule, figure, facts }) =>
        [facts.part ?? facts.fan ?? []]
          .flat()
          .map((part) => [`${rule} ${part} ${facts.fan ? 'fan' : 'light'}`, figure] as const),
      ),
  )
}

/** @source LED chip data sheet, 4.5 V; public 4-wire fan specification, 11.4 V; ATX12V design guide, 5 V less 5 % */
const LED_LEAST = 4.5
const FAN_LEAST = 11.4
const LOW_RAIL = 4.75

/** What differs between check and simulator, and how many figures were held against each other. */
async function compared(made: Build): Promise<{ wrong: string[]; figures: number }> {
  const [nominal, low] = [await simulated(made, 5), await simulated(made, LOW_RAIL)]
  const found = await told(made)
  const wrong: string[] = []
  let figures = 0
  for (const [rule, what, start, least, volts] of [
    ['light-drop', 'light', 5, LED_LEAST, nominal],
    ['light-drop-low-rail', 'light', LOW_RAIL, LED_LEAST, low],
    ['fan-drop', 'fan', 12, FAN_LEAST, nominal],
  ] as const) {
    for (const [load, there] of volts) {
      if (!load.endsWith(` ${what}`) || load.endsWith(' plain light')) continue
      // 0.2 % of what is lost: the printed gauge table is rounded to four figures
      const slack = 1e-6 + 0.002 * (start - there)
      const figure = found.get(`${rule} ${load}`)
      // what falls short at the nominal rail is not told again at its lower limit
      const short = there < least && !(start === LOW_RAIL && nominal.get(load)! < least)
      if (figure !== undefined && ++figures && Math.abs(figure - there) > slack)
        wrong.push(`${rule} ${load}: told ${figure}, simulated ${there}`)
      if ((figure !== undefined) !== short && Math.abs(there - least) > slack)
        wrong.push(`${rule} ${load}: ${figure === undefined ? 'not told' : 'told'}, simulated ${there}`)
    }
  }
  return { wrong, figures }
}

describe('what check tells of volts is what a circuit simulator finds', () => {
  for (const [name, made] of Object.entries(networks))
    test(name, async () => {
      const { wrong, figures } = await compared(made)
      expect(wrong).toEqual([])
      expect(figures > 0).toBe(!name.includes('thick and short enough'))
    })

  test('builds that nobody drew, with every way at once', async () => {
    const awg = fc.constantFrom(18, 20, 22, 24, 26, 28)
    const copper = fc.record({ mm: fc.integer({ min: 50, max: 1500 }), awg })
    const loads = fc.array(fc.tuple(fc.integer({ min: 5, max: 120 }), copper), { minLength: 6, maxLength: 6 })
    let all = 0
    await fc.assert(
      fc.asyncProperty(loads, fc.array(copper, { minLength: 6, maxLength: 6 }), async (loads, leads) => {
        const { wrong, figures } = await compared(everyWay(loads, leads))
        all += figures
        expect(wrong).toEqual([])
      }),
      { numRuns: 12 },
    )
    expect(all).toBeGreaterThan(12)
  })

  test('with plugs spread along a supply lead no less is left than check tells', async () => {
    const made = networks['three fans on one supply lead, by plugs of their own']!
    const found = await told(made)
    const spread = await simulated(made, 5, true)
    expect(found.size).toBeGreaterThan(0)
    for (const [load, figure] of found)
      expect(spread.get(load.replace('fan-drop ', ''))!).toBeGreaterThan(figure)
  })
})
