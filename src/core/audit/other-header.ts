/** Where else a fan lead could go: what a header can do, and a free one that does what is missing. */
import { isOver } from '../electrics/overload.ts'
import type { FanHeader } from '../plan/plan.ts'
import type { Wiring } from './wiring.ts'

/** Whether a header can be set to a mode. */
export const canDo = (header: FanHeader, mode: 'pwm' | 'dc'): boolean =>
  (header.pins === 3 ? 'dc' : header.drive) === mode || (header.pins === 4 && header.drive === 'auto')

/**
 * The first fan header that nothing is plugged into and that fits, as a fact: `board.SYS2`, or nothing. The headers
 * of pump and processor fan are kept for these.
 */
export function freeHeader(
  w: Wiring,
  wants: { readonly mode?: 'pwm' | 'dc'; readonly amps?: number },
): string {
  const found = w.plan.board.fanHeaders.find(
    (h) =>
      h.role === 'fan' &&
      w.plugIn(`board.${h.id}`) === undefined &&
      (wants.mode === undefined || canDo(h, wants.mode)) &&
      (wants.amps === undefined || !isOver(wants.amps, h.amps)),
  )
  return found ? `board.${found.id}` : ''
}
