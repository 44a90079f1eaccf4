/**
 * What might mend a trouble that is in the plan itself: putting things back as planned does not, so a setting is
 * made to fit the wiring, or a plug goes elsewhere. Whether it helps is for the bench to say, as with every repair.
 */

import { type Build, NOWHERE } from '../bench/build.ts'
import { channelsOf, wiredProfile } from '../bench/channel.ts'
import { driveMode, headerPlace, USUAL_DELAY } from '../bench/drive.ts'
import type { Edit } from '../bench/edit.ts'
import { plannedMoment } from '../bench/run.ts'
import { settingParts } from '../bench/setting.ts'
import { reading } from '../bench/tach.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'
import { governedPorts } from '../faults/governed.ts'
import { plannedTroubles } from '../infer/planned.ts'
import { inside, MOVE, otherSockets, repairOf } from './repair.ts'
import type { RepairDef } from './step.ts'

const MOST_MOVES = 2
const SET_MINUTES = 2

/** Empty where the fault is not one of the plan's own, or where moving and setting cannot cure it. */
export function replan(build: Build, fault: Fault): readonly RepairDef[] {
  const { at, mode } = fault
  if (!plannedTroubles(build).some((t) => t.at === at && t.mode === mode)) return []
  if (at.includes('/')) return fitted(build, at)
  if (mode === 'gap') return closeGap(build, build.portAt.get(at) ?? NOWHERE)
  if (mode === 'nothing-reports') return reportThere(build, at)
  const part = build.parts[build.partAt.get(at) ?? NOWHERE]
  if (mode === 'over-budget' && part) return moves(build, part.usbPlug)
  if (mode === 'not-controlled' && part) return moves(build, part.motorPlug)
  if (mode === 'unplugged' || mode.startsWith('in-')) return moves(build, build.portAt.get(at) ?? NOWHERE)
  return []
}

/** Another port of the hub that it hangs on already, which has the same limits. */
const sameHub = (build: Build, plug: number, socket: number): boolean => {
  const above = build.partOf[build.socketOf[plug] ?? NOWHERE] ?? NOWHERE
  return above >= 0 && build.partOf[socket] === above
}

const moves = (build: Build, plug: number): RepairDef[] =>
  plug < 0
    ? []
    : [...otherSockets(build, plug)]
        .sort((a, b) => Number(sameHub(build, plug, a)) - Number(sameHub(build, plug, b)))
        .slice(0, MOST_MOVES)
        .map((s) =>
          inside(build, plug, [{ do: 'plug', plug: refOf(build, plug), socket: refOf(build, s) }], MOVE),
        )

/** A setting as the wiring asks for it, where that is another than the plan's. */
function fitted(build: Build, ref: string): RepairDef[] {
  const value = asWired(build, ref)
  return value === undefined
    ? []
    : [repairOf([{ do: 'set', setting: ref, value }], SET_MINUTES, { power: 'on' })]
}

function asWired(build: Build, ref: string): string | undefined {
  const { place, key } = settingParts(ref)
  const moment = plannedMoment(build)
  const port = governedPorts(build).find((s) => headerPlace(build, s) === place) ?? NOWHERE
  switch (key) {
    case 'profile': {
      const channel = channelsOf(build).find((c) => c.place === place)
      return channel && JSON.stringify(wiredProfile(moment, channel))
    }
    case 'drive':
      return driveMode(moment, port) === 'pwm' ? 'dc' : 'pwm'
    case 'curve':
      // Enough to start whatever hangs there, and rising as curves do.
      return JSON.stringify([
        [30, 70],
        [70, 100],
      ])
    case 'pulses':
      return build.plan.settings.headers[place]?.pulses === 1 ? '2' : '1'
    case 'delay':
      return String(USUAL_DELAY)
    case 'alarm_below':
      // Under any limit there is while the curve lets the fan rest.
      return reading(moment, port) === 0 ? '0' : '200'
    default:
      return undefined
  }
}

/** All parts behind an empty port of a series move down, so that none stays empty before the last. */
function closeGap(build: Build, gap: number): RepairDef[] {
  const sockets = build.parts[build.partOf[gap] ?? NOWHERE]?.light
  if (sockets?.does !== 'feeds') return []
  const plugs = sockets.sockets.map((s) => build.plugIn[s] ?? NOWHERE).filter((p) => p >= 0)
  const edits = plugs.flatMap((plug, i): Edit[] => {
    const socket = sockets.sockets[i] ?? NOWHERE
    return build.socketOf[plug] === socket
      ? []
      : [{ do: 'plug', plug: refOf(build, plug), socket: refOf(build, socket) }]
  })
  const first = plugs.find((plug, i) => build.socketOf[plug] !== sockets.sockets[i])
  return first === undefined ? [] : [inside(build, first, edits, MOVE * edits.length)]
}

/** A pump or fan that reports moves to the header where nothing does. */
const reportThere = (build: Build, socket: string): RepairDef[] =>
  [...build.parts]
    .filter((entry) => entry.motor?.tach === 'pulses' && entry.motorPlug >= 0)
    .sort((a, b) => Number(b.part.kind === 'pump') - Number(a.part.kind === 'pump'))
    .slice(0, MOST_MOVES)
    .map((entry) =>
      inside(build, entry.motorPlug, [{ do: 'plug', plug: refOf(build, entry.motorPlug), socket }], MOVE),
    )
