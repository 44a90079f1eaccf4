/** The pairs of builds of all families. */
import { airCases } from './air-cases.ts'
import { controlCases } from './control-cases.ts'
import { currentCases } from './current-cases.ts'
import { lightCases } from './light-cases.ts'
import { planCases, unknownCases } from './plan-cases.ts'
import type { RuleCase } from './rule-case.ts'
import { tachCases } from './tach-cases.ts'
import { usbCases } from './usb-cases.ts'
import { voltageCases } from './voltage-cases.ts'

export const ruleCases: readonly RuleCase[] = [
  ...currentCases,
  ...voltageCases,
  ...controlCases,
  ...tachCases,
  ...lightCases,
  ...usbCases,
  ...airCases,
  ...planCases,
  ...unknownCases,
]
