/** `whichlead schema`: the JSON Schema of a wiring plan, for editors. */
import { planJsonSchema } from '../../core/plan/json-schema.ts'
import type { Run } from '../command.ts'

export const run: Run = async (_given, shell) => {
  shell.out(JSON.stringify(planJsonSchema(), null, 2))
  return 0
}
