/** Laws of the audit over generated builds, and what it must survive. */

import { describe, expect, test } from 'vitest'
import { parse, stringify } from 'yaml'
import { audit } from '../../../src/core/audit/audit.ts'
import type { Finding } from '../../../src/core/audit/finding.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, wiredPlan, wiring } from '../../support/wired.ts'

/** The suite runs a share of what `FUZZ=10000` runs. */
const RUNS = Number(process.env.FUZZ ?? 40)
const law = <T>(arbitrary: fc.Arbitrary<T>, holds: (value: T) => void, numRuns = RUNS) =>
  fc.assert(fc.property(arbitrary, holds), {
    numRuns,
    interruptAfterTimeLimit: 60_000 + RUNS * 20,
    markInterruptAsFailure: true,
  })

const bare = ({ at: _at, ...rest }: Finding) => rest
const sorted = (findings: readonly Finding[], sight: (f: Finding) => unknown): string[] =>
  findings.map((f) => JSON.stringify(sight(f))).sort()
/** With lists inside sorted, since the order of lines is the order of names. */
const unordered = (f: Finding) => {
  const { refs, facts, assumed, ...rest } = bare(f)
  const flat = Object.entries(facts).map(([k, v]) => [
    k,
    typeof v === 'string' ? [...v].sort().join('') : typeof v === 'object' ? [...v].sort() : v,
  ])
  return { ...rest, refs: [...refs].sort(), facts: flat, assumed: [...assumed].sort() }
}

const overCurrent = (plan: Plan): string[] =>
  audit(plan)
    .filter((f) => f.rule.endsWith('over-current'))
    .map((f) => `${f.rule} ${f.refs[0]}`)

describe('laws of the audit', () => {
  test('the same plan gives the same findings, each with a place, in the order of severity', () => {
    law(wiredPlan, (plan) => {
      const findings = audit(plan)
      expect(audit(plan)).toEqual(findings)
      const order = ['will-damage', 'will-not-work', 'may-not-work', 'untidy', 'unknown']
      const ranks = findings.map((f) => order.indexOf(f.severity))
      expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
      for (const { at, refs, figure, limit } of findings) {
        expect(at.length).toBeGreaterThan(0)
        for (const { line, col } of at) expect(line >= 1 && col >= 1).toBe(true)
        expect(refs.length).toBeGreaterThan(0)
        for (const n of [figure, limit]) expect(n === undefined || Number.isFinite(n)).toBe(true)
      }
    })
  })

  test('adding a load never removes an over-current finding', () => {
    law(fc.tuple(wiredPlan, fc.nat(), fc.integer({ min: 1, max: 200 })), ([plan, which, percent]) => {
      const fans = plan.parts.filter((p) => p.kind === 'fan' && p.motor)
      const chosen = fans[which % Math.max(1, fans.length)]
      const heavier: Plan = {
        ...plan,
        parts: plan.parts.map((part) =>
          part === chosen && part.kind === 'fan' && part.motor
            ? {
                ...part,
                motor: { ...part.motor, amps: part.motor.amps * (1 + percent / 100) },
                lights: part.lights.map((l) => ({ ...l, amps: l.amps * (1 + percent / 100) })),
              }
            : part,
        ),
      }
      const after = new Set(overCurrent(heavier))
      for (const finding of overCurrent(plan)) expect(after).toContain(finding)
    })
  })

  test('a fan plugged in where there was none never removes an over-current finding', () => {
    law(fc.tuple(wiredPlan, fc.nat()), ([plan, which]) => {
      const lead = plan.leads[which % Math.max(1, plan.leads.length)]
      if (!lead) return
      const without: Plan = { ...plan, leads: plan.leads.filter((l) => l !== lead) }
      const whole = new Set(overCurrent(plan))
      for (const finding of overCurrent(without)) expect(whole).toContain(finding)
    })
  })

  test('renaming the parts changes nothing but their names', () => {
    law(wiring, (made) => {
      const text = buildOf(made).text()
      // every part id of these builds is a letter or two and a number, and none is part of another word
      const renamed = text.replace(
        /\b(F|Y|K|C|P|LH|LS|UH)(\d*)\b(?=[.:\],\s]|$)/gm,
        (_, word: string, n: string) => `Q${word}${n}q`,
      )
      const back = (f: Finding) => JSON.parse(JSON.stringify(bare(f)).replace(/Q([A-Z]+\d*)q/g, '$1'))
      expect(audit(planOf(renamed)).map(back)).toEqual(
        audit(planOf(text)).map((f) => JSON.parse(JSON.stringify(bare(f)))),
      )
    })
  })

  test('reordering parts and leads changes only places and the order of names', () => {
    law(wiring, (made) => {
      const text = buildOf(made).text()
      const file = parse(text) as { parts: object; leads: unknown[] }
      const turned = stringify({
        ...file,
        parts: Object.fromEntries(Object.entries(file.parts).reverse()),
        leads: [...file.leads].reverse(),
      })
      // a light order is by place, not by line, and stays; which names come first in a list may change
      const there = readPlan(turned, 'test.build.yaml')
      if (!there.ok) throw new Error('a reordered plan is a plan')
      expect(sorted(audit(there.value), unordered)).toEqual(sorted(audit(planOf(text)), unordered))
    })
  })

  test('a wired plan with one line of it spoilt is read or refused, and audited without a fall', () => {
    law(
      fc.tuple(wiring, fc.nat(), fc.constantFrom('drop', 'twice', 'swap', 'unknown', '12', 'cut')),
      ([made, which, how]) => {
        const lines = buildOf(made).text().split('\n')
        const i = which % lines.length
        const line = lines[i] ?? ''
        const spoilt =
          how === 'drop'
            ? []
            : how === 'twice'
              ? [line, line]
              : how === 'swap'
                ? [lines[(i + 1) % lines.length] ?? '']
                : how === 'cut'
                  ? [line.slice(0, line.length / 2)]
                  : [line.replace(/:.*$/, `: ${how}`)]
        const read = readPlan(
          [...lines.slice(0, i), ...spoilt, ...lines.slice(i + 1)].join('\n'),
          'test.build.yaml',
        )
        if (read.ok)
          for (const finding of audit(read.value)) expect(finding.at[0]?.line).toBeGreaterThanOrEqual(1)
        else expect(read.problems.length).toBeGreaterThan(0)
      },
    )
  })

  test('a plan of parts in any state, leads anywhere, is audited without a fall', () => {
    law(fc.tuple(wiredPlan, fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 6 })), ([plan, turns]) => {
      const leads = [...plan.leads]
      for (const [a, b] of turns) {
        const [one, two] = [leads[a % Math.max(1, leads.length)], leads[b % Math.max(1, leads.length)]]
        if (!one || !two) continue
        leads[leads.indexOf(one)] = { ...one, socket: two.socket }
      }
      for (const finding of audit({ ...plan, leads, places: new Map() }))
        expect(finding.at.length).toBeGreaterThanOrEqual(1)
    })
  })

  test('garbage is refused with a problem, never with an exception', () => {
    law(
      fc.oneof(
        fc.string({ maxLength: 300 }),
        fc.string({
          unit: fc.constantFrom(
            'parts:',
            '\n',
            '  ',
            'F1:',
            '{',
            '}',
            '- ',
            'leads:',
            '&a ',
            '*a',
            'kind: fan',
            '[',
            ']',
            '0.2 A',
            '->',
            'board.SYS1',
            '"',
            '#',
          ),
        }),
      ),
      (text) => {
        const read = readPlan(text, 'test.build.yaml')
        if (read.ok) audit(read.value)
        else expect(read.problems.length).toBeGreaterThan(0)
      },
    )
  })
})
