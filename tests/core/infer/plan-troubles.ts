/** What is wrong with a plan itself, what was meant all the same, and whether a repair mends it, in a few words. */
import { compile } from '../../../src/core/bench/build.ts'
import { run } from '../../../src/core/bench/run.ts'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import { faultText } from '../../../src/core/faults/fault.ts'
import { plannedTroubles, wanted } from '../../../src/core/infer/planned.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { observableOf } from '../../support/bench-look.ts'
import { type Build, build, type Keys } from '../../support/build.ts'

export const troubles = (plan: Plan): string[] => plannedTroubles(compile(plan)).map(faultText)
export const meant = (plan: Plan, text: string) => wanted(compile(plan), observableOf(text))

/** Whether the first or second repair of the plan's only trouble makes these looks as they are meant. */
export function cured(plan: Plan, ...looks: string[]): boolean {
  const made = compile(plan)
  const [trouble] = plannedTroubles(made)
  return (
    trouble !== undefined &&
    repairsFor(made, trouble).some(({ edits }) => {
      const sight = run(made, { plants: [], edits })
      return looks.every((text) => sight.see(observableOf(text)) === wanted(made, observableOf(text)))
    })
  )
}

export const onHeader = (header: Keys, motor: Keys, set: Keys) =>
  build()
    .header('SYS1', header)
    .header('SYS2', { drive: 'auto' })
    .plainFan('F1', { motor })
    .lead('F1.motor', 'board.SYS1')
    .set('SYS1', set)
    .plan()

export const lit = (keys: Keys = {}, profile: number[] = [8, 8, 8]): Build =>
  build()
    .supply('SA')
    .supply('SB')
    .usbHeader('U1')
    .fan('F1..F3')
    .lightHub('H1', ['F1', 'F2', 'F3'], { ports: 4, ...keys })
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .channel('H1', { profile })
