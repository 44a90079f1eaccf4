/**
 * Control: whether a fan gets the kind of control it understands, whether it starts where its curve rests, and what
 * the board will say of the CPU and pump header at power-on.
 */

import { alarms } from './alarms.ts'
import { curves } from './curves.ts'
import { driveModes } from './drive-modes.ts'
import type { Family } from './finding.ts'

export const control: Family = {
  family: 'control',
  rules: [...driveModes, ...curves, ...alarms],
}
