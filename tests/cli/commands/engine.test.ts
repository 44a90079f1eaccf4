import { describe, expect, it } from 'vitest'
import { runEngine } from '../../../src/cli/commands/engine.ts'
import { problemFaults, problemSchema, readProblem } from '../../../src/cli/commands/engine-problem.ts'
import sequencing from '../../fixtures/inference/sequencing.json' with { type: 'json' }

const flicker = {
  hypotheses: [
    { id: 'plug', prior: 0.7 },
    { id: 'fan', prior: 0.3 },
  ],
  checks: [
    {
      id: 'swap',
      cost: 1,
      mode: 'on',
      table: { plug: { stays: 1 }, fan: { moves: 0.9, stays: 0.1 } },
    },
  ],
  repairs: [
    { id: 'reseat', cost: 20, mode: 'off', fixes: ['plug'] },
    { id: 'replace', cost: 30, mode: 'off', fixes: ['fan'] },
  ],
  switch_cost: 2,
  escalate_cost: 90,
  start_mode: 'on',
  verify_mode: 'on',
}

async function said(...lines: (string | object)[]): Promise<{ code: number; out: unknown[] }> {
  async function* input(): AsyncGenerator<string> {
    for (const line of lines) yield typeof line === 'string' ? line : JSON.stringify(line)
  }
  const out: unknown[] = []
  const code = await runEngine(input(), (line) => out.push(JSON.parse(line)))
  return { code, out }
}

const problem = { type: 'problem', problem: flicker }
const decide = (...answers: [string, string][]) => ({
  type: 'decide',
  mode: 'on',
  answers: answers.map(([id, outcome]) => ({ id, outcome })),
})

describe('the engine asked line by line', () => {
  it('says nothing to a problem, and the next step to each standing', async () => {
    expect(
      await said(problem, decide(), decide(['swap', 'moves']), decide(['swap', 'stays']), { type: 'end' }),
    ).toEqual({ code: 0, out: [{ next: 'swap' }, { next: 'replace' }, { next: 'reseat' }] })
  })

  it('takes a repair that did not help as ruling out what it cures, and hands over when nothing is left', async () => {
    const { out } = await said(
      problem,
      decide(['reseat', 'stays']),
      decide(['reseat', 'stays'], ['replace', 'stays']),
    )
    expect(out).toEqual([{ next: 'replace' }, { next: 'escalate' }])
  })

  it('decides by the present power state', async () => {
    const { out } = await said({ ...problem, problem: { ...flicker, switch_cost: 40 } }, decide(), {
      ...decide(),
      mode: 'off',
    })
    // With power on, any repair costs two switches of 40 minutes: 100 against handing over at 90. With power off one: 60, and 90 with odds of 0.3.
    expect(out[0]).toEqual({ next: 'escalate' })
    expect(out[1]).toEqual({ next: 'reseat' })
  })

  it('takes the last problem, ends at the end of input, and skips empty lines', async () => {
    const other = { ...problem, problem: { ...flicker, checks: [] } }
    expect(await said(problem, '', other, '  ', decide())).toEqual({ code: 0, out: [{ next: 'reseat' }] })
  })

  it('reads nothing after the end', async () => {
    expect(await said(problem, { type: 'end' }, decide())).toEqual({ code: 0, out: [] })
  })

  it('plays all published problems', async () => {
    for (const written of sequencing.problems) {
      const { code, out } = await said({ type: 'problem', problem: written }, decide())
      expect(code).toBe(0)
      const ids = [...written.checks, ...written.repairs].map((a) => a.id)
      expect(ids).toContain((out[0] as { next: string }).next)
    }
  })
})

describe('a line that cannot be used', () => {
  const refused = async (...lines: (string | object)[]) => {
    const { code, out } = await said(...lines)
    expect(code).toBe(2)
    return out[0] as { type: string; line: number; at: string; expected: string }
  }

  it('is named by its number, and the next line is read all the same', async () => {
    const { code, out } = await said(problem, '{"type":', decide())
    expect(code).toBe(2)
    expect(out[0]).toMatchObject({
      type: 'problem-with-line',
      line: 2,
      expected: 'one JSON object on the line',
    })
    expect(out[1]).toEqual({ next: 'swap' })
  })

  it('names the place in it', async () => {
    expect(await refused({ type: 'zap' })).toMatchObject({ line: 1, at: 'type' })
    expect(await refused('[]')).toMatchObject({ at: '' })
    expect(await refused(problem, { type: 'decide', mode: 'maybe', answers: [] })).toMatchObject({
      line: 2,
      at: 'mode',
    })
    const negative = { ...flicker, repairs: [{ ...flicker.repairs[0], cost: -1 }] }
    expect(await refused({ type: 'problem', problem: negative })).toMatchObject({
      at: 'problem.repairs.0.cost',
    })
  })

  it('is a decide before any problem', async () => {
    expect(await refused(decide())).toMatchObject({ line: 1, expected: expect.stringContaining('a problem') })
  })

  it('is a problem that cannot be read, which leaves none to decide on', async () => {
    const { out } = await said(problem, { type: 'problem', problem: {} }, decide())
    expect(out).toHaveLength(2)
    expect(out[1]).toMatchObject({ type: 'problem-with-line', line: 3 })
  })

  it('is a problem without sense, which leaves none either', async () => {
    const wrong = { ...flicker, hypotheses: [{ id: 'plug', prior: 0.7 }] }
    const { out } = await said(problem, { type: 'problem', problem: wrong }, decide())
    expect(out.at(-1)).toMatchObject({ line: 3, expected: expect.stringContaining('a problem') })
  })

  it.each([
    [['swap', 'melts'], 'answers.0.outcome', 'stays, moves'],
    [['reseat', 'melts'], 'answers.0.outcome', 'gone or stays'],
    [['reseat', 'gone'], 'answers.0.outcome', 'no decide after'],
    [['hammer', 'gone'], 'answers.0.id', 'check or repair'],
  ] as const)('is an answer %j', async ([id, outcome], at, expected) => {
    expect(await refused(problem, decide([id, outcome]))).toMatchObject({
      at,
      expected: expect.stringContaining(expected),
    })
  })

  it('is the same answer twice', async () => {
    expect(await refused(problem, decide(['swap', 'stays'], ['swap', 'stays']))).toMatchObject({
      at: 'answers.1.id',
    })
    expect(await refused(problem, decide(['reseat', 'stays'], ['reseat', 'stays']))).toMatchObject({
      at: 'answers.1.id',
    })
  })
})

describe('a written problem', () => {
  const faultsOf = (change: object) => problemFaults(problemSchema.parse({ ...flicker, ...change }))

  it('starts and is proven with power on unless it says otherwise', () => {
    const { start_mode: _s, verify_mode: _v, ...rest } = flicker
    expect(readProblem(problemSchema.parse(rest))).toMatchObject({
      startMode: 'on',
      problem: { verifyMode: 'on' },
    })
  })

  it('gives an outcome that is left out no chance', () => {
    const { problem } = readProblem(problemSchema.parse(flicker))
    expect(problem.checks[0]?.outcomes).toEqual(['stays', 'moves'])
    expect(problem.checks[0]?.table.map((row) => [...row])).toEqual([
      [1, 0],
      [0.1, 0.9],
    ])
    expect(problem.repairs.map((r) => [...r.fixes])).toEqual([
      [1, 0],
      [0, 1],
    ])
  })

  it('makes sense as it stands', () => {
    expect(faultsOf({})).toEqual([])
  })

  it('may miss a sum of 1 by the rounding of its shares, no more', () => {
    const priors = (a: number) => ({
      hypotheses: [
        { id: 'plug', prior: a },
        { id: 'fan', prior: 0.3 },
      ],
    })
    expect(faultsOf(priors(0.70005))).toEqual([])
    expect(faultsOf(priors(0.7002))).toMatchObject([{ path: 'hypotheses' }])
  })

  it.each([
    [
      'a suspect twice',
      {
        hypotheses: [
          { id: 'plug', prior: 0.5 },
          { id: 'plug', prior: 0.5 },
        ],
      },
      'hypotheses',
    ],
    ['an id twice', { checks: [], repairs: [flicker.repairs[0], flicker.repairs[0]] }, 'checks, repairs'],
    ['a repair named escalate', { repairs: [{ ...flicker.repairs[0], id: 'escalate' }] }, 'checks, repairs'],
    [
      'a cure of nobody',
      { repairs: [{ ...flicker.repairs[0], fixes: ['ghost'] }] },
      'repairs.reseat.fixes.ghost',
    ],
    [
      'a row for nobody',
      { checks: [{ ...flicker.checks[0], table: { ...flicker.checks[0]?.table, ghost: { stays: 1 } } }] },
      'checks.swap.table.ghost',
    ],
    [
      'a row left out',
      { checks: [{ ...flicker.checks[0], table: { plug: { stays: 1 } } }] },
      'checks.swap.table.fan',
    ],
    [
      'a row that does not sum to 1',
      { checks: [{ ...flicker.checks[0], table: { plug: { stays: 0.9 }, fan: { moves: 1 } } }] },
      'checks.swap.table.plug',
    ],
  ])('has no sense with %s', (_, change, path) => {
    expect(faultsOf(change).map((f) => f.path)).toContain(path)
  })
})
