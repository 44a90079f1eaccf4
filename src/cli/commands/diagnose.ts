/** `whichlead diagnose PLAN`: finds what is wrong with a build, in whichever front end fits. */
import type { Run } from '../command.ts'
import { planFrom } from '../read-plan.ts'

export const run: Run = async (given, shell) => {
  const [path = ''] = given.arguments
  return planFrom(path, shell) === undefined ? 2 : 0
}
