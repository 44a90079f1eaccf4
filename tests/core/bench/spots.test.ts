/** Each place in a moment that a look may go by is a spot of its own, and a change is told of at just its place. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { idealMomentOf, type Moment, momentOf } from '../../../src/core/bench/moment.ts'
import { type Spot, spotsOf, type When } from '../../../src/core/bench/spots.ts'
import { asPlanned, type PartState, type World } from '../../../src/core/bench/world.ts'
import { example } from '../../support/examples.ts'

const machine = compile(example('small-three-fans'))
const { noting, differences } = spotsOf(machine)
const planned = momentOf(machine, asPlanned(machine))
const ids = machine.parts.map((_, i) => i)
const hung = (part: number): readonly [number, PartState] => [part, { hung: true }]

type Change = Partial<World> & { readonly strain?: Float32Array }
const changed = ({ strain = planned.strain, ...world }: Change): Moment => ({
  ...planned,
  strain,
  world: { ...planned.world, ...world },
})
const told = (change: Change, when: When = 'now'): readonly Spot[] =>
  differences(changed(change), planned, when)

/** Every entry of everything otherwise: one change a kind of place, each with as many places as it has. */
const { world } = planned
const { settings } = world
const everywhere: Readonly<Record<string, readonly [Change, places: number]>> = {
  socketOf: [{ socketOf: world.socketOf.map((n) => n + 1) }, machine.ports.length],
  plugIn: [{ plugIn: world.plugIn.map((n) => n + 1) }, machine.ports.length],
  joint: [{ joint: world.joint.map((n) => n + 1) }, machine.ports.length],
  cut: [{ cut: world.cut.map((n) => n + 1) }, machine.ports.length],
  frayed: [{ frayed: world.frayed.map((n) => n + 1) }, machine.ports.length],
  port: [{ port: world.port.map((n) => n + 1) }, machine.ports.length],
  supplyEnd: [{ supplyEnd: world.supplyEnd.map((n) => n + 1) }, machine.plan.supply.leads.length],
  parts: [{ parts: new Map(ids.map(hung)) }, machine.parts.length],
  held: [{ held: new Map(machine.ports.map((_, i) => [i, 1])) }, machine.ports.length],
  strain: [{ strain: planned.strain.map((s) => s / 2) }, machine.ports.length],
  headers: [{ settings: { ...settings, headers: {} } }, Object.keys(settings.headers).length],
  channels: [{ settings: { ...settings, channels: {} } }, Object.keys(settings.channels).length],
  host: [{ settings: { ...settings, host: { program: 'absent', globalEffect: 'on' } } }, 2],
}

describe('a spot', () => {
  it('is told of each entry that is otherwise, no two of them the same, now and then apart', () => {
    const spots = (['now', 'then'] as const).flatMap((when) =>
      Object.entries(everywhere).flatMap(([name, [change, places]]) => {
        const found = told(change, when)
        expect(found.length, `${name} ${when}`).toBe(places)
        return found
      }),
    )
    expect(spots.length).toBeGreaterThan(0)
    expect(new Set(spots).size).toBe(spots.length)
    expect(spots.every(Number.isSafeInteger)).toBe(true)
  })

  it('is not told of where nothing is otherwise, copied or not', () => {
    expect(told({})).toEqual([])
    expect(told({ joint: world.joint.slice(), parts: new Map(), settings: { ...settings } })).toEqual([])
  })

  it('is told of the one entry of a part or a setting that is otherwise, beside others that are not', () => {
    const before = changed({ parts: new Map([hung(1)]) })
    const hungToo = changed({ parts: new Map([...before.world.parts, hung(2)]) })
    expect(differences(hungToo, before, 'now')).toEqual([told({ parts: new Map([hung(2)]) })[0]])

    const [first = expect.fail(), ...others] = Object.entries(settings.headers)
    const [name, setting] = first
    const headers = { ...Object.fromEntries(others), [name]: { ...setting, pulses: 1 as const } }
    expect(others.length).toBeGreaterThan(0)
    expect(told({ settings: { ...settings, headers } })).toHaveLength(1)
  })
})

describe('a noting moment', () => {
  it('shows what the moment shows, and tells of the spot at which a change of it would be found', () => {
    const seen: Spot[] = []
    const then = idealMomentOf(machine, { ...asPlanned(machine), parts: new Map([hung(1)]) })
    const of = noting(then, 'then', (spot) => seen.push(spot))()
    const plug = machine.plugs[0] ?? expect.fail()
    expect(of.world.joint[plug]).toBe(0)
    expect(of.strain[plug]).toBe(1)
    expect(of.world.parts.get(1)).toEqual({ hung: true })
    expect(of.world.settings.host.program).toBe(settings.host.program)
    const joint = world.joint.slice()
    joint[plug] = 1
    const strain = planned.strain.slice()
    strain[plug] = 0.5
    const host = { ...settings.host, program: 'absent' as const }
    const changes: Change[] = [
      { joint },
      { strain },
      { parts: new Map([hung(1)]) },
      { settings: { ...settings, host } },
    ]
    expect(seen).toEqual(changes.flatMap((change) => told(change, 'then')))
  })
})
