/**
 * The belief against a general library for Bayesian networks (bayesjs, by junction tree): on published networks, and on
 * a network made of a small build, where the cause has the suspects' priors as its table and each look is a child of
 * it. What a look says under a suspect is written out here from what the bench shows: right with one minus its error,
 * else any other answer alike; a loose contact is broken or made by a node of its own, and so is what an unknown cause
 * makes a thing keep to.
 */
import { type INetwork, inferences } from 'bayesjs'
import { describe, expect, it } from 'vitest'
import { compile } from '../../src/core/bench/build.ts'
import type { Edit } from '../../src/core/bench/edit.ts'
import { valuesOf, type What } from '../../src/core/bench/observable.ts'
import { run } from '../../src/core/bench/run.ts'
import { faultByName } from '../../src/core/faults/catalogue.ts'
import { assess, knowledgeOf } from '../../src/core/infer/assess.ts'
import { posterior } from '../../src/core/infer/belief.ts'
import type { Evidence } from '../../src/core/infer/evidence.ts'
import inference from '../fixtures/inference/inference.json' with { type: 'json' }
import { build } from '../support/build.ts'

const { infer } = inferences.junctionTree

interface Node {
  readonly parents: readonly string[]
  readonly p_true: Readonly<Record<string, number>>
}

const published = inference.fixtures.flatMap((f): [string, Readonly<Record<string, Node>>][] =>
  f.kind === 'bayes-net'
    ? [[f.id, (f.inputs as unknown as { nodes: Readonly<Record<string, Node>> }).nodes]]
    : [],
)

interface Row {
  readonly when: Readonly<Record<string, string>>
  readonly then: Readonly<Record<string, number>>
}

/** One row of a table in the library's form, under the library's own names. */
const row = (when: Row['when'], odds: Row['then']): Row =>
  Object.fromEntries([
    ['when', when],
    ['then', odds],
  ]) as unknown as Row

/** A network of yes and no in the library's form. */
const networkOf = (nodes: Readonly<Record<string, Node>>): INetwork =>
  Object.fromEntries(
    Object.entries(nodes).map(([id, { parents, p_true }]) => {
      const given = Object.entries(p_true).map(([key, p]) =>
        row(Object.fromEntries(parents.map((parent, i) => [parent, key.split(',')[i] ?? ''])), {
          1: p,
          0: 1 - p,
        }),
      )
      const cpt = parents.length === 0 ? (given[0]?.then ?? {}) : given
      return [id, { id, states: ['1', '0'], parents: [...parents], cpt }]
    }),
  )

describe.each(published)('the published network %s', (_, nodes) => {
  const names = Object.keys(nodes)
  const worlds = Array.from({ length: 2 ** names.length }, (_, w) =>
    Object.fromEntries(names.map((name, i) => [name, (w >> i) % 2])),
  )
  const joint = worlds.map((world) =>
    names.reduce((p, name) => {
      const { parents = [], p_true = {} } = nodes[name] ?? {}
      const yes = p_true[parents.map((parent) => world[parent]).join()] ?? Number.NaN
      return p * (world[name] === 1 ? yes : 1 - yes)
    }, 1),
  )
  const ours = (of: string, given: Readonly<Record<string, string>>): number => {
    const belief = posterior(
      joint,
      Object.entries(given).map(([name, is]) => worlds.map((w) => (w[name] === Number(is) ? 1 : 0))),
    )
    return belief.reduce((sum, p, w) => sum + (worlds[w]?.[of] === 1 ? p : 0), 0)
  }

  it('has the same belief in everything, given nothing, any one thing, or any two', () => {
    const network = networkOf(nodes)
    const seen = names.flatMap((name) => ['0', '1'].map((is): [string, string] => [name, is]))
    const given = [
      {},
      ...seen.map((one) => Object.fromEntries([one])),
      ...seen.flatMap((one, i) => seen.slice(i + 1).map((two) => Object.fromEntries([one, two]))),
    ]
    let compared = 0
    for (const known of given) {
      // What cannot happen together leaves nothing to believe.
      const certain = joint.reduce(
        (sum, p, w) =>
          sum + (Object.entries(known).every(([n, is]) => worlds[w]?.[n] === Number(is)) ? p : 0),
        0,
      )
      if (certain < 1e-12) continue
      for (const of of names.filter((name) => !(name in known))) {
        expect(Math.abs(ours(of, known) - infer(network, { [of]: '1' }, known))).toBeLessThan(1e-9)
        compared++
      }
    }
    expect(compared).toBeGreaterThan(names.length ** 2)
  })
})

describe('the network of a small build', () => {
  const machine = compile(
    build()
      .header('SYS1')
      .header('SYS2')
      .fan('F1')
      .plainFan('F2')
      .lead('F1.motor', 'board.SYS1')
      .lead('F2.motor', 'board.SYS2')
      .plan(),
  )
  const ERROR = 0.06
  const off: Edit = { do: 'power', to: 'off' }
  const on: Edit = { do: 'power', to: 'on' }
  type Look = readonly [what: What, at: string, saw: string, history?: readonly Edit[]]

  /** Jobs as one might go: what was looked at and what was said. */
  const jobs: readonly (readonly [string, readonly Look[]])[] = [
    ['one look', [['spins', 'F1', 'no']]],
    [
      'a fan that stands still and a header that reads 0',
      [
        ['spins', 'F1', 'no'],
        ['rpm', 'board.SYS1', 'zero'],
      ],
    ],
    [
      'both fans of a splitter',
      [
        ['spins', 'F1', 'no'],
        ['spins', 'F2', 'no'],
        ['alarm', 'board.SYS2', 'no'],
      ],
    ],
    [
      'a doubtful plug after a reading that jumps',
      [
        ['rpm', 'board.SYS1', 'erratic'],
        ['seated', 'F1.motor', 'doubtful', [off]],
      ],
    ],
    [
      'a look that was made twice and agrees',
      [
        ['follows', 'board.SYS1', 'no'],
        ['follows', 'board.SYS1', 'no'],
      ],
    ],
    [
      'a look that was made twice and differs',
      [
        ['follows', 'board.SYS1', 'no'],
        ['follows', 'board.SYS1', 'yes'],
      ],
    ],
    [
      'a look after pushing a plug home',
      [
        ['spins', 'F1', 'no'],
        ['spins', 'F1', 'normal', [off, { do: 'reseat', plug: 'F1.motor' }, on]],
      ],
    ],
  ]

  const optionsOf = (what: What): readonly string[] => valuesOf[what] ?? []
  const UNSTEADY: readonly string[] = ['flicker', 'erratic', 'comes-and-goes', 'doubtful']
  const evidenceOf = (looks: readonly Look[]): Evidence[] =>
    looks.map(([what, at, chosen, history = []], i) => ({
      kind: 'one',
      seq: i + 1,
      id: `look ${what} ${at}`,
      history,
      error: ERROR,
      observe: [{ what, at }],
      answers: optionsOf(what).map((id) => ({ id, means: [id] })),
      chosen,
    }))

  /** What the bench shows at a look under a suspect, contact broken and contact made. */
  function shown(id: string, [what, at, , history = []]: Look): readonly (string | null)[] {
    const colon = id.indexOf(':')
    const known =
      id === 'as-planned' || id in UNKNOWN
        ? undefined
        : faultByName(machine, { at: id.slice(0, colon), mode: id.slice(colon + 1) })
    return [false, true].map((contact) =>
      run(machine, {
        plants: known ? [known.plant] : [],
        edits: history,
        contact: contact && known?.intermittent === true,
      }).see({ what, at }),
    )
  }

  /** An unknown cause leaves half of what is seen as usual or nine tenths; of that it keeps to something or shows it anew. */
  const UNKNOWN = Object.fromEntries(
    [0.5, 0.9].flatMap((usual) =>
      [true, false].map((keeps) => [
        `none-of-these, ${usual} usual, ${keeps ? 'keeps' : 'anew'}`,
        { usual, keeps },
      ]),
    ),
  )
  const USUAL = 'usual'

  /** How likely a thing is as usual, or to show each of its values whatever is done; only an unknown cause that keeps to it does that. */
  const stateUnder = (id: string, options: readonly string[]): Record<string, number> => {
    const { usual, keeps } = UNKNOWN[id] ?? { usual: 1, keeps: false }
    const reach = keeps ? (1 - usual) / options.length : 0
    return Object.fromEntries([
      [USUAL, keeps ? usual : 1],
      ...options.map((o): [string, number] => [`shows ${o}`, reach]),
    ])
  }

  const toldUnder = (
    id: string,
    state: string,
    options: readonly string[],
    value: string | null,
  ): Record<string, number> => {
    if (state !== USUAL) return told(options, state.slice('shows '.length))
    const plain = told(options, value)
    const { usual, keeps } = UNKNOWN[id] ?? { usual: 1, keeps: false }
    if (keeps) return plain
    return Object.fromEntries(
      Object.entries(plain).map(([o, p]) => [o, usual * p + (1 - usual) / options.length]),
    )
  }

  /** With the unknown cause as each of what it may be, all as probable. */
  const causesOf = (suspects: readonly { id: string; prior: number }[]) => {
    const unknown = Object.keys(UNKNOWN)
    return suspects.flatMap(({ id, prior }) =>
      id === 'none-of-these'
        ? unknown.map((one) => ({ id: one, prior: prior / unknown.length }))
        : [{ id, prior }],
    )
  }

  /** P(answer) for a value that is there to be seen. */
  const told = (options: readonly string[], value: string | null): Record<string, number> =>
    Object.fromEntries(
      options.map((o) => [
        o,
        value === null || !options.includes(value)
          ? 1 / options.length
          : o === value
            ? 1 - ERROR
            : ERROR / (options.length - 1),
      ]),
    )

  /** Cause → each look, by way of contact and of saying that it is unsteady; and a second look may repeat the first. */
  function network(suspects: readonly { id: string; prior: number }[], looks: readonly Look[]): INetwork {
    const total = suspects.reduce((sum, s) => sum + s.prior, 0)
    const cause = Object.fromEntries(suspects.map((s) => [s.id, s.prior / total]))
    const nodes: INetwork = {
      cause: { id: 'cause', states: Object.keys(cause), parents: [], cpt: cause },
    }
    const root = (id: string, yes: number): string => {
      nodes[id] = { id, states: ['yes', 'no'], parents: [], cpt: { yes, no: 1 - yes } }
      return id
    }
    const seen = new Map<string, string>()
    looks.forEach((look, i) => {
      const [what, at, , history = []] = look
      const options = [...optionsOf(what)]
      const unsteady = options.filter((o) => UNSTEADY.includes(o))
      const broken = root(`broken${i}`, 0.65)
      const says = unsteady.length > 0 ? root(`says${i}`, 0.3) : undefined
      const key = `${what} ${at} ${JSON.stringify(history)}`
      const before = seen.get(key)
      seen.set(key, `look${i}`)
      const fresh = before ? `fresh${i}` : `look${i}`
      const power = history.findLast((edit) => edit.do === 'power')
      const thing = `${what} ${at}, ${power?.do === 'power' ? power.to : 'on'}`
      const states = Object.keys(stateUnder('', options))
      nodes[thing] ??= {
        id: thing,
        states,
        parents: ['cause'],
        cpt: suspects.map(({ id }) => row({ cause: id }, stateUnder(id, options))),
      }
      const parents = ['cause', broken, thing, ...(says ? [says] : [])]
      const cpt = suspects.flatMap(({ id }) => {
        const [out = null, made = null] = shown(id, look)
        return ['yes', 'no'].flatMap((isOut) =>
          (says ? ['yes', 'no'] : ['no']).flatMap((isSaid) =>
            states.map((state) =>
              row(
                { cause: id, [broken]: isOut, [thing]: state, ...(says ? { [says]: isSaid } : {}) },
                isSaid === 'yes' && out !== made
                  ? Object.fromEntries(
                      options.map((o) => [o, unsteady.includes(o) ? 1 / unsteady.length : 0]),
                    )
                  : toldUnder(id, state, options, isOut === 'yes' ? out : made),
              ),
            ),
          ),
        )
      })
      nodes[fresh] = { id: fresh, states: options, parents, cpt }
      if (!before) return
      const repeats = root(`repeats${i}`, 0.5)
      const again = options.flatMap((first) =>
        options.flatMap((now) =>
          ['yes', 'no'].map((is) =>
            row(
              { [before]: first, [fresh]: now, [repeats]: is },
              Object.fromEntries(options.map((o) => [o, o === (is === 'yes' ? first : now) ? 1 : 0])),
            ),
          ),
        ),
      )
      nodes[`look${i}`] = {
        id: `look${i}`,
        states: options,
        parents: [before, fresh, repeats],
        cpt: again,
      }
    })
    return nodes
  }

  it.each(jobs)(
    'has the same belief after %s',
    (_, looks) => {
      const { hypotheses: all, belief } = assess(knowledgeOf(machine, []), {
        evidence: evidenceOf(looks),
        history: [],
        inForce: [],
        power: 'on',
        scope: [],
        closed: new Set(),
        toolsMissing: new Set(),
      })
      // Pairs have no network here; what is compared is how the singles stand to each other.
      const singles = all.flatMap((h, i) =>
        h.kind === 'pair' ? [] : [{ id: h.id, prior: h.prior, p: belief[i] ?? 0 }],
      )
      const among = singles.reduce((sum, s) => sum + s.p, 0)
      expect(singles.length).toBeGreaterThan(15)
      // Suspects that show the same at all looks are one cause of the network, or it would be too large for the library.
      const causes = new Map<string, { id: string; prior: number }>()
      const showing = (id: string): string =>
        id === 'none-of-these' ? id : JSON.stringify(looks.map((look) => shown(id, look)))
      for (const { id, prior } of singles) {
        const cause = causes.get(showing(id)) ?? { id, prior: 0 }
        causes.set(showing(id), { ...cause, prior: cause.prior + prior })
      }
      const net = network(causesOf([...causes.values()]), looks)
      const given = Object.fromEntries(looks.map(([, , saw], i) => [`look${i}`, saw]))
      for (const [key, { id, prior }] of causes) {
        const by = causesOf([{ id, prior: 1 }]).map((cause) => infer(net, { cause: cause.id }, given))
        const cause = by.reduce((sum, one) => sum + one, 0)
        for (const one of singles.filter((s) => showing(s.id) === key))
          expect(Math.abs(one.p / among - (cause * one.prior) / prior)).toBeLessThan(1e-9)
      }
    },
    240_000,
  )
})
