/** What must hold on every wired build, whatever is plugged where: laws of the bench over generated builds. */

import { describe, expect, it } from 'vitest'
import { type Build, compile } from '../../../src/core/bench/build.ts'
import type { Edit } from '../../../src/core/bench/edit.ts'
import { everything } from '../../../src/core/bench/everything.ts'
import { type Observable, observableKey, type Value, valuesOf } from '../../../src/core/bench/observable.ts'
import { run, type Sight } from '../../../src/core/bench/run.ts'
import { faultsOf, type KnownFault } from '../../../src/core/faults/catalogue.ts'
import { plannedTroubles, wanted } from '../../../src/core/infer/planned.ts'
import { portsOf } from '../../../src/core/plan/ports.ts'
import { planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, type Wiring, wiring } from '../../support/wired.ts'

const benchOf = (made: Wiring): Build => compile(buildOf(made).plan())
const seeAll = (build: Build, sight: Sight): Map<string, Value | null> =>
  new Map(everything(build).map((o) => [observableKey(o), sight.see(o)]))
const healthy = (build: Build): Sight => run(build, { plants: [], edits: [] })

/** Everything that can be looked at there that breaks a law: one expectation for all of it, since each one made costs more than a look. */
const breaking = (build: Build, breaks: (o: Observable) => boolean): string[] =>
  everything(build).filter(breaks).map(observableKey)

/** A build and one of its faults, by a number that shrinks. */
const withFault = fc.record({ made: wiring, pick: fc.nat() })
const chosen = (build: Build, pick: number): KnownFault | undefined => {
  const faults = faultsOf(build)
  return faults[pick % Math.max(faults.length, 1)]
}

/** Ends of plugs, sockets and parts by number, for edits that may make sense or none. */
const anyEdit = fc.record({
  does: fc.constantFrom('unplug', 'plug', 'swap', 'reseat', 'substitute', 'free', 'off', 'on'),
  a: fc.nat(),
  b: fc.nat(),
})
function editIn(build: Build, { does, a, b }: { does: string; a: number; b: number }): Edit {
  const plug = (n: number): string => build.ports[build.plugs[n % build.plugs.length] ?? 0]?.ref ?? ''
  const socket = build.ports[build.sockets[b % build.sockets.length] ?? 0]?.ref ?? ''
  const part = build.parts[a % build.parts.length]?.part.id ?? ''
  switch (does) {
    case 'unplug':
      return { do: 'unplug', plug: plug(a) }
    case 'plug':
      return { do: 'plug', plug: plug(a), socket }
    case 'swap':
      return { do: 'swap', a: plug(a), b: plug(b) }
    case 'reseat':
      return { do: 'reseat', plug: plug(a) }
    case 'substitute':
      return { do: 'substitute', what: b % 2 ? part : plug(a) }
    case 'free':
      return { do: 'free', part }
    default:
      return { do: 'power', to: does === 'off' ? 'off' : 'on' }
  }
}

describe('a healthy build', () => {
  it('shows everything as it is wanted', () => {
    fc.assert(
      fc.property(wiring, (made) => {
        const build = benchOf(made)
        fc.pre(plannedTroubles(build).length === 0)
        const sight = healthy(build)
        expect(breaking(build, (o) => sight.see(o) !== wanted(build, o))).toEqual([])
      }),
      { numRuns: 35 },
    )
  })

  it('has volts at every pin that something feeds, and every plug where the plan has it', () => {
    fc.assert(
      fc.property(wiring, (made) => {
        const build = benchOf(made)
        fc.pre(plannedTroubles(build).length === 0)
        const sight = healthy(build)
        const goesTo = new Map(build.plan.leads.map((lead) => [lead.plug, lead.socket]))
        const breaks = (o: Observable): boolean => {
          const value = sight.see(o)
          if (o.what === 'volts') return value !== 'right' && value !== 'none'
          if (o.what === 'seated') return value !== 'yes'
          return o.what === 'goes' && value !== goesTo.get(o.at)
        }
        expect(breaking(build, breaks)).toEqual([])
      }),
      { numRuns: 30 },
    )
  })
})

describe('every sight', () => {
  it('has a word of the vocabulary or nothing, and the same twice, under any fault and any edits', () => {
    fc.assert(
      fc.property(
        withFault,
        fc.array(anyEdit, { maxLength: 4 }),
        fc.boolean(),
        ({ made, pick }, edits, contact) => {
          const build = benchOf(made)
          const fault = chosen(build, pick)
          const what = {
            plants: fault ? [fault.plant] : [],
            edits: edits.map((e) => editIn(build, e)),
            contact,
          }
          const [first, again] = [run(build, what), run(build, what)]
          const breaks = (o: Observable): boolean => {
            const value = first.see(o)
            const words: readonly Value[] | null = valuesOf[o.what]
            return again.see(o) !== value || (value !== null && words !== null && !words.includes(value))
          }
          expect(breaking(build, breaks)).toEqual([])
        },
      ),
      { numRuns: 35 },
    )
  })

  it('has nothing that needs power with the mains off', () => {
    const NEED: readonly string[] = [
      'rpm',
      'shows',
      'effect',
      'answers',
      'listed',
      'follows',
      'setting',
      'alarm',
    ]
    fc.assert(
      fc.property(withFault, ({ made, pick }) => {
        const build = benchOf(made)
        const fault = chosen(build, pick)
        const sight = run(build, { plants: fault ? [fault.plant] : [], edits: [], power: 'off' })
        const turns = !/seized|blocked/.test(fault?.fault.mode ?? '')
        const breaks = (o: Observable): boolean => {
          const value = sight.see(o)
          if (NEED.includes(o.what)) return value !== null
          if (o.what === 'volts') return value !== 'none'
          if (o.what === 'lit') return value !== 'dark'
          return o.what === 'spins' && turns && value !== 'normal'
        }
        expect(breaking(build, breaks)).toEqual([])
      }),
      { numRuns: 35 },
    )
  })

  it('does not change with the names of parts', () => {
    const renamed = (name: string): string => `x-${name}`
    fc.assert(
      fc.property(withFault, ({ made, pick }) => {
        const text = buildOf(made).text()
        const plan = planOf(text)
        const ids = new Set(plan.parts.map((p) => p.id))
        const rename = (s: string): string =>
          s.replace(/[A-Za-z]\w*/g, (word) => (ids.has(word) ? renamed(word) : word))
        const build = compile(plan)
        const other = compile(planOf(rename(text)))
        const [a, b] = [faultsOf(build), faultsOf(other)]
        expect(b.map((k) => `${k.fault.at}:${k.fault.mode}`)).toEqual(
          a.map((k) => `${rename(k.fault.at)}:${rename(k.fault.mode)}`),
        )
        const [k, l] = [a[pick % a.length], b[pick % a.length]]
        const [s, t] = [
          run(build, { plants: k ? [k.plant] : [], edits: [] }),
          run(other, { plants: l ? [l.plant] : [], edits: [] }),
        ]
        const breaks = (o: Observable): boolean => {
          const value = s.see(o)
          return t.see({ what: o.what, at: rename(o.at) }) !== (value === null ? null : rename(value))
        }
        expect(breaking(build, breaks)).toEqual([])
      }),
      { numRuns: 25 },
    )
  })
})

describe('edits that change nothing', () => {
  it('pushing home a plug that is home, and exchanging two plugs twice, change no sight', () => {
    fc.assert(
      fc.property(wiring, fc.nat(), fc.nat(), (made, a, b) => {
        const build = benchOf(made)
        const wired = build.plugs.filter((p) => (build.socketOf[p] ?? -1) >= 0)
        const ref = (n: number): string => build.ports[wired[n % wired.length] ?? 0]?.ref ?? ''
        const before = seeAll(build, healthy(build))
        const swap: Edit = { do: 'swap', a: ref(a), b: ref(b) }
        for (const edits of [
          [{ do: 'reseat', plug: ref(a) }],
          [swap, swap],
          [{ do: 'substitute', what: ref(a) }],
          [{ do: 'substitute', what: build.parts[a % build.parts.length]?.part.id ?? '' }],
          [
            { do: 'power', to: 'off' },
            { do: 'power', to: 'on' },
          ],
        ] as Edit[][])
          expect(seeAll(build, run(build, { plants: [], edits }))).toEqual(before)
      }),
      { numRuns: 30 },
    )
  })

  it('pulling a plug and putting it back where it was changes no sight', () => {
    fc.assert(
      fc.property(wiring, fc.nat(), (made, n) => {
        const build = benchOf(made)
        const lead = build.plan.leads[n % build.plan.leads.length]
        if (!lead) return
        const edits: Edit[] = [
          { do: 'unplug', plug: lead.plug },
          { do: 'plug', plug: lead.plug, socket: lead.socket },
        ]
        expect(seeAll(build, run(build, { plants: [], edits }))).toEqual(seeAll(build, healthy(build)))
      }),
      { numRuns: 30 },
    )
  })
})

/** Parts that can bear on a part: what it hangs on, up to the board and the supply, and all that hangs on those parts. */
function upstreamOf(build: Build, id: string): Set<string> {
  const { parts, leads } = build.plan
  const ownerOf = (ref: string): string => ref.slice(0, ref.indexOf('.'))
  const near = new Set([id])
  const queue = [id]
  while (queue.length > 0) {
    const part = parts.find((p) => p.id === queue[0])
    queue.shift()
    if (!part) continue
    const plugs = portsOf(part).filter((p) => p.gender === 'plug')
    for (const lead of leads.filter((l) => plugs.some((p) => p.ref === l.plug))) {
      const above = ownerOf(lead.socket)
      // Whatever hangs on the same part or on the same header lead may take its data, its tach or its volts.
      for (const other of leads)
        if (ownerOf(other.socket) === above && above !== 'board' && above !== 'supply')
          near.add(ownerOf(other.plug))
      if (above === 'board' || above === 'supply' || near.has(above)) {
        if (near.has(above) && !queue.includes(above) && !seen.has(above)) queue.push(above)
        continue
      }
      near.add(above)
      queue.push(above)
    }
    seen.add(part.id)
  }
  return near
}
const seen = new Set<string>()

describe('a fault', () => {
  it('on a joint, a lead or a part changes nothing of a part that does not hang on it', () => {
    fc.assert(
      fc.property(withFault, ({ made, pick }) => {
        const build = benchOf(made)
        // With a source over its limit, a plug pulled anywhere on it helps all others.
        fc.pre(plannedTroubles(build).length === 0)
        const local = faultsOf(build).filter(
          (k) =>
            !k.fault.at.includes('/') &&
            !/^(supply|board)\./.test(k.fault.at) &&
            !/^(in|swapped)-/.test(k.fault.mode),
        )
        const known = local[pick % Math.max(local.length, 1)]
        if (!known) return
        const at = known.fault.at.split('.')[0] ?? ''
        const before = healthy(build)
        const after = run(build, { plants: [known.plant], edits: [] })
        for (const { part } of build.parts) {
          seen.clear()
          if (upstreamOf(build, part.id).has(at)) continue
          for (const what of ['spins', 'lit', 'shows', 'listed'] as const) {
            const o: Observable = { what, at: part.id }
            expect([part.id, what, after.see(o)]).toEqual([part.id, what, before.see(o)])
          }
        }
      }),
      { numRuns: 30 },
    )
  })

  it('planted twice is the same as once', () => {
    fc.assert(
      fc.property(withFault, ({ made, pick }) => {
        const build = benchOf(made)
        const known = chosen(build, pick)
        // An exchange made twice is none.
        if (!known || known.fault.mode.startsWith('swapped-with-')) return
        const once = run(build, { plants: [known.plant], edits: [] })
        const twice = run(build, { plants: [known.plant, known.plant], edits: [] })
        expect(seeAll(build, twice)).toEqual(seeAll(build, once))
      }),
      { numRuns: 40 },
    )
  })
})
