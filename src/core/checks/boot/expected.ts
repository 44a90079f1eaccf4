/**
 * What a point of the first boot should show by the plan, as facts for a note: which leads, fans, lights, figures and
 * settings, and within how many seconds. Why, and what it means if it is not so, is for the wording.
 */
import { plugOrder } from '../../audit/plug-order.ts'
import { type Build, NOWHERE } from '../../bench/build.ts'
import { chainOf, channelsOf } from '../../bench/channel.ts'
import { askedDuty } from '../../bench/drive.ts'
import { governor } from '../../bench/motor.ts'
import type { What } from '../../bench/observable.ts'
import { plannedMoment } from '../../bench/run.ts'
import { rightSetting } from '../../bench/setting-now.ts'
import { alarmLimit, reading } from '../../bench/tach.ts'
import { wanted } from '../../infer/planned.ts'
import { mapped } from '../maps.ts'
import type { Note } from '../prompt.ts'
import { type BootPoint, readPointId } from './point.ts'
import { bootWalk } from './walk.ts'

type Facts = Note['facts']

/** Places that the question goes over in this way, each once. */
function placesOf({ ask }: BootPoint, what: What): readonly string[] {
  const marks = ask.many ? ask.marks : []
  return [...new Set(marks.filter((m) => m.observe.what === what).map((m) => m.observe.at))]
}

/** Which fans turn at the top of their speed, which below it, and which rest. */
function turning(build: Build, point: BootPoint): Facts {
  const moment = plannedMoment(build)
  const parts = placesOf(point, 'spins')
  const still = parts.filter((at) => wanted(build, { what: 'spins', at }, point.host ?? undefined) === 'no')
  const flat = (at: string): boolean => {
    const port = governor(moment, build.partAt.get(at) ?? NOWHERE)
    return port < 0 || askedDuty(moment, port) >= 100
  }
  const turns = parts.filter((at) => !still.includes(at))
  return { parts: turns.filter((at) => !flat(at)), full: turns.filter(flat), still }
}

/** Which lights must be lit now, and which stay dark by right until the host speaks. */
function lit(build: Build, point: BootPoint): Facts {
  const parts = placesOf(point, 'lit')
  const later = mapped(build, 'lit').map((o) => o.at)
  return { parts, dark: later.filter((at) => !parts.includes(at)) }
}

/** "about 980 RPM": to the nearest ten. */
const ROUND_RPM = 10

function speeds(build: Build, point: BootPoint): Facts {
  const moment = plannedMoment(build)
  const refs = placesOf(point, 'rpm')
  const figures = refs.map((ref) => {
    const shown = reading(moment, build.portAt.get(ref) ?? NOWHERE)
    return typeof shown === 'number' ? String(Math.round(shown / ROUND_RPM) * ROUND_RPM) : ''
  })
  return { refs, figures }
}

function limits(build: Build, point: BootPoint): Facts {
  const refs = placesOf(point, 'alarm')
  const moment = plannedMoment(build)
  return { refs, figures: refs.map((ref) => String(alarmLimit(moment, build.portAt.get(ref) ?? NOWHERE))) }
}

function settings(build: Build, point: BootPoint): Facts {
  const refs = placesOf(point, 'setting')
  return { refs, values: refs.map((ref) => rightSetting(build, ref) ?? '') }
}

/** Leads with their numbers on the wiring sheet. */
function leads(build: Build, point: BootPoint): Facts {
  const refs = placesOf(point, 'seated')
  const sheet = plugOrder(build.plan)
  const on = refs.flatMap((ref) => {
    const n = sheet.findIndex(({ lead }) => lead.plug === ref)
    return n < 0 ? [] : [{ ref, n: n + 1, socket: sheet[n]?.lead.socket ?? '' }]
  })
  return {
    numbers: on.map(({ n }) => String(n)),
    refs: on.map(({ ref }) => ref),
    sockets: on.map(({ socket }) => socket),
    ends: refs.filter((ref) => !on.some((o) => o.ref === ref)),
  }
}

/** In which order a running light reaches the parts of each channel. */
function order(build: Build, point: BootPoint): Facts {
  const moment = plannedMoment(build)
  const refs = placesOf(point, 'effect')
  const parts = refs.map((ref) => {
    const channel = channelsOf(build).find((c) => c.ref === ref)
    return channel
      ? chainOf(moment, channel)
          .map((e) => build.parts[e.part]?.part.id ?? '')
          .join(' ')
      : ''
  })
  return { refs, values: parts }
}

const answers = (build: Build, point: BootPoint): Facts => {
  const refs = placesOf(point, 'answers')
  return { refs, values: refs.map((at) => wanted(build, { what: 'answers', at }) ?? '') }
}

const EXPECTED: Readonly<Record<string, (build: Build, point: BootPoint) => Facts>> = {
  leads,
  spins: turning,
  lit,
  settings,
  rpm: speeds,
  alarm: limits,
  effect: order,
  answers,
  follows: (_, point) => ({ refs: placesOf(point, 'follows') }),
  listed: (_, point) => ({ parts: placesOf(point, 'listed') }),
  shows: (_, point) => ({ parts: placesOf(point, 'shows') }),
  watched: (_, point) => ({ parts: placesOf(point, 'steady'), lights: placesOf(point, 'flickers') }),
  saved: (_, point) => ({ parts: placesOf(point, 'shows') }),
}

/** What is to be expected at a point, and where on the walk it is. */
export function expectedAt(build: Build, point: BootPoint): Note {
  const walk = bootWalk(build)
  const { what = '', at = '' } = readPointId(point.ask.id) ?? {}
  const alike = (p: BootPoint): boolean => p.stage === point.stage && readPointId(p.ask.id)?.what === what
  return {
    show: 'note',
    kind: 'expect',
    facts: {
      what,
      stage: point.stage,
      n: walk.indexOf(point) + 1,
      of: walk.length,
      seconds: point.within,
      // Why it is looked at need not be said of each of a kind.
      like: walk.findIndex(alike) + 1,
      ...(at === '' ? {} : { at }),
      ...EXPECTED[what]?.(build, point),
    },
  }
}
