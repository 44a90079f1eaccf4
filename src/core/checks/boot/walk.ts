/**
 * The first boot of a build as points to look at, made from its plan: every lead before power, blades; what must turn
 * and light while no host speaks yet; what the firmware is set to and shows; what the system lists, what the lighting
 * program is told and what the lights then show, port by port; a soak, and a minute's watch over what is warm by then; and
 * a cold start, by which all must come back. Each point is one question; what is marked is not as wanted.
 */
import type { Build } from '../../bench/build.ts'
import { hasHostWork } from '../../faults/governed.ts'
import { type HostSpeaks, wanted } from '../../infer/planned.ts'
import { type MapKind, mapAsk, mapped } from '../maps.ts'
import type { Ask, Task } from '../prompt.ts'
import { beforePower } from './leads.ts'
import { type BootPoint, type BootStage, pointId } from './point.ts'
import { firmwareSettings, programSettings } from './settings.ts'

/** Fans start within this, lights too; common practice, no source. */
const STARTED = 5
/** A speed is counted and shown within this; common practice, no source. */
const COUNTED = 10
/** A fan follows a new duty within this; common practice, no source. */
const FOLLOWS = 10
/** The system lists its devices, a host program has sent its first frame within this; common practice, no source. */
const HOST_UP = 60

interface When {
  readonly stage: BootStage
  readonly within: number
  readonly host: HostSpeaks | null
  readonly task?: Task
}

/** Kinds whose question at this stage is another than the map's usual one. */
type Named = MapKind | 'soak' | 'watched' | 'saved' | 'again'

/** A look over these kinds; none where there is nothing of them to see. `but` leaves out what was seen already. */
function look(
  build: Build,
  kinds: readonly MapKind[],
  when: When,
  { name, but = [] }: { name?: Named; but?: readonly BootPoint[] } = {},
): readonly BootPoint[] {
  const { stage, host } = when
  const seen = new Set(
    but.flatMap(({ ask }) => (ask.many ? ask.marks.map((m) => `${m.observe.what} ${m.observe.at}`) : [])),
  )
  const things = kinds.flatMap((kind) =>
    mapped(build, kind, host ?? undefined).filter((o) => !seen.has(`${o.what} ${o.at}`)),
  )
  if (things.length === 0) return []
  const ask = mapAsk(build, kinds, 'check', things)
  return [{ ...when, ask: { ...ask, id: pointId(stage, name ?? kinds.join('+')) } }]
}

const point =
  (when: When) =>
  (ask: Ask): BootPoint => ({ ...when, ask })

/** Lights that show a pattern of their own before the host speaks. */
function stored(build: Build): readonly BootPoint[] {
  const when = { stage: 'cold-start', within: STARTED, host: 'absent' } as const
  const things = mapped(build, 'shows', 'absent').filter((o) => wanted(build, o, 'absent') === 'stored')
  if (things.length === 0) return []
  const ask = mapAsk(build, ['shows'], 'check', things)
  if (!ask.many) return []
  const marks = ask.marks.filter(({ value }) => value === 'nothing' || value === 'frozen')
  return [
    { ...when, task: 'cold-start', cycle: true, ask: { ...ask, marks, id: pointId('cold-start', 'saved') } },
  ]
}

/** Right after power on nobody speaks to the lights, where the plan has a program that will. */
const silent = (build: Build): HostSpeaks | null =>
  hasHostWork(build) && build.plan.settings.host.program === 'running' ? 'absent' : null

function made(build: Build): readonly BootPoint[] {
  const quiet = silent(build)
  const speaks = quiet === null ? null : 'running'
  const early = (stage: BootStage, within: number): When => ({ stage, within, host: quiet })
  const late = (stage: BootStage, within: number): When => ({ stage, within, host: speaks })
  const [first, ...others] = [
    ...look(build, ['spins'], early('power-on', STARTED)),
    ...look(build, ['lit'], early('power-on', STARTED)),
  ]
  const atPower = first ? [{ ...first, task: 'firmware' as const }, ...others] : []
  const firmware = [
    ...firmwareSettings(build).map(point(early('firmware', 0))),
    ...look(build, ['rpm'], early('firmware', COUNTED)),
    ...look(build, ['alarm'], early('firmware', COUNTED)),
    ...look(build, ['follows'], early('firmware', FOLLOWS)),
  ]
  const listed = look(build, ['listed'], { ...early('system', HOST_UP), task: 'system' })
  const program = [
    ...programSettings(build).map(point(late('system', 0))),
    ...look(build, ['rpm'], late('system', HOST_UP), { but: firmware }),
    ...look(build, ['alarm'], late('system', HOST_UP), { but: firmware }),
    ...look(build, ['follows'], late('system', FOLLOWS), { but: firmware }),
    ...look(build, ['shows'], late('system', HOST_UP)),
    ...look(build, ['effect'], late('system', STARTED)),
    ...look(build, ['answers'], late('system', STARTED)),
  ]
  const saved = stored(build)
  const save =
    saved.length === 0
      ? []
      : look(build, ['shows'], { ...late('system', STARTED), task: 'save-pattern' }, { name: 'saved' })
  return [
    ...beforePower(build),
    ...atPower,
    ...firmware,
    ...listed,
    ...program,
    ...save,
    ...look(build, ['spins', 'lit', 'rpm', 'alarm'], { ...late('soak', 0), task: 'soak' }, { name: 'soak' }),
    ...look(build, ['steady', 'flickers'], late('soak', 0), { name: 'watched' }),
    ...saved,
    ...again(build, late('cold-start', HOST_UP), saved.length > 0),
  ]
}

/** After the cold start, with the system up again by itself: what must have come back. */
function again(build: Build, when: When, wasCold: boolean): readonly BootPoint[] {
  const points = look(build, ['spins', 'shows', 'listed'], when, { name: 'again' })
  return points.map((p) => ({
    ...p,
    task: 'by-itself' as const,
    ...(wasCold ? {} : { cycle: true as const }),
  }))
}

const known = new WeakMap<Build, readonly BootPoint[]>()

/** All points, in order. A build without lights or USB has fewer. */
export function bootWalk(build: Build): readonly BootPoint[] {
  const points = known.get(build) ?? made(build)
  known.set(build, points)
  return points
}
