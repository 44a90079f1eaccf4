/**
 * Whether nobody knows if the machine is on: before a first boot, and, where the plan has what would do damage, until an
 * answer comes from a machine that runs. Such a machine is not to be switched on, so none is said to be on.
 */
import type { View } from './view.ts'

export const powerUnknown = ({ prompt, trail, findings }: View): boolean =>
  (prompt?.show === 'do' && prompt.task === 'never-on') ||
  (trail.length === 0 && findings.some((f) => f.severity === 'will-damage'))
