/** Which way a fan usually blows, by the words for its place; common practice. */
import { expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
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
