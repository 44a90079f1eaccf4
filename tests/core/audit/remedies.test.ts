/** What a finding says to do can be done in that plan, and what was done about it quiets it. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { planOf } from '../../support/build.ts'

const told = (text: string) => audit(planOf(text))
const rules = (text: string): string[] => told(text).map((f) => f.rule)

describe('the direction of a fan', () => {
  const fans = (keys: string): string => `
board: { fan_headers: { SYS1:, SYS2:, SYS3:, CPU: } }
parts:
  F1..F3: { kind: fan, flow: in }
  F4: { kind: fan${keys} }
leads: [F1..F3.motor -> board.SYS1..SYS3, F4.motor -> board.CPU]`

  test('is asked for at the side, but not on the cooler, by place or name, nor once it is said to be unknown', () => {
    expect(rules(fans(', at: side'))).toContain('unknown-flow')
    for (const keys of [', at: processor cooler', ', at: CPU-rear', ', flow: inside', ', flow: unknown'])
      expect(rules(fans(keys)), keys).not.toContain('unknown-flow')
    expect(rules(fans('').replaceAll('F4', 'cooler'))).not.toContain('unknown-flow')
    expect(rules(fans(', at: liquid cooler'))).toContain('unknown-flow')
  })

  test('inside the case counts for neither side', () => {
    expect(rules(fans(', at: cooler'))).toContain('air-one-way')
    expect(rules(fans(', flow: unknown'))).not.toContain('air-one-way')
    expect(rules(fans(', flow: out'))).not.toContain('air-one-way')
    expect(rules(fans(', at: front, flow: inside'))).not.toContain('flow-against-custom')
  })
})
