/** A finding says what kind of part a name stands for where it is met first, and the bare name after that. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../src/core/audit/audit.ts'
import { findingWords } from '../../src/wording/en/findings.ts'
import { findingText } from '../../src/wording/findings.ts'
import { ruleCases } from '../core/audit/all-cases.ts'
import { planOf } from '../support/build.ts'

function said(text: string, rule: string) {
  const plan = planOf(text)
  const [finding] = audit(plan).filter((f) => f.rule === rule)
  if (!finding) throw new Error(`no finding of ${rule}`)
  return findingText(findingWords, finding, plan)
}

describe('names in a finding', () => {
  const two = `
board: { fan_headers: { SYS1: { amps: 0.5 A } } }
parts: { F1..F3: { kind: fan, motor: { amps: 0.3 A } }, Y1: { kind: fan-splitter, ways: 4, tach_from: 4 } }
leads: [F1..F3.motor -> Y1.1..3, Y1.in -> board.SYS1]`

  test('several of a kind have it said once, and a header is called by the name that is printed there', () => {
    expect(said(two, 'header-over-current').says).toBe(
      'header SYS1 feeds fans F1, F2 and F3, together 0.9 A; it gives 0.5 A',
    )
  })

  test('what was named before is bare after that, also in what to do', () => {
    const { says, todo } = said(two, 'tach-way-empty')
    expect(says).toBe(
      'fan splitter Y1 returns the tach of socket 4, where nothing is plugged in: header SYS1 reads 0 rpm',
    )
    expect(todo).toBe('move a fan to Y1.4')
  })

  test('parts of several kinds each have theirs', () => {
    const usb = `
board: { usb_headers: { U1: } }
parts: { N1: { kind: usb-hub, ports: 4 }, H1..H2: { kind: light-hub, ports: 2, host: usb }, cam: { kind: usb-device } }
leads: [N1.usb -> board.U1.a, H1..H2.usb -> N1.1..2, cam.usb -> N1.3]
settings: { ports: { board.U1.a: { enabled: no } } }`
    expect(said(usb, 'usb-port-off').says).toBe(
      'USB header U1.a is turned off, so USB hub N1, light hubs H1 and H2 and USB device cam are not listed',
    )
  })

  test('a part that is named like a place or like a header is not taken for it', () => {
    const facing = `
board: { fan_headers: { front:, SYS2: } }
parts:
  front: { kind: fan, at: top }
  F1: { kind: fan, flow: in, at: front }
  F2: { kind: fan, flow: out, at: front }
leads: [F1.motor -> board.front, F2.motor -> board.SYS2]`
    expect(said(facing, 'fans-face-each-other').says).toMatch(/^at front fan F1 blows in and fan F2 out/)
  })

  test.each(ruleCases.map((c) => [c.rule, c] as const))('%s is a sentence with them too', (id, { make }) => {
    const plan = make(true).plan()
    for (const finding of audit(plan).filter((f) => f.rule === id)) {
      const { says, todo } = findingText(findingWords, finding, plan)
      for (const text of [says, todo]) {
        expect(text).not.toMatch(/\p{Cc}|undefined| {2}|\b(\w+) \1\b|board\./u)
        expect(text).not.toMatch(/\b(?:channel|lead|pump) (?:light|fan|USB) (?:hub|header)/u)
      }
      expect(says.length).toBeLessThan(280)
    }
  })
})
