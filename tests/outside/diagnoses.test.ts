/**
 * Which faults fit what was seen, against a general solver for logic (logic-solver, which has MiniSat inside). The wiring
 * is said once more in plain logic, with a variable for each fault, and the solver lists every single fault and every
 * pair that is consistent with what was seen. The engine must hold to be consistent just these.
 */
import Logic from 'logic-solver'
import { describe, expect, it, test } from 'vitest'
import { compile } from '../../src/core/bench/build.ts'
import { assess, knowledgeOf } from '../../src/core/infer/assess.ts'
import { posterior } from '../../src/core/infer/belief.ts'
import type { Evidence } from '../../src/core/infer/evidence.ts'
import { type Hypothesis, hypotheses, pairOf } from '../../src/core/infer/hypothesis.ts'
import { sightsOf } from '../../src/core/infer/sights.ts'
import { build } from '../support/build.ts'

type Formula = Parameters<typeof Logic.or>[0]

/** All sets of at most `most` of the faults that what is required leaves possible, by which of `shown` is then true. */
function diagnoses(
  faults: readonly string[],
  most: number,
  required: readonly Formula[],
  shown: readonly string[] = [],
): ReadonlyMap<string, ReadonlySet<string>> {
  const solver = new Logic.Solver()
  solver.require(...required, Logic.lessThanOrEqual(Logic.sum(...faults), Logic.constantBits(most)))
  const found = new Map<string, Set<string>>()
  for (let solution = solver.solve(); solution; solution = solver.solve()) {
    const holds = new Set(solution.getTrueVars())
    const broken = faults.filter((f) => holds.has(f))
    const seen = shown.filter((name) => holds.has(name)).join()
    found.set(seen, (found.get(seen) ?? new Set()).add([...broken].sort().join(' + ')))
    // Not these very ones again, whatever else is true.
    solver.require(Logic.or(...faults.map((f) => (holds.has(f) ? `-${f}` : f))))
  }
  return found
}

/** Those of which no smaller part is one too. */
const minimal = (all: ReadonlySet<string>): string[] => {
  const sets = [...all].map((d) => d.split(' + ').filter((f) => f !== ''))
  return sets
    .filter((d) => !sets.some((other) => other.length < d.length && other.every((f) => d.includes(f))))
    .map((d) => d.join(' + '))
    .sort()
}

// R. Reiter, Artificial Intelligence 32(1), 1987: the full adder of two exclusive ors, two ands and an or (from memory).
test('the full adder that adds 1, 0 and 1 to 1 without a carry has the published diagnoses', () => {
  const gates = ['X1', 'X2', 'A1', 'A2', 'O1']
  const sound = (gate: string, out: string, does: Formula): Formula => Logic.or(gate, Logic.equiv(out, does))
  const found = diagnoses(gates, 5, [
    sound('X1', 'half', Logic.xor('a', 'b')),
    sound('X2', 'total', Logic.xor('half', 'c')),
    sound('A1', 'both', Logic.and('a', 'b')),
    sound('A2', 'over', Logic.and('half', 'c')),
    sound('O1', 'carry', Logic.or('both', 'over')),
    ...['a', '-b', 'c', 'total', '-carry'],
  ]).get('')
  expect(minimal(found ?? new Set())).toEqual(['A2 + X2', 'O1 + X2', 'X1'])

  // The same by belief: every set of broken gates is a suspect, what it allows is an answer.
  const sets = Array.from({ length: 32 }, (_, bits) => gates.filter((_, i) => (bits >> i) % 2 === 1).sort())
  const bit = (n: number, i: number): boolean => (n >> i) % 2 === 1
  const allows = (broken: readonly string[]): number =>
    Array.from({ length: 32 }, (_, n) => n).some((n) => {
      const [half, total, both, over, carry] = [0, 1, 2, 3, 4].map((i) => bit(n, i))
      const does = { X1: half === true, X2: total === (half !== true), A1: both === false, A2: over === half }
      const or = carry === (both || over)
      const fits = Object.entries({ ...does, O1: or }).every(
        ([gate, right]) => right || broken.includes(gate),
      )
      return fits && total === true && carry === false
    })
      ? 1
      : 0
  const belief = posterior(
    sets.map((d) => 0.01 ** d.length),
    [sets.map(allows)],
  )
  expect(new Set(sets.flatMap((d, i) => ((belief[i] ?? 0) > 0 ? [d.join(' + ')] : [])))).toEqual(found)
})

describe('a splitter of three fans and a fan by itself', () => {
  const machine = compile(
    build()
      .header('SYS1')
      .header('SYS2')
      .plainFan('F1..F4')
      .splitter('Y1', ['F1', 'F2', 'F3'])
      .lead('Y1.in', 'board.SYS1')
      .lead('F4.motor', 'board.SYS2')
      .plan(),
  )
  const fans = ['F1', 'F2', 'F3', 'F4']
  const spins = (fan: string): string => `spins ${fan}`
  const reads = (header: string): string => `reads ${header}`
  const none = (...faults: readonly string[]): Formula => Logic.and(...faults.map((f) => `-${f}`))

  const lead = (plug: string): string[] => ['unplugged', 'open-12V', 'open-GND'].map((m) => `${plug}:${m}`)
  const supply = ['board.SYS1:dead', ...lead('Y1.in')]
  /** What stops a fan, and what hides its speed. */
  const stops = (fan: string): string[] => [
    ...(fan === 'F4' ? ['board.SYS2:dead'] : [...supply, `Y1.${fan.slice(1)}:dead`]),
    ...lead(`${fan}.motor`),
    `${fan}:motor-dead`,
  ]
  const hides = (fan: string, header: string): string[] => [
    `${fan}.motor:open-TACH`,
    `${fan}:tach-dead`,
    `board.${header}:tach-dead`,
    ...(header === 'SYS1' ? ['Y1.in:open-TACH'] : []),
  ]
  const wiring: readonly Formula[] = [
    ...fans.map((fan) => Logic.equiv(spins(fan), none(...stops(fan)))),
    // A splitter hands back the speed of its first way.
    Logic.equiv(reads('SYS1'), Logic.and(spins('F1'), none(...hides('F1', 'SYS1')))),
    Logic.equiv(reads('SYS2'), Logic.and(spins('F4'), none(...hides('F4', 'SYS2')))),
  ]
  const faults = [...new Set([...fans.flatMap(stops), ...hides('F1', 'SYS1'), ...hides('F4', 'SYS2')])].sort()

  const singles = hypotheses(machine, () => true, []).filter((h) => faults.includes(h.id))
  const pairs = singles.flatMap((a, i) =>
    singles.slice(i + 1).flatMap((b): Hypothesis[] => {
      const pair = pairOf(a, b)
      return pair ? [pair] : []
    }),
  )
  const nameOf = (h: Hypothesis): string =>
    h.faults
      .map((f) => `${f.at}:${f.mode}`)
      .sort()
      .join(' + ')
  /** Two ways for one lead or part to be broken are no pair to the engine. */
  const known = new Set(['', ...[...singles, ...pairs].map(nameOf)])

  const observe = [
    ...fans.map((at) => ({ what: 'spins' as const, at })),
    ...['SYS1', 'SYS2'].map((header) => ({ what: 'rpm' as const, at: `board.${header}` })),
  ]
  const healthy = ['normal', 'normal', 'normal', 'normal', 'plausible', 'plausible']
  const wrong = ['no', 'no', 'no', 'no', 'zero', 'zero']
  const patterns = Array.from({ length: 64 }, (_, bits) => observe.map((_, i) => (bits >> i) % 2 === 0))
  const shown = [...fans.map(spins), ...['SYS1', 'SYS2'].map(reads)]
  const found = diagnoses(faults, 2, wiring, shown)
  /** What the solver finds where these are right and the others wrong. */
  const solved = (right: readonly boolean[]): string[] =>
    [...(found.get(shown.filter((_, i) => right[i]).join()) ?? [])].filter((d) => known.has(d))

  it('is known to the engine with all faults of the logic', () => {
    expect(singles.map((h) => h.id).sort()).toEqual(faults)
    expect(pairs.length).toBeGreaterThan(300)
  })

  it('has, for everything that can be seen, just the single faults and pairs that the solver finds', () => {
    const sights = sightsOf(machine)
    let fits = 0
    for (const right of patterns) {
      const values = right.map((is, i) => (is ? healthy[i] : wrong[i]) ?? null)
      const ours = new Set(
        [...singles, ...pairs].filter((h) => sights.shows(h, [], observe, values)).map(nameOf),
      )
      if (right.every(Boolean)) ours.add('')
      const theirs = new Set(solved(right))
      expect([...ours].sort()).toEqual([...theirs].sort())
      expect(minimal(ours)).toEqual(minimal(theirs))
      fits += theirs.size
    }
    // Every diagnosis shows one thing, so together they are all.
    expect(fits).toBe(known.size)
  })

  it.each([
    ['the whole splitter', [false, false, false, true, false, true]],
    ['one fan of it', [true, false, true, true, true, true]],
    ['its reading alone', [true, true, true, true, false, true]],
    ['a fan of it and the other fan', [true, true, false, false, true, false]],
  ])('leaves in full belief after %s just what the solver finds', (_, right) => {
    const ERROR = 0.05
    const evidence = observe.map(
      ({ what, at }, i): Evidence => ({
        kind: 'one',
        seq: i + 1,
        id: `look ${what} ${at}`,
        history: [],
        error: ERROR,
        observe: [{ what, at }],
        answers: [wrong[i] ?? '', healthy[i] ?? ''].map((id) => ({ id, means: [id] })),
        chosen: (right[i] ? healthy[i] : wrong[i]) ?? '',
      }),
    )
    const { hypotheses: all, columns } = assess(knowledgeOf(machine, []), {
      evidence,
      history: [],
      inForce: [],
      power: 'on',
      scope: [],
      closed: new Set(),
      toolsMissing: new Set(),
    })
    const full = (1 - ERROR) ** evidence.length
    const held = all.filter((h, i) => {
      const p = columns.reduce((product, column) => product * (column[i] ?? 0), 1)
      return known.has(nameOf(h)) && Math.abs(p - full) < 1e-9
    })
    const weighed = new Set(all.map(nameOf))
    const theirs = solved(right).filter((d) => weighed.has(d))
    expect(held.map(nameOf).sort()).toEqual(theirs.sort())
    expect(held.length).toBeGreaterThan(1)
  })
})
