import { describe, expect, test } from 'vitest'
import type { Ask } from '../../../src/core/checks/prompt.ts'
import type { PathStep, View } from '../../../src/job/view.ts'
import { width } from '../../../src/ui/text/width.ts'
import { archivePlan, fan } from '../../support/archive-plan.ts'
import {
  askLit,
  askMany,
  doPowerOff,
  doReseat,
  type ScriptStep,
  verdict,
} from '../../support/fake-session.ts'
import fc from '../../support/fast-check.ts'
import { screenAt } from '../state/screen-at.ts'

/** Thirty fans with names and places as people write them, and as nobody should. */
const NAMES = [
  'F1',
  'front intake with the loud bearing that was replaced in March',
  '前面下方的風扇',
  'مروحة_أمامية',
  'מאוורר',
  'Lüfter_oben',
  'bad\u001b[2Jname\u0007',
  'wide🌀fan',
]
const PLACES = [
  'front-bottom',
  'top rear, behind the cable cover',
  'rear',
  'radiator bottom',
  '頂部',
  '',
  'inside',
]
const manyFans = Array.from({ length: 30 }, (_, i) =>
  fan(`${NAMES[i % NAMES.length]}${i}`, PLACES[i % PLACES.length] ?? ''),
)
const plan = {
  ...archivePlan,
  build: 'A build with a very long name, 很長的名字, and more',
  parts: [...archivePlan.parts, ...manyFans],
}

const marks: Ask = {
  ...askMany,
  marks: manyFans.flatMap(({ id }) =>
    ['dark', 'part'].map((value) => ({
      id: `${id}=${value}`,
      observe: { what: 'lit' as const, at: id },
      value,
    })),
  ),
}
const which: Ask = {
  ...askLit,
  observe: [{ what: 'goes', at: 'F1.light' }],
  answers: [
    ...manyFans.map((f) => ({ id: f.id, means: [`${f.id}.light`] })),
    { id: 'none', means: ['none'] },
  ],
}
const longPath: PathStep[] = manyFans.slice(0, 9).flatMap((f, i): PathStep[] => [
  { ref: f.id, kind: 'part', here: false, state: 'planned' },
  {
    ref: `${f.id}.light`,
    kind: 'joint',
    here: i === 5,
    state: (['planned', 'unplugged', 'moved', 'suspect'] as const)[i % 4] ?? 'planned',
  },
])

const CASES: Readonly<Record<string, readonly ScriptStep[]>> = {
  'marks on thirty fans': [{ prompt: marks }],
  'one of thirty answers': [{ prompt: which }],
  'a gate': [{ prompt: doPowerOff }],
  'a repair with a verdict': [{ told: [verdict], prompt: doReseat, suspects: verdict.suspects }],
  'a question with many remarks': [
    {
      told: Array.from({ length: 9 }, (_, i) => ({
        show: 'note' as const,
        kind: 'cross-check' as const,
        facts: { what: 'fed', at: manyFans[i]?.id ?? '', from: 'H1' },
      })),
      prompt: askLit,
    },
  ],
}
const TITLE: Readonly<Record<string, RegExp>> = {
  'marks on thirty fans': /Which lights are dark/,
  'one of thirty answers': /Follow the light lead of fan F1/,
  'a gate': /Shut the machine down/,
  'a repair with a verdict': /Likely cause|Repair: pull/,
  'a question with many remarks': /Remarks|Look at the lights of fan F3/,
}

const sizes = fc.record({
  columns: fc.integer({ min: 60, max: 210 }),
  rows: fc.integer({ min: 20, max: 64 }),
})
const keys = fc.array(
  fc.constantFrom('↓', '↑', '→', '⇟', 'G', 'j', ' ', 'w', 'p', '?', 'd', 'e', 'm', 'q', 'n', '⎋', '/'),
  {
    maxLength: 8,
  },
)
const over: Partial<View> = { plan, path: longPath, log: `jobs/${'long-folder/'.repeat(12)}job.ndjson` }

describe.each(Object.keys(CASES))('%s', (name) => {
  test('no line is wider than the terminal, no frame as tall', async () => {
    await fc.assert(
      fc.asyncProperty(sizes, keys, fc.boolean(), async ({ columns, rows }, pressed, ascii) => {
        const at = screenAt(CASES[name] ?? [], { columns, rows, ascii, over })
        await at.type(pressed.join(''))
        const lines = at.lines()
        expect(lines.length).toBeLessThanOrEqual(rows - 1)
        for (const line of lines) expect(width(line), line).toBeLessThanOrEqual(columns)
        expect(at.text()).not.toMatch(/[^\P{Cc}\n]/u)
        expect(lines[0]).toMatch(ascii ? /^\[\* POWER ON \]/ : /^\[● POWER ON \]/)
      }),
      { numRuns: 12 },
    )
  })

  test('the question and the highlighted row are always there', async () => {
    await fc.assert(
      fc.asyncProperty(
        sizes,
        fc.array(fc.constantFrom('↓', '↑', 'j', 'k', '2', '⇟'), { maxLength: 40 }),
        async ({ columns, rows }, pressed) => {
          const at = screenAt(CASES[name] ?? [], { columns, rows, over })
          await at.type(pressed.join(''))
          expect(at.text().replace(/\s+/g, ' ')).toMatch(TITLE[name] ?? /never/)
          if (name === 'marks on thirty fans' || name === 'one of thirty answers')
            expect(at.pointed()).toMatch(/^▸/)
        },
      ),
      { numRuns: 10 },
    )
  })
})

describe('signs', () => {
  test('in plain ASCII nothing of the screen itself is outside of it', async () => {
    for (const script of Object.values(CASES)) {
      const at = screenAt(script, { ascii: true, rows: 60, over: { path: [] } })
      for (const key of ['', 'w', 'p', '?', 'q', '⎋', 'd']) {
        await at.type(key)
        const own = manyFans.reduce((text, f) => text.replaceAll(f.id, ''), at.text())
        // Letters of names stay as they are; marks, lines and arrows do not.
        expect(own.match(/[\u2010-\u2bff]/gu) ?? []).toEqual([])
      }
    }
  })

  test('power is said in words and in shape, on and off at the same place', async () => {
    const at = screenAt([{ prompt: { ...doPowerOff, purpose: 'repair', cautions: [] } }, { prompt: askLit }])
    expect(at.lines()[0]).toMatch(/^\[● POWER ON \] {2}hands out/)
    await at.type('⏎')
    expect(at.lines()[0]).toMatch(/^\[○ POWER OFF\]/)
  })

  test('how far it is comes from what is left to tell apart', () => {
    const at = screenAt([{ prompt: askLit, suspects: verdict.suspects }])
    expect(at.lines()[0]).toContain('2 causes still to tell apart')
  })
})

describe('how far it is', () => {
  test.each([
    [60, false],
    [80, false],
    [100, true],
    [132, true],
  ])('gets shorter before the symptom goes, at %i columns', (columns, named) => {
    const over = { symptoms: ['lights-dark'], left: 8, minutes: 61.5 } as const
    const [line = ''] = screenAt([{ prompt: askLit }], { columns, over }).lines()
    expect(line.includes('Lights dead on some fans')).toBe(named)
    expect(line).toContain('8 causes')
  })
})

describe('a terminal too small', () => {
  test('says so and how to go on; keys still work', async () => {
    const at = screenAt([{ prompt: askLit }], { columns: 50, rows: 12 })
    expect(at.text()).toContain('--plain')
    expect(at.lines().every((l) => width(l) <= 50)).toBe(true)
    at.resize(80, 24)
    expect(at.text()).toContain('Look at the lights')
    at.resize(59, 24)
    await at.type('2⏎')
    expect(at.session.said).toEqual([{ say: 'answer', ids: ['part'] }])
  })

  test('a terminal of one line does not end the program', async () => {
    for (const [columns, rows] of [
      [1, 1],
      [3, 2],
      [60, 1],
    ] as const)
      expect(screenAt([{ prompt: askLit }], { columns, rows }).lines().length).toBeLessThanOrEqual(
        Math.max(1, rows - 1),
      )
  })
})

describe('thirty fans', () => {
  const fans = Array.from({ length: 30 }, (_, i) =>
    fan(`F${i + 1}`, ['front', 'rear', 'top', 'bottom'][i % 4] ?? ''),
  )
  const thirty: Ask = {
    ...askMany,
    marks: fans.flatMap(({ id }) =>
      ['dark', 'part'].map((value) => ({
        id: `${id}=${value}`,
        observe: { what: 'lit' as const, at: id },
        value,
      })),
    ),
  }
  const seen = (text: string): number => new Set(text.match(/\bF\d+\b/g)).size
  const at = (columns: number, rows: number) =>
    screenAt([{ prompt: thirty }], {
      columns,
      rows,
      over: { plan: { ...archivePlan, parts: fans }, path: [] },
    })

  test('are all in sight at 80 by 24, in columns, and on a map where there is room', () => {
    expect(seen(at(80, 24).text())).toBe(30)
    expect(at(80, 24).text()).not.toContain('rear')
    expect(seen(at(100, 40).text())).toBe(30)
    expect(at(100, 40).text()).toContain('rear')
  })

  test('at 60 by 20 they scroll, and every one can be reached and marked', async () => {
    const small = at(60, 20)
    for (let i = 1; i <= 30; i++) {
      await small.type(`${i}`)
      await small.type(' ')
      expect(small.pointed()).toMatch(new RegExp(`^▸ ?${i} \\[●\\] F${i}\\b`, 'u'))
    }
    await small.type('⏎')
    const [said] = small.session.said
    expect(said?.say === 'answer' && said.ids).toHaveLength(30)
  })

  test('an id that has no room behind its kind stands alone, and whole', () => {
    const sockets = Array.from({ length: 24 }, (_, i) => `H1.${i + 1}`)
    const marks = [
      ...sockets.map((at) => ({ id: at, observe: { what: 'rpm' as const, at }, value: 'zero' })),
      { id: 'F1', observe: { what: 'spins' as const, at: 'F1' }, value: 'no' },
    ]
    const text = screenAt([{ prompt: { ...askMany, marks } }], { over: { path: [] } }).text()
    expect(text).toContain('1 [ ] H1.1 speed ')
    expect(text).not.toContain('…')
  })

  test.each([
    [60, 20],
    [80, 24],
    [100, 30],
    [132, 43],
    [200, 60],
  ])('the sockets among them are all spelled out or all by their code, at %i by %i', (columns, rows) => {
    const places = (fans: number) => [
      ...Array.from({ length: fans }, (_, i) => ({ what: 'spins' as const, at: `F${i + 1}` })),
      ...Array.from({ length: 4 }, (_, i) => ({ what: 'rpm' as const, at: `H1.${i + 1}` })),
    ]
    for (const parts of [archivePlan.parts, [...fans, ...archivePlan.parts.filter((p) => p.id === 'H1')]])
      for (const count of [1, 4, 14]) {
        const marks = places(count).map((observe) => ({
          id: `${observe.what} ${observe.at}`,
          observe,
          value: observe.what === 'rpm' ? 'zero' : 'no',
        }))
        const over = { plan: { ...archivePlan, parts }, path: [] }
        const text = screenAt([{ prompt: { ...askMany, marks } }], { columns, rows, over }).text()
        const codes = text.match(/H1\.\d/g) ?? []
        const spelled = text.match(/socket \d of/g) ?? []
        expect(Math.min(codes.length, spelled.length), text).toBe(0)
        expect(codes.length + spelled.length).toBeGreaterThan(0)
      }
  })

  test('a list with room for it spells every place out', () => {
    const marks = ['F1', 'H1.1', 'H1.2', 'H1.3'].map((at) => ({
      id: at,
      observe: { what: at === 'F1' ? ('spins' as const) : ('rpm' as const), at },
      value: 'no',
    }))
    const parts = archivePlan.parts.map((p) => ({ ...p, at: p.id === 'H1' ? 'behind the board tray' : '' }))
    const over = { plan: { ...archivePlan, parts }, path: [] }
    const text = screenAt([{ prompt: { ...askMany, marks } }], { columns: 132, rows: 43, over }).text()
    expect(text).toContain('2 [ ] socket 1 of light hub H1 (behind the board tray) speed')
    expect(text).toContain('3 [ ] socket 2 of H1 speed')
  })

  test('stand in a list where speeds are asked for too: those are not read in the case', () => {
    const marks = [
      ...['F1', 'F2'].map((at) => ({ id: at, observe: { what: 'spins' as const, at }, value: 'no' })),
      { id: 'S', observe: { what: 'rpm' as const, at: 'board.SYS1' }, value: 'zero' },
    ]
    const over = { plan: { ...archivePlan, parts: fans }, path: [] }
    const drawn = (some: typeof marks) =>
      screenAt([{ prompt: { ...askMany, marks: some } }], { columns: 100, rows: 40, over }).text()
    expect(drawn(marks.slice(0, 2))).toContain('┌')
    expect(drawn(marks)).not.toContain('┌')
  })

  test('are found by typing a part of a name', async () => {
    const small = at(60, 20)
    await small.type('/f27⏎ ⏎')
    expect(small.session.said).toEqual([{ say: 'answer', ids: ['F27=dark'] }])
  })
})

describe('a wide terminal', () => {
  test('shows suspects and the path so far beside the question', async () => {
    const at = screenAt([{ prompt: askLit }, { prompt: askLit, suspects: verdict.suspects }], {
      columns: 132,
      rows: 43,
    })
    await at.type('1⏎')
    expect(at.text()).toContain('Suspects')
    expect(at.text()).toContain('62 %')
    expect(at.text()).toMatch(/1\. Look at the lights/)
  })
})

test('remarks that nobody has read stand above the question wherever there is room for them', () => {
  const facts = { what: 'shared', parts: ['F1', 'F2'], at: 'H1' }
  const note = { show: 'note' as const, kind: 'cross-check' as const, facts }
  const text = screenAt([{ told: [note, note, note, note], prompt: askLit }], {
    columns: 132,
    rows: 43,
  }).text()
  expect(text).not.toContain('press m')
  expect(text).toContain('By the plan: ')
})

test('a caution above a question bears the mark that it has at a step, a remark does not', () => {
  const note = (kind: 'caution' | 'cross-check', facts: Record<string, string>) =>
    ({ show: 'note', kind, facts }) as const
  const told = [
    note('caution', { caution: 'blades' }),
    note('cross-check', { what: 'fed', at: 'F3', from: 'H1' }),
  ]
  const at = screenAt([{ told, prompt: askLit }], { columns: 100, rows: 40 })
  expect(at.text()).toMatch(/^! Caution: Mind the blades\./mu)
  expect(at.text()).toMatch(/^• By the plan/mu)
})
