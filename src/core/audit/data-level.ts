/**
 * The level of the data line: an LED takes as high what is at least 0.7 of its own supply, so a sender of 3.3 V falls
 * short of 3.5 V at the first LED of a chain. Later LEDs get what the one before them sends.
 */
import { highAtLeast } from '../electrics/led-data.ts'
import { isOver } from '../electrics/overload.ts'
import type { PortRef } from '../plan/plan.ts'
import type { Rule } from './finding.ts'
import { channels } from './light-channels.ts'
import { partOf, type Wiring } from './wiring.ts'

/** Who sends to a light, and at which level; undefined where the plan does not say. */
function senderOf(
  w: Wiring,
  plug: PortRef,
  maker: string,
): readonly [ref: string, volts: number] | undefined {
  const socket = w.leadAt(plug)?.socket ?? ''
  for (const ref of [partOf(socket), maker]) {
    const part = w.parts.get(ref)
    const header = w.plan.board.lightHeaders.find((h) => `board.${h.id}` === ref)
    const volts =
      part?.kind === 'light-hub' || part?.kind === 'controller' ? part.dataVolts : header?.dataVolts
    if (volts !== undefined) return [ref, volts]
  }
  return undefined
}

export const dataLevel: Rule = {
  id: 'light-data-level',
  severity: 'may-not-work',
  unit: 'V',
  source: 'LED chip data sheet, input levels: high is at least 0.7 of the supply',
  *find(w) {
    for (const channel of channels(w))
      for (const first of channel.branches.flatMap((branch) => branch.slice(0, 1))) {
        const sender = senderOf(w, first.plug, channel.maker)
        const least = highAtLeast(first.light.volts)
        if (sender && first.light.volts === 5 && isOver(least, sender[1]))
          yield {
            refs: [sender[0], first.plug],
            figure: sender[1],
            limit: least,
            facts: { at: sender[0], part: first.part, channel: channel.key },
          }
      }
  },
}
