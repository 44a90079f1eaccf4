/** What the reach says a change cannot touch is as on the planned build: held against looking at everything, the plain way. */
import { describe, expect, it } from 'vitest'
import { type Build, compile } from '../../../src/core/bench/build.ts'
import { type Edit, editText } from '../../../src/core/bench/edit.ts'
import { everything } from '../../../src/core/bench/everything.ts'
import { observableKey } from '../../../src/core/bench/observable.ts'
import { reachesOf } from '../../../src/core/bench/reach.ts'
import { run } from '../../../src/core/bench/run.ts'
import { faultsOf, type KnownFault } from '../../../src/core/faults/catalogue.ts'
import { faultText } from '../../../src/core/faults/fault.ts'
import { editOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'
import { example } from '../../support/examples.ts'
import fc from '../../support/fast-check.ts'
import { threeOnOneHub, twoApart } from '../../support/small-builds.ts'
import { buildOf, wiring } from '../../support/wired.ts'

/** Looks at everything the plain way too; returns the share of the looks that were let be. */
function compared(machine: Build, reachOf: ReturnType<typeof reachesOf>) {
  const all = everything(machine)
  return (faults: readonly KnownFault[], edits: readonly Edit[], contact: boolean): number => {
    const { see, scene } = run(machine, { plants: faults.map((f) => f.plant), edits, contact })
    const reach = reachOf(scene)
    const planned = all.map((o, i) => reach.value(i, o))
    const spots = reach.spots(scene)
    const touched = new Set(reach.looksBy(spots).flatMap((looks) => [...looks]))
    const wrong = all.filter((o, i) =>
      touched.has(i) ? !reach.goesBy(i, spots) : see(o) !== planned[i] || reach.goesBy(i, spots),
    )
    expect(
      wrong.map(observableKey),
      `${faults.map((f) => faultText(f.fault)).join()} after ${edits.map(editText).join()}`,
    ).toEqual([])
    return 1 - touched.size / all.length
  }
}

const edit = (machine: Build, n: number): Edit | undefined => {
  const wired = machine.plugs.filter((p) => (machine.socketOf[p] ?? -1) >= 0)
  const ref = (port = 0): string => machine.ports[port]?.ref ?? ''
  const a = ref(wired[n % wired.length])
  const kinds: readonly Edit[] = [
    { do: 'swap', a, b: ref(wired[(n * 7 + 1) % wired.length]) },
    { do: 'plug', plug: a, socket: ref(machine.sockets[(n * 3) % machine.sockets.length]) },
    { do: 'unplug', plug: a },
    { do: 'reseat', plug: a },
    { do: 'substitute', what: machine.parts[n % machine.parts.length]?.part.id ?? '' },
    { do: 'power', to: n % 3 ? 'on' : 'off' },
    { do: 'set', setting: 'host/program', value: n % 2 ? 'absent' : 'running' },
  ]
  return kinds[n % 11]
}

describe('what a change cannot touch is as planned', () => {
  it.each([
    ['small-three-fans', 5],
    ['plain-no-lights', 5],
    ['archive-ten-fans', 29],
  ])('under pairs of faults and edits: %s', (name, each) => {
    const machine = compile(example(name))
    const at = compared(machine, reachesOf(machine))
    const faults = faultsOf(machine)
    const shares = faults.flatMap((fault, i) => {
      if (i % each > 0) return []
      const other = faults[(i * 31 + 17) % faults.length]
      const edits = [edit(machine, i), edit(machine, i * 13 + 5)].flatMap((e) => e ?? [])
      return [
        at([fault], [], i % 2 === 0),
        at(other ? [fault, other] : [fault], i % 3 ? edits : [], i % 2 > 0),
      ]
    })
    // A fault touches little of a build; were everything touched, nothing would have been shown here.
    expect(shares.filter((s) => s > 0.5).length).toBeGreaterThan(shares.length / 3)
  })

  it('on generated builds', () => {
    fc.assert(
      fc.property(wiring, fc.nat(), fc.nat(), fc.nat(), fc.boolean(), (made, a, b, n, contact) => {
        const machine = compile(buildOf(made).plan())
        const faults = faultsOf(machine)
        const planted = [a, b].flatMap((i) => faults[i % faults.length] ?? [])
        compared(machine, reachesOf(machine))(
          planted,
          [edit(machine, n)].flatMap((e) => e ?? []),
          contact,
        )
      }),
      { numRuns: 8 },
    )
  })
})

describe('a change touches', () => {
  const two = compile(twoApart())
  const touched = (edits: readonly Edit[], machine = two): readonly string[] => {
    const all = everything(machine).filter((o) => o.what === 'spins' || o.what === 'rpm')
    const { scene } = run(machine, { plants: [], edits })
    const reach = reachesOf(machine)(scene)
    all.forEach((o, i) => {
      reach.value(i, o)
    })
    return [...new Set(reach.looksBy(reach.spots(scene)).flatMap((looks) => [...looks]))].map((i) =>
      observableKey(all[i] ?? expect.fail()),
    )
  }
  it('the fan whose plug is pulled and its reading', () => {
    expect(touched([editOf('unplug F1.motor')]).toSorted()).toEqual(['rpm board.SYS1', 'spins F1'])
  })
  it('nothing where nothing was changed in the end', () => {
    expect(touched([editOf('reseat F1.motor'), editOf('power off'), editOf('power on')])).toEqual([])
    expect(touched([editOf('unplug F1.motor'), editOf('plug F1.motor -> board.SYS1')])).toEqual([])
  })
  it('what goes by a setting where that was changed', () => {
    expect(touched([editOf('set headers/SYS2/pulses = 1')])).toEqual(['spins F2', 'rpm board.SYS2'])
  })
  it('nothing by a lighting program that is closed: what else is changed then is held against a build without it', () => {
    const lit = compile(threeOnOneHub())
    const all = everything(lit)
    const reachFor = reachesOf(lit)
    const share = (...edits: string[]): number => {
      const { scene } = run(lit, { plants: [], edits: edits.map(editOf) })
      const reach = reachFor(scene)
      all.forEach((o, i) => {
        reach.value(i, o)
      })
      return new Set(reach.looksBy(reach.spots(scene)).flatMap((looks) => [...looks])).size / all.length
    }
    const closed = 'set host/program = absent'
    expect([share(closed), share(closed, 'set headers/SYS1/pulses = 1')]).toEqual([
      0,
      share('set headers/SYS1/pulses = 1'),
    ])
  })
  it('what hangs on a source that is relieved, though no wire of it was moved', () => {
    const plan = build()
      .header('SYS1', { amps: 0.3 })
      .plainFan('F1..F2', { motor: { pins: 4, amps: 0.2, rpm: [500, 1500] } })
      .splitter('Y1', ['F1', 'F2'])
      .lead('Y1.in', 'board.SYS1')
      .plan()
    expect(touched([editOf('unplug F2.motor')], compile(plan)).toSorted()).toContain('spins F1')
  })
})
