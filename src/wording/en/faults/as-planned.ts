/** What the plan itself has wrong: built just so, it cannot work. */
import { partName, portName, refName } from '../names.ts'
import { type Say, text } from './fault-text.ts'

export const AS_PLANNED: Readonly<Record<string, Say>> = {
  overloaded: (at, scene) =>
    text(
      `${refName(at, scene)} overloaded`,
      `More hangs on ${refName(at, scene)} than it can feed: its voltage sags.`,
    ),
  'over-budget': (at, scene) =>
    text(
      `${refName(at, scene)} over its USB budget`,
      `What hangs on ${refName(at, scene)} asks for more current than a USB port gives.`,
    ),
  gap: (at, scene) =>
    text(
      `${portName(at, scene)} left empty in a series`,
      `${portName(at, scene)} is empty, so nothing hands the light data on to what follows.`,
    ),
  'not-controlled': (at, scene) =>
    text(
      `${partName(at, scene)} cannot be slowed`,
      `No control reaches ${partName(at, scene)} as it is planned: it runs at full speed whatever is set.`,
    ),
  'nothing-reports': (at, scene) =>
    text(
      `nothing reports at ${refName(at, scene)}`,
      `${refName(at, scene)} is watched, and as planned no fan or pump reports its speed there.`,
    ),
}
