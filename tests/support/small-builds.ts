/** Builds as small as can be, for tests of one thing. */
import type { Plan } from '../../src/core/plan/plan.ts'
import { build } from './build.ts'

/** Two fans that share nothing. */
export const twoApart = (): Plan =>
  build()
    .header('SYS1')
    .header('SYS2')
    .plainFan('F1..F2')
    .lead('F1.motor', 'board.SYS1')
    .lead('F2.motor', 'board.SYS2')
    .plan()

/** Three lit fans on one splitter and one hub, and a lighting program that runs. */
export const threeOnOneHub = (): Plan =>
  build()
    .supply('SA')
    .header('SYS1')
    .usbHeader('U1')
    .fan('F1..F3')
    .splitter('Y1', ['F1', 'F2', 'F3'])
    .lightHub('H1', ['F1', 'F2', 'F3'])
    .lead('Y1.in', 'board.SYS1')
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .host({ program: 'running', global_effect: 'off' })
    .plan()
