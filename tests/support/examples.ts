/** The example builds of the documentation, read. */
import { readFileSync } from 'node:fs'
import type { Plan } from '../../src/core/plan/plan.ts'
import { readPlan } from '../../src/core/plan/read.ts'

/** @param name of the file without `.build.yaml` */
export function example(name: string): Plan {
  const file = `${name}.build.yaml`
  const text = readFileSync(new URL(`../../docs/examples/${file}`, import.meta.url), 'utf8')
  const read = readPlan(text, file)
  if (!read.ok) throw new Error(`${file} does not read`)
  return read.value
}
