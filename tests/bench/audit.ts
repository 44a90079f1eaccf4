/** How long the audit takes on large builds, and how it grows with them. */
import { audit } from '../../src/core/audit/audit.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { build } from '../support/build.ts'

/** Fans by tens on fan hubs and light hubs, as a hall of machines in one plan would have them. */
function hall(fans: number): Plan {
  const made = build('Hall')
  for (let hub = 1; hub <= fans / 10; hub++) {
    const ids = Array.from({ length: 10 }, (_, i) => `F${hub}-${i + 1}`)
    made.supply(`S${hub}`).header(`SYS${hub}`).usbHeader(`U${hub}`)
    for (const id of ids) made.fan(id, { flow: 'in', light: { leds: 12, mm: 400, awg: 28 } })
    made
      .fanHub(`FH${hub}`, ids)
      .lead(`FH${hub}.power`, `supply.S${hub}.1`)
      .lead(`FH${hub}.in`, `board.SYS${hub}`)
      .lightHub(`LH${hub}`, ids)
      .lead(`LH${hub}.power`, `supply.S${hub}.2`)
      .lead(`LH${hub}.usb`, `board.U${hub}.a`)
  }
  return made
    .lightOrder(...Array.from({ length: fans }, (_, i) => `F${Math.floor(i / 10) + 1}-${(i % 10) + 1}`))
    .plan()
}

const milliseconds = (plan: Plan): number => {
  audit(plan)
  const times = Array.from({ length: 3 }, () => {
    const start = performance.now()
    audit(plan)
    return performance.now() - start
  })
  return Math.min(...times)
}

/** Least of three rounds each, milliseconds. */
export const auditTimes = (): { readonly half: number; readonly whole: number } => ({
  half: milliseconds(hall(500)),
  whole: milliseconds(hall(1000)),
})
