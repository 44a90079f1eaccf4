/**
 * One point of a first boot: a question with what has to be so before it is asked, and how soon things must be seen.
 * The id of the question names stage, kind of look and place, so that a point is known again in a log.
 */
import type { HostSpeaks } from '../../infer/planned.ts'
import type { Ask, Task } from '../prompt.ts'

/** In the order of the walk. */
const BOOT_STAGES = ['before-power', 'power-on', 'firmware', 'system', 'soak', 'cold-start'] as const

export type BootStage = (typeof BOOT_STAGES)[number]

export interface BootPoint {
  readonly stage: BootStage
  readonly ask: Ask
  /** Seconds after which it must be so; 0 where there is nothing to wait for. */
  readonly within: number
  /** Whether the host speaks to the hubs by then; null where that makes no difference. */
  readonly host: HostSpeaks | null
  /** Something to do first that changes neither plugs nor settings. */
  readonly task?: Task
  /** The mains are cut first, and given again. */
  readonly cycle?: true
}

/** Set otherwise than planned, in a way that nobody foresaw. */
export const SET_OTHERWISE = 'other'

export const pointId = (stage: BootStage, what: string, at = ''): string =>
  `walk ${stage} ${what}${at && ` ${at}`}`

/** Stage, kind of look and place of a point's id; undefined for ids of other questions. */
export function readPointId(id: string): { stage: BootStage; what: string; at: string } | undefined {
  const [walk, stage, what, ...at] = id.split(' ')
  if (walk !== 'walk' || what === undefined || !BOOT_STAGES.some((s) => s === stage)) return undefined
  return { stage: stage as BootStage, what, at: at.join(' ') }
}
