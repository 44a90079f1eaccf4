/** Which way a fan usually blows, by the words for its place; common practice. */
import { expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { planOf } from '../../support/build.ts'
import { oneFan } from './rule-case.ts'

test.each([
  ['roof-front', 'out'],
  ['front roof', 'out'],
  ['top-front', 'out'],
  ['front-top', 'in'],
  ['bottom-rear', 'in'],
  ['rear', 'out'],
])('at %s it is %s', (at, usual) => {
  const facts = (flow: string) =>
    audit(oneFan({}, { at, flow }).plan())
      .filter((f) => f.rule === 'flow-against-custom')
      .map((f) => f.facts.usual)
  expect(facts(usual)).toEqual([])
  expect(facts(usual === 'in' ? 'out' : 'in')).toEqual([usual])
})

test.each([
  // Side by side flows add, one behind the other they do not (fan practice), and a plan does not say which it is.
  ['three on a radiator out, three in', 3, 3, false],
  ['three on a radiator out, eight in: lopsided even side by side', 3, 8, true],
  ['two on a radiator out, one in: behind one another they would balance', 2, 1, false],
  ['six on a radiator out, one in: lopsided even two deep', 6, 1, true],
])('air against a radiator with all its fans at one place: %s', (_, out, into, told) => {
  const text = `
board: { fan_headers: { S1..S${out + into}: } }
parts:
  R1..R${out}: { kind: fan, on: radiator, at: top, flow: out, cfm: 50 }
  I1..I${into}: { kind: fan, at: front, flow: in, cfm: 50 }
leads: [R1..R${out}.motor -> board.S1..S${out}, I1..I${into}.motor -> board.S${out + 1}..S${out + into}]`
  expect(audit(planOf(text)).some((f) => f.rule === 'air-unbalanced')).toBe(told)
})
