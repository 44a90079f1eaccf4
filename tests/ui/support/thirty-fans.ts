/** Thirty fans on three hubs, named in a script from right to left, in wide characters, and at length. */
import { widePlan } from '../../support/wide-plan.ts'

const PLACES = ['front-top', 'front', 'front-bottom', 'top-rear', 'rear', 'bottom', 'side']

const name = (i: number): string =>
  [`מאוורר${i}`, `前面風扇${i}`, `intake-fan-with-a-very-long-name-${i}`][i % 3] ?? ''

export const FANS = 30

export function thirtyFans(): string {
  const each = Array.from(
    { length: FANS },
    (_, i) =>
      `  ${name(i + 1)}: { kind: fan, motor: { pins: 4, amps: 0.1 A, rpm: [500, 1500] }, flow: in, at: ${PLACES[(i + 1) % PLACES.length]} }`,
  )
  return widePlan(FANS)
    .replace(/^ {2}F1\.\.F30:.*$/mu, () => each.join('\n'))
    .replace(/\bF(\d+)\b/gu, (_, i) => name(Number(i)))
    .replace(/^build: .*$/mu, () => 'build: "תחנת עריכה 編集室"')
}
