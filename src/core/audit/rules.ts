/** Every rule, in the order in which findings of one severity are listed. */
import { air } from './air.ts'
import { control } from './control.ts'
import { currents } from './currents.ts'
import type { Family, Rule } from './finding.ts'
import { lightData } from './light-data.ts'
import { planSense } from './plan-sense.ts'
import { tach } from './tach.ts'
import { unknowns } from './unknowns.ts'
import { usb } from './usb.ts'
import { voltages } from './voltages.ts'

export const families: readonly Family[] = [
  voltages,
  currents,
  control,
  tach,
  lightData,
  usb,
  air,
  planSense,
  unknowns,
]

export const allRules: readonly Rule[] = families.flatMap((family) => family.rules)
