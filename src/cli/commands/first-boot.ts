/** `whichlead first-boot PLAN`: walks the first power-on of a build; a job like any other, of the first boot's own flow. */
import type { Run } from '../command.ts'
import { run as diagnose } from './diagnose.ts'

export const run: Run = (given, shell) =>
  diagnose({ ...given, lists: new Map([...given.lists, ['symptom', ['first-boot']]]) }, shell)
