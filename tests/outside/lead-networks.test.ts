/**
 * Voltage drop and the sharing of current, against a general circuit simulator (ngspice, compiled to WebAssembly) that
 * solves the same networks as circuits of resistors and current sinks. The fan-out, the lengths and the gauges
 * are those of real builds; supply and return conductor are both in the circuit, so the factor two is checked too.
 */
import { Simulation } from 'eecircuit-engine'
import { beforeAll, describe, expect, test } from 'vitest'
import { ohmsPerMetre } from '../../src/core/electrics/copper.ts'
import { leadOhms, type Run, sharedAmps, voltsAlong } from '../../src/core/electrics/lead-drop.ts'

/** Ohms per 1000 ft of solid copper at 20 °C. @source wire gauge table of a university page */
const OHMS_PER_1000_FT: Readonly<Record<number, number>> = {
  18: 6.385,
  20: 10.15,
  22: 16.14,
  24: 25.67,
  26: 40.81,
  28: 64.9,
}

interface Stretch {
  readonly at: string
  readonly mm: number
  readonly awg: number
  readonly amps: number
  readonly on?: readonly Stretch[]
}

const lead = (at: string, mm: number, awg: number, amps: number, ...on: Stretch[]): Stretch => ({
  at,
  mm,
  awg,
  amps,
  on,
})

const networks: readonly { readonly name: string; readonly volts: number; readonly run: Stretch }[] = [
  { name: 'one strip on half a metre of 26 AWG', volts: 5, run: lead('strip', 500, 26, 3) },
  { name: 'the same strip on 22 AWG', volts: 5, run: lead('strip', 500, 22, 3) },
  { name: 'one fan on a 12 V header', volts: 12, run: lead('fan', 600, 24, 1) },
  {
    name: 'a splitter with three fans on leads of unlike length',
    volts: 12,
    run: lead('y', 300, 24, 0, lead('a', 400, 28, 0.25), lead('b', 150, 28, 0.18), lead('c', 600, 26, 0.3)),
  },
  {
    name: 'four lit fans whose lights are chained',
    volts: 5,
    run: lead('1', 300, 28, 0.4, lead('2', 150, 28, 0.4, lead('3', 150, 28, 0.4, lead('4', 150, 28, 0.4)))),
  },
  {
    name: 'a hub on a supply lead, with six light leads',
    volts: 5,
    run: lead(
      'hub',
      650,
      18,
      0.05,
      ...[1, 2, 3, 4, 5, 6].map((n) => lead(`port${n}`, 200 + 90 * n, 26, 0.32 + 0.02 * n)),
    ),
  },
  {
    name: 'two hubs one after the other on one supply lead',
    volts: 12,
    run: lead('first', 550, 18, 1.2, lead('second', 150, 18, 2.1)),
  },
  {
    name: 'a supply lead with an adapter and a splitter behind it',
    volts: 12,
    run: lead(
      'plug',
      500,
      18,
      0,
      lead('adapter', 120, 20, 0, lead('y', 100, 22, 0, lead('f1', 300, 26, 0.4), lead('f2', 300, 26, 0.5))),
    ),
  },
  {
    name: 'a long extension at its limit',
    volts: 5,
    run: lead('extension', 1200, 28, 0, lead('ring', 250, 28, 0.9)),
  },
  {
    name: 'branches of branches',
    volts: 5,
    run: lead(
      'a',
      200,
      20,
      0.1,
      lead('b', 200, 24, 0.2, lead('c', 200, 26, 0.3), lead('d', 300, 28, 0.2)),
      lead('e', 400, 22, 0.5, lead('f', 100, 28, 0.1, lead('g', 100, 28, 0.1))),
    ),
  },
  {
    name: 'nothing drawn at all',
    volts: 12,
    run: lead('idle', 900, 28, 0, lead('far', 900, 28, 0)),
  },
]

const ours = (s: Stretch): Run => ({
  at: s.at,
  ohms: leadOhms(s.mm, s.awg),
  amps: s.amps,
  on: (s.on ?? []).map(ours),
})

/** The circuit: node `pX` on the supply side, `nX` on the return side, each with one conductor's resistance. */
function netlist(run: Stretch, volts: number): { text: string; ends: string[] } {
  const lines: string[] = [`V0 p_source 0 DC ${volts}`]
  const ends: string[] = []
  const walk = (s: Stretch, plus: string, minus: string): void => {
    const ohms = ((OHMS_PER_1000_FT[s.awg]! / 304.8) * s.mm) / 1000
    lines.push(`Rp_${s.at} ${plus} p_${s.at} ${ohms}`, `Rn_${s.at} n_${s.at} ${minus} ${ohms}`)
    lines.push(`I_${s.at} p_${s.at} n_${s.at} DC ${s.amps}`)
    ends.push(s.at)
    for (const next of s.on ?? []) walk(next, `p_${s.at}`, `n_${s.at}`)
  }
  walk(run, 'p_source', '0')
  return { text: `network\n${lines.join('\n')}\n.op\n.end\n`, ends }
}

const simulator = new Simulation()
async function solve(text: string): Promise<Map<string, number>> {
  simulator.setNetList(text)
  const result = await simulator.runSim()
  if (result.dataType !== 'real') throw new Error('the operating point is not real')
  return new Map(result.data.map((d) => [d.name, d.values[0]!]))
}

beforeAll(() => simulator.start())

describe('what a circuit simulator finds', () => {
  for (const { name, volts, run } of networks) {
    test(`volts at every place of ${name}`, async () => {
      const { text, ends } = netlist(run, volts)
      const simulated = await solve(text)
      const found = voltsAlong(ours(run), volts)
      for (const end of ends) {
        const there = simulated.get(`v(p_${end})`)! - simulated.get(`v(n_${end})`)!
        // 0.2 % of the drop: the gauge table is rounded to four figures
        const slack = 1e-6 + 0.002 * (volts - there)
        expect(Math.abs(found.get(end)! - there), end).toBeLessThanOrEqual(slack)
      }
    })
  }

  const shares: readonly (readonly [string, number, readonly (readonly [mm: number, awg: number])[]])[] = [
    [
      'two equal leads',
      4,
      [
        [500, 18],
        [500, 18],
      ],
    ],
    [
      'a thick and a thin lead',
      6,
      [
        [500, 18],
        [500, 22],
      ],
    ],
    [
      'a short and a long lead',
      3,
      [
        [200, 20],
        [800, 20],
      ],
    ],
    [
      'three unlike leads',
      8,
      [
        [300, 18],
        [450, 20],
        [600, 24],
      ],
    ],
  ]
  for (const [name, amps, leads] of shares) {
    test(`how ${name} share ${amps} A`, async () => {
      const lines = leads.map(
        ([mm, awg], i) => `V${i} s 0${i} DC 0\nR${i} 0${i} load ${2 * ohmsPerMetre(awg) * (mm / 1000)}`,
      )
      const simulated = await solve(
        `shares\nVs s 0 DC 12\n${lines.join('\n')}\nIl load 0 DC ${amps}\n.op\n.end\n`,
      )
      const found = sharedAmps(
        amps,
        leads.map(([mm, awg]) => leadOhms(mm, awg)),
      )
      leads.forEach((_, i) => {
        expect(found[i]).toBeCloseTo(simulated.get(`i(v${i})`)!, 6)
      })
      expect(found.reduce((a, b) => a + b, 0)).toBeCloseTo(amps, 9)
    })
  }
})
