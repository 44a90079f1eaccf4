/**
 * The page of all fault modes, made from the catalogue itself: where each can sit, how likely it is held to be, what
 * a technician calls it, and what it changes on a build, which the bench is asked for.
 */
import { type Build, compile } from '../core/bench/build.ts'
import { everything } from '../core/bench/everything.ts'
import { observableKey } from '../core/bench/observable.ts'
import { run, type Sight } from '../core/bench/run.ts'
import { catalogue } from '../core/faults/catalogue.ts'
import type { FaultEntry } from '../core/faults/entry.ts'
import type { Fault } from '../core/faults/fault.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { FaultText, Scene } from './language.ts'

interface Shown {
  readonly plan: Plan
  readonly build: Build
  readonly healthy: Sight
}

type Say = (fault: Fault, scene: Scene) => FaultText

const MOST_SEEN = 3
/** What a person would look at first; whatever else changes follows in the order of the bench. */
const TELLING: readonly string[] = [
  'spins',
  'lit',
  'shows',
  'rpm',
  'listed',
  'effect',
  'alarm',
  'goes',
  'seated',
  'setting',
]

const cell = (text: string): string => text.replaceAll('|', '\\|').replace(/\s+/g, ' ')
const figure = (x: number): string => String(Number(x.toPrecision(2)))

/** The kind of place that a reference names: `fan`, `plug of light-hub`, `board fan header`, `headers/…/curve`. */
function placeOf({ plan, build }: Shown, at: string): string {
  if (at.includes('/')) {
    const keys = at.split('/')
    return keys.length > 2 ? `\`${keys[0]}/…/${keys.at(-1)}\`` : `\`${at}\``
  }
  if (plan.supply.leads.some((lead) => at === `supply.${lead.id}`)) return 'lead of the supply'
  const part = plan.parts.find((p) => p.id === at)
  if (part) return part.kind
  const port = build.portAt.get(at)
  if (port === undefined) return at
  const own = build.parts[build.partOf[port] ?? -1]?.part
  if (own) return `${build.ports[port]?.gender} of ${own.kind}`
  if (at.startsWith('supply.')) return 'plug of the supply'
  return build.fanHeaders.has(port)
    ? 'fan header'
    : build.lightHeaders.has(port)
      ? 'light header'
      : 'USB header'
}

/** What changes on a build: value by value, the telling ones first. */
function seen({ build, healthy }: Shown, plant: ReturnType<FaultEntry['plant']>): string[] {
  if (!plant) return []
  const sight = run(build, { plants: [plant], edits: [] })
  const rank = (what: string): number => (TELLING.indexOf(what) + TELLING.length + 1) % (TELLING.length + 1)
  return everything(build)
    .filter((o) => sight.see(o) !== healthy.see(o))
    .sort((a, b) => rank(a.what) - rank(b.what))
    .map((o) => `\`${observableKey(o)}\`: ${sight.see(o) ?? 'no value'}`)
}

const shownOf = (plan: Plan): Shown => {
  const build = compile(plan)
  return { plan, build, healthy: run(build, { plants: [], edits: [] }) }
}

function row(entry: FaultEntry, builds: readonly Shown[], say: Say): string {
  const seats = builds.flatMap((shown) => entry.seats(shown.build).map((seat) => ({ shown, seat })))
  const weights = [...new Set(seats.map(({ seat }) => figure(seat.weight)))].sort(
    (a, b) => Number(a) - Number(b),
  )
  const places = [...new Set(seats.map(({ shown, seat }) => placeOf(shown, seat.at)))]
  // Where a mode changes nothing at its first place (a fan whose tach nobody reads), another tells more.
  const examples = seats.slice(0, 40).map(({ shown, seat }) => ({
    shown,
    fault: { at: seat.at, mode: `${entry.mode}${seat.arg}` },
    changes: seen(shown, entry.plant(shown.build, seat.at, seat.arg)),
  }))
  const best = examples.find((e) => e.changes.length > 0) ?? examples[0]
  const cells = [
    `\`${entry.mode}${entry.mode.endsWith('-') ? '…' : ''}\``,
    places.join(', '),
    entry.family,
    weights.length > 1 ? `${weights[0]} to ${weights.at(-1)}` : (weights[0] ?? ''),
    entry.intermittent ? 'yes' : '',
    best ? say(best.fault, { plan: best.shown.plan }).is : '',
    best ? best.changes.slice(0, MOST_SEEN).join('; ') + (best.changes.length > MOST_SEEN ? '; …' : '') : '',
  ]
  return `| ${cells.map(cell).join(' | ')} |`
}

/**
 * Markdown. @param plans builds on which the modes are shown, the first that has a place for a mode is taken
 * @param say a fault in words
 */
export function faultsPage(plans: readonly Plan[], say: Say): string {
  const builds = plans.map(shownOf)
  return [
    '# Faults',
    '',
    'One thing wrong at one place. Weights are judgement on one scale (1: a plug left out on a new build), not counts; what a person tells of the history moves whole families, and a limit that the audit found broken raises what it names.',
    '',
    'A fault is planted on the bench, and the bench is asked what then is seen. Places and examples are those of the example builds.',
    '',
    `${catalogue.length} entries.`,
    '',
    '| mode | can sit on | family | weight | comes and goes | in words, for example | what then is seen |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...catalogue.map((entry) => row(entry, builds, say)),
    '',
  ].join('\n')
}
