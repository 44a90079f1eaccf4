/**
 * Before power: each lead looked at once, in the order of the wiring sheet, a handful at a time: those of one kind
 * that end at the same part. Then the blades, for what is loose in a fan.
 */
import { plugOrder } from '../../audit/plug-order.ts'
import { type Build, NOWHERE } from '../../bench/build.ts'
import type { Observable } from '../../bench/observable.ts'
import { lookCost } from '../looks.ts'
import { mapAsk, mapped } from '../maps.ts'
import type { Ask, Mark } from '../prompt.ts'
import { type BootPoint, pointId } from './point.ts'

const marksOf = (observe: Observable, values: readonly string[]): readonly Mark[] =>
  values.map((value) => ({ id: `${observe.at}:${observe.what}-${value}`, observe, value }))

const MOST_ELSEWHERE = 5

/** The nearest sockets on the same part that would take this plug too. */
function elsewhere(build: Build, plug: number): readonly string[] {
  const own = build.socketOf[plug] ?? NOWHERE
  const kind = build.ports[own]?.connector
  return build.sockets
    .filter(
      (s) =>
        s !== own && build.ports[s]?.connector === kind && build.ports[s]?.part === build.ports[own]?.part,
    )
    .sort((a, b) => Math.abs(a - own) - Math.abs(b - own) || a - b)
    .slice(0, MOST_ELSEWHERE)
    .map((s) => build.ports[s]?.ref ?? '')
}

/** Plugs of one kind in one part's sockets. */
interface Handful {
  readonly name: string
  readonly plugs: readonly string[]
  /** Supply leads that also unplug at the supply itself. */
  readonly ends: readonly string[]
}

function handfuls(build: Build): readonly Handful[] {
  const by = new Map<string, string[]>()
  for (const { lead, line } of plugOrder(build.plan)) {
    const name = `${lead.socket.split('.')[0]} ${line}`
    by.set(name, [...(by.get(name) ?? []), lead.plug])
  }
  return [...by].map(([name, plugs]) => ({ name, plugs, ends: name === 'supply supply' ? ends(build) : [] }))
}

const ends = (build: Build): readonly string[] =>
  build.plan.supply.leads
    .filter(
      ({ id, modular }) => modular && build.plan.leads.some((l) => l.socket.startsWith(`supply.${id}.`)),
    )
    .map(({ id }) => `supply.${id}`)

const leadsAsk = (build: Build, { name, plugs, ends: atSupply }: Handful): Ask => ({
  show: 'ask',
  id: pointId('before-power', 'leads', name),
  stage: 'check',
  power: 'off',
  hands: 'in',
  minutes: Math.round((0.5 + 0.4 * (plugs.length + atSupply.length)) * 100) / 100,
  tools: [],
  error: lookCost.goes.error,
  many: true,
  marks: [
    ...atSupply.flatMap((at) => marksOf({ what: 'seated', at }, ['no', 'doubtful'])),
    ...plugs.flatMap((at) => [
      ...marksOf({ what: 'seated', at }, ['no', 'doubtful']),
      ...marksOf({ what: 'goes', at }, elsewhere(build, build.portAt.get(at) ?? NOWHERE)),
    ]),
  ],
})

/** Nothing loose in a fan, no screw or lead on a blade: turned by a finger. */
function blades(build: Build): readonly Ask[] {
  const fans = mapped(build, 'spins')
  if (fans.length === 0) return []
  return [
    {
      ...mapAsk(build, ['spins'], 'check', fans),
      id: pointId('before-power', 'blades'),
      power: 'off',
      hands: 'in',
      many: true,
      marks: fans.flatMap((o) => marksOf(o, ['no', 'twitches'])),
    },
  ]
}

/** What is looked at before power is given. */
export const beforePower = (build: Build): readonly BootPoint[] =>
  [...handfuls(build).map((handful) => leadsAsk(build, handful)), ...blades(build)].map((ask) => ({
    stage: 'before-power',
    within: 0,
    host: null,
    ask,
  }))
