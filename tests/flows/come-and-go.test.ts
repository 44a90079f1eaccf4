/**
 * Faults that come and go, and fans that hunt, on three small builds: whole jobs with the bench as the person, a third of the
 * kinds of them and the symptoms whose opening look shows them on each. The cause is the first suspect at the end.
 */
import { describe, expect, test } from 'vitest'
import { faultText } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { type Case, caseName, score, singles } from '../bench/accuracy.ts'
import { build } from '../support/build.ts'

const KINDS = [
  /:loose$/,
  /:frayed-12V$/,
  /:frayed-CONTROL$/,
  /:frayed-TACH$/,
  /:frayed-DATA$/,
  /:frayed-USB$/,
  /:trips-again$/,
  /:sticking$/,
  /:steps-at-start$/,
  /:follows-at-once$/,
]

const builds: Readonly<Record<string, () => Plan>> = {
  'fans on two headers': () =>
    build()
      .header('CPU', { role: 'cpu', drive: 'pwm' })
      .header('SYS1', { drive: 'auto' })
      .header('SYS2', { drive: 'auto' })
      .plainFan('F1..F2')
      .lead('F1.motor', 'board.CPU')
      .lead('F2.motor', 'board.SYS1')
      .plan(),
  'a splitter and strips of lights': () =>
    build()
      .header('SYS1', { drive: 'auto' })
      .header('SYS2', { drive: 'auto' })
      .lightHeader('L1')
      .lightHeader('L2')
      .plainFan('F1..F2')
      .part('S1', { kind: 'strip', light: { volts: 5, leds: 20, amps: 0.8 } })
      .splitter('Y1', ['F1', 'F2'])
      .lead('Y1.in', 'board.SYS1')
      .lead('S1.light', 'board.L1')
      .host({ program: 'running', global_effect: 'off' })
      .plan(),
  'a light hub over USB': () =>
    build()
      .supply('SA')
      .header('SYS1', { drive: 'auto' })
      .header('SYS2', { drive: 'auto' })
      .usbHeader('U1')
      .fan('F1')
      .lead('F1.motor', 'board.SYS1')
      .lightHub('H1', ['F1'])
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .host({ program: 'running', global_effect: 'off' })
      .plan(),
}

/** Of each kind its first place on the build, under all of its symptoms but the survey, which asks for everything. */
function casesOf(plan: Plan): readonly Case[] {
  const { cases } = singles(plan)
  const text = ({ faults: [known] }: Case): string => (known ? faultText(known.fault) : '')
  return KINDS.flatMap((kind) => {
    const first = cases.find((c) => kind.test(text(c)))
    return first ? cases.filter((c) => text(c) === text(first) && c.symptom !== 'survey') : []
  })
}

describe.each(Object.entries(builds).map(([says, planOf], n) => [says, planOf, n] as const))(
  'on %s',
  (_, planOf, n) => {
    test('each is named, whichever symptom it is brought with', async () => {
      const plan = planOf()
      const cases = casesOf(plan).filter((_, i) => i % 3 === n)
      expect(cases.length).toBeGreaterThan(5)
      const missed: string[] = []
      for (const one of cases) {
        const { named, outcome, instead } = await score(plan, one)
        if (!named) missed.push(`${caseName(one)}: ${outcome}, ${instead}`)
      }
      expect(missed).toEqual([])
    })
  },
)

test('the symptom of fans that do not go on is shown by all that hunt, that of flickering lights by what darkens them', () => {
  const symptoms = (kind: RegExp): readonly string[] =>
    Object.values(builds).flatMap((planOf) =>
      casesOf(planOf())
        .filter((c) => kind.test(caseName(c)))
        .map((c) => c.symptom),
    )
  expect(symptoms(/:steps-at-start$/)).toContain('fans-hunting')
  expect(symptoms(/:follows-at-once$/)).toContain('fans-hunting')
  expect(symptoms(/:frayed-DATA$/)).toContain('lights-flicker')
})
