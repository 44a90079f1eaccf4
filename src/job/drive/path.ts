/** The run of the lead in question, from its source to the part, with the place in question marked. */
import { BOARD, type Build, conductorIndex, NOWHERE, WIDTH } from '../../core/bench/build.ts'
import { leadsNow } from '../../core/bench/leads-now.ts'
import type { Prompt } from '../../core/checks/prompt.ts'
import { refOf } from '../../core/faults/entry.ts'
import type { PathStep } from '../view.ts'
import type { Job } from './job.ts'

/** The first place that a prompt names. */
function placeOf(prompt: Prompt): string | undefined {
  if (prompt.show === 'ask')
    return prompt.many || !('observe' in prompt)
      ? undefined
      : prompt.observe[0]?.at.replace(/\/(12V|5V)$/, '')
  const edit = prompt.edits.findLast((e) => e.do !== 'power')
  if (!edit) return undefined
  switch (edit.do) {
    case 'swap':
      return edit.a
    case 'plug':
    case 'unplug':
    case 'reseat':
      return edit.plug
    case 'substitute':
      return edit.what
    case 'free':
      return edit.part
    default:
      return undefined
  }
}

/** The plug by which a part, or the socket of a part, is best followed: its light lead for light, else its motor. */
function plugFor(build: Build, at: string, light: boolean): number {
  const port = build.portAt.get(at)
  if (port !== undefined) return build.ports[port]?.gender === 'plug' ? port : (build.plugIn[port] ?? NOWHERE)
  const entry = build.parts[build.partAt.get(at) ?? NOWHERE]
  if (!entry) return NOWHERE
  if (light && entry.lights[0]) return entry.lights[0].plug
  return entry.motorPlug >= 0 ? entry.motorPlug : (entry.plugs[0] ?? NOWHERE)
}

const CARRIERS = ['CONTROL', '12V', '5V', 'USB'] as const

/** The plug of the same part that feeds this socket. */
function feeding(build: Build, socket: number): number {
  for (const c of CARRIERS) {
    const up = build.up[socket * WIDTH + conductorIndex[c]] ?? NOWHERE
    if (up >= 0) return up
  }
  return NOWHERE
}

/** Empty where the prompt is about no place. */
export function pathOf(job: Job): readonly PathStep[] {
  const { prompt } = job.pending ?? {}
  const at = prompt ? placeOf(prompt) : undefined
  if (!prompt || at === undefined) return []
  const { build } = job.ground
  const light =
    prompt.show === 'ask' && 'observe' in prompt && ['lit', 'shows'].includes(prompt.observe[0]?.what ?? '')
  const steps: PathStep[] = []
  const sockets = leadsNow(build.plan, job.history)
  const socketOf = (plug: number): number =>
    build.portAt.get(sockets.get(refOf(build, plug)) ?? '') ?? NOWHERE
  const moved = (ref: string): boolean => {
    const plug = build.portAt.get(ref) ?? NOWHERE
    return sockets.has(ref) && socketOf(plug) !== (build.socketOf[plug] ?? NOWHERE)
  }
  // What is being put right is not as planned, also where a look showed it and nobody had to be suspected.
  const mended = prompt.show === 'do' && prompt.purpose === 'repair' ? at : undefined
  const state = (ref: string): PathStep['state'] =>
    moved(ref)
      ? sockets.get(ref) === null
        ? 'unplugged'
        : 'moved'
      : ref === mended || job.suspects.slice(0, 3).some((s) => s.faults.some((f) => f.at === ref))
        ? 'suspect'
        : 'planned'
  const add = (ref: string, kind: PathStep['kind']): void =>
    void steps.unshift({ ref, kind, here: ref === at, state: state(ref) })
  let plug = plugFor(build, at, light)
  const own = build.ports[plug]?.part
  if (own) add(own, 'part')
  else if (build.plan.supply.leads.some((lead) => `supply.${lead.id}` === at)) {
    // What hangs on a lead of the supply is many things; it is looked at where it leaves the supply.
    add(at, 'joint')
    add('supply', 'part')
  }
  for (let i = 0; i < 12 && plug >= 0; i++) {
    add(refOf(build, plug), 'joint')
    const socket = socketOf(plug)
    if (socket < 0) break
    add(refOf(build, socket), 'joint')
    const above = build.partOf[socket] ?? NOWHERE
    if (above < 0) {
      if (above === BOARD) add('board', 'part')
      else add('supply', 'part')
      break
    }
    add(build.parts[above]?.part.id ?? '', 'part')
    plug = feeding(build, socket)
  }
  return steps
}
