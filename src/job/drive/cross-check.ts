/**
 * Answers held against the plan: what the bad ones share and nothing else does, where they are fed from, who drives
 * them, which fan a reading belongs to; and the audit's findings that bear on them. Worked out from the build.
 */
import type { CrossCheck } from '../../../flows/shared/flow.ts'
import { type Build, conductorIndex, NOWHERE, WIDTH } from '../../core/bench/build.ts'
import { governor } from '../../core/bench/motor.ts'
import type { Observable } from '../../core/bench/observable.ts'
import { plannedMoment } from '../../core/bench/run.ts'
import { tachSources } from '../../core/bench/tach.ts'
import type { Note } from '../../core/checks/prompt.ts'
import { refOf } from '../../core/faults/entry.ts'
import { wanted } from '../../core/infer/planned.ts'
import type { Job } from './job.ts'

type Facts = Note['facts']

/** Parts and sockets that a part hangs on by the plan, by the leads that matter for what was looked at. */
export function upstream(build: Build, part: number, what: string): ReadonlySet<string> {
  const found = new Set<string>()
  const entry = build.parts[part]
  if (!entry) return found
  const lights = entry.lights.map((l) => l.plug)
  const queue = what === 'lit' || what === 'shows' ? lights : [entry.motorPlug, entry.motorPower]
  for (let i = 0; i < queue.length; i++) {
    const socket = build.socketOf[queue[i] ?? NOWHERE] ?? NOWHERE
    if (socket < 0 || found.has(refOf(build, socket))) continue
    found.add(refOf(build, socket))
    const lead = build.plan.supply.leads[build.supplyLead[socket] ?? NOWHERE]
    if (lead) found.add(`supply.${lead.id}`)
    const above = build.parts[build.partOf[socket] ?? NOWHERE]
    if (!above) continue
    found.add(above.part.id)
    for (const plug of above.plugs) queue.push(plug)
  }
  return found
}

function marked(job: Job): { bad: Observable[]; good: Observable[] } {
  const { build } = job.ground
  const first = job.evidence.find((e) => e.kind === 'many')
  if (first?.kind !== 'many') return { bad: [], good: [] }
  const bad = first.marks
    .filter((m) => first.chosen.includes(m.id) && m.value !== wanted(build, m.observe))
    .map((m) => m.observe)
  const names = new Set(bad.map((o) => o.at))
  const good = first.marks.map((m) => m.observe).filter((o) => !names.has(o.at))
  return { bad, good: good.filter((o, i) => good.findIndex((p) => p.at === o.at) === i) }
}

/** The part that an observable is about: itself, or what is plugged in there. */
const partOf = (build: Build, at: string): number =>
  build.partAt.get(at) ?? build.partOf[build.plugIn[build.portAt.get(at) ?? NOWHERE] ?? NOWHERE] ?? NOWHERE

function shared(build: Build, bad: readonly Observable[], good: readonly Observable[]): Facts | null {
  if (bad.length < 2) return null
  const sets = bad.map((o) => upstream(build, partOf(build, o.at), o.what))
  const common = [...(sets[0] ?? [])].filter((ref) => sets.every((s) => s.has(ref)))
  const others = good.map((o) => ({ at: o.at, set: upstream(build, partOf(build, o.at), o.what) }))
  const parts = bad.map((o) => o.at)
  if (common.length === 0) return { what: 'nothing-shared', parts }
  const only = common.filter((ref) => others.every((o) => !o.set.has(ref)))
  if (only.length > 0) return { what: 'shared', parts, at: only.slice(0, 3) }
  const nearest = common[0] ?? ''
  return {
    what: 'shared-too',
    parts,
    at: nearest,
    also: others.filter((o) => o.set.has(nearest)).map((o) => o.at),
  }
}

function fed(build: Build, o: Observable): Facts | null {
  const entry = build.parts[partOf(build, o.at)]
  if (!entry) return null
  const plug = o.what === 'lit' || o.what === 'shows' ? (entry.lights[0]?.plug ?? NOWHERE) : entry.motorPower
  const socket = build.socketOf[plug] ?? NOWHERE
  return socket < 0 ? null : { what: 'fed', at: refOf(build, plug), from: refOf(build, socket) }
}

function driven(build: Build, o: Observable): Facts | null {
  if (o.what !== 'lit' && o.what !== 'shows') return null
  let plug = build.parts[partOf(build, o.at)]?.lights[0]?.plug ?? NOWHERE
  for (let step = 0; step < 8 && plug >= 0; step++) {
    const socket = build.socketOf[plug] ?? NOWHERE
    if (socket < 0) return null
    const above = build.parts[build.partOf[socket] ?? NOWHERE]
    if (!above) return { what: 'driven', at: o.at, from: refOf(build, socket) }
    if (above.light?.does === 'feeds') return { what: 'driven', at: o.at, from: above.part.id }
    plug =
      above.light?.does === 'splits'
        ? above.light.from
        : (build.up[socket * WIDTH + conductorIndex['5V']] ?? NOWHERE)
  }
  return null
}

function speedFrom(build: Build, o: Observable): Facts | null {
  const moment = plannedMoment(build)
  const port = o.what === 'rpm' ? (build.portAt.get(o.at) ?? NOWHERE) : governor(moment, partOf(build, o.at))
  if (port < 0) return null
  const from = tachSources(moment, port).map((i) => build.parts[i]?.part.id ?? '')
  return from.length === 0
    ? { what: 'no-speed', at: refOf(build, port) }
    : { what: 'speed-from', at: refOf(build, port), from }
}

const CHECKS: Readonly<
  Record<
    CrossCheck,
    (build: Build, bad: readonly Observable[], good: readonly Observable[]) => readonly (Facts | null)[]
  >
> = {
  shared: (build, bad, good) => [shared(build, bad, good)],
  fed: (build, bad) => (bad.length > 2 ? [] : bad.map((o) => fed(build, o))),
  driven: (build, bad) => bad.slice(0, 1).map((o) => driven(build, o)),
  'speed-from': (build, bad) => bad.slice(0, 3).map((o) => speedFrom(build, o)),
}

const MOST_FINDINGS = 4

export function crossCheck(job: Job): readonly Note[] {
  const { build, flow, known } = job.ground
  const { bad, good } = marked(job)
  const facts = flow.crossChecks.flatMap((check) => CHECKS[check](build, bad, good))
  const near = new Set(bad.flatMap((o) => [o.at, ...upstream(build, partOf(build, o.at), o.what)]))
  const findings = known.findings
    .filter((f) => f.severity !== 'untidy' && f.severity !== 'unknown')
    .filter((f) =>
      f.refs.some(
        (ref) =>
          near.has(ref) || near.has(ref.split('/')[1] ?? '') || near.has(`board.${ref.split('/')[1] ?? ''}`),
      ),
    )
    .slice(0, MOST_FINDINGS)
  return [
    ...facts.filter((f) => f !== null).map((f): Note => ({ show: 'note', kind: 'cross-check', facts: f })),
    ...findings.map(
      (f): Note => ({
        show: 'note',
        kind: 'finding',
        facts: {
          rule: f.rule,
          severity: f.severity,
          refs: f.refs,
          source: f.source,
          ...(f.figure === undefined ? {} : { figure: f.figure }),
          ...(f.limit === undefined ? {} : { limit: f.limit }),
          ...(f.unit === undefined ? {} : { unit: f.unit }),
        },
      }),
    ),
  ]
}
