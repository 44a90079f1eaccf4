/** What firmware and the lighting program remember, as a plan file writes it, and whether each names a real place. */
import * as z from 'zod/mini'
import { count, described, flag, measure, needed, word } from './fields.ts'
import { listed, nearest } from './nearest.ts'
import type { Part } from './part.ts'
import { given } from './parts/form.ts'
import { COLOURS } from './parts/light.ts'
import type { Board, ChannelSetting, HeaderSetting, Settings } from './plan.ts'
import { usbPortNames } from './ports.ts'
import { type Notebook, report, shown, usual } from './problem.ts'
import { markPlaces } from './section.ts'
import type { MapNode, Node } from './tree-node.ts'
import { usualCelsius } from './usual.ts'

const degrees = measure('temperature, °C', 'temperature', { min: -20, max: 120 })
const duty = measure('duty, %', 'percent', { min: 0, max: 100 })

const header = z.strictObject({
  drive: word('how the fan is controlled', ['pwm', 'dc'] as const),
  curve: z.optional(
    described(
      z
        .array(
          described(z.tuple([needed(degrees), needed(duty)]), {
            expected: 'a pair of °C and %, such as [30, 40]',
          }),
        )
        .check(z.minLength(1)),
      {
        description: 'duty in % over temperature in °C, as pairs, rising',
        expected: 'a list of pairs such as [[30, 40], [70, 100]]',
      },
    ),
  ),
  delay: measure('how late the curve follows a temperature that rises; 0 for at once', 'time', {
    min: 0,
    max: 600,
  }),
  pulses: count('tach pulses a turn that the board counts with', 1, 8),
  alarm_below: measure('speed under which an alarm is raised; 0 for never', 'speed', {
    min: 0,
    max: 30_000,
  }),
})

const channel = z.strictObject({
  profile: z.optional(
    described(z.array(count('LEDs', 0, 2000)), {
      description: 'LEDs told, by port or part in chain order',
      expected: 'a list of LED counts such as [8, 8, 8]',
    }),
  ),
  colours: word('the colour order that is sent', COLOURS),
  brightness: measure('brightness that is set, % of full', 'percent', { min: 1, max: 100 }),
})

export const settingsSchema = z.strictObject({
  headers: z.optional(
    described(z.record(z.string(), header), {
      description: 'by fan header (SYS1) or by fan port of a controller (C1.fan2)',
      expected: 'a map such as {SYS1: {drive: pwm}}',
    }),
  ),
  channels: z.optional(
    described(z.record(z.string(), channel), {
      description: 'by light hub (H1), light port of a controller (C1.light1) or board light header (L1)',
      expected: 'a map such as {H1: {profile: [8, 8, 8]}}',
    }),
  ),
  host: z.optional(
    described(
      z.strictObject({
        program: word('the vendor’s lighting program', ['running', 'absent'] as const),
        global_effect: word('one effect over everything', ['on', 'off'] as const),
      }),
      {
        description: 'the program that drives the lights',
        expected: 'a map such as {program: running, global_effect: off}',
      },
    ),
  ),
  ports: z.optional(
    described(
      z.record(
        z.string(),
        z.strictObject({ enabled: flag('no where firmware or a switch has turned it off') }),
      ),
      { description: 'USB ports turned off', expected: 'a map such as {board.U1.a: {enabled: no}}' },
    ),
  ),
  celsius: measure('temperature that the curves see, °C', 'temperature', { min: -20, max: 120 }),
})

type Input = z.output<typeof settingsSchema>

/** `board.SYS1` and `SYS1` are the same place in settings. */
const bare = (key: string): string => key.replace(/^board\./, '')

export interface SettingPlaces {
  readonly headers: readonly string[]
  readonly channels: readonly string[]
  readonly ports: readonly string[]
}

/** Every place that a setting can belong to. */
export function settingPlaces(board: Board, parts: readonly Part[]): SettingPlaces {
  const numbered = (id: string, word: string, n: number): string[] =>
    Array.from({ length: n }, (_, i) => `${id}.${word}${i + 1}`)
  return {
    headers: [
      ...board.fanHeaders.map((h) => h.id),
      ...parts.flatMap((p) => (p.kind === 'controller' ? numbered(p.id, 'fan', p.fanPorts) : [])),
    ],
    channels: [
      ...board.lightHeaders.map((h) => h.id),
      ...parts.flatMap((p) => {
        if (p.kind === 'light-hub') return [p.id]
        if (p.kind === 'pump' && p.host === 'usb') return [p.id]
        if (p.kind !== 'controller') return []
        return p.chain === 'separate' ? numbered(p.id, 'light', p.lightPorts) : [p.id]
      }),
    ],
    ports: [
      ...board.usbHeaders.flatMap((h) => [
        `board.${h.id}`,
        ...usbPortNames(h).map((name) => `board.${name}`),
      ]),
      ...parts.flatMap((p) => (p.kind === 'usb-hub' ? numbered(p.id, '', p.ports) : [])),
    ],
  }
}

function curveTrouble(book: Notebook, node: Node | undefined, curve: HeaderSetting['curve']): void {
  if (!node || !curve) return
  const bad = curve.findIndex((point, i) => i > 0 && point[0] <= (curve[i - 1]?.[0] ?? 0))
  if (bad < 0) return
  const at = node.is === 'list' ? (node.items[bad]?.place ?? node.place) : node.place
  report(
    book,
    at,
    `${curve[bad]?.[0]} °C after ${curve[bad - 1]?.[0]} °C`,
    'temperatures that rise from pair to pair',
    'put the pairs in order',
  )
}

const child = (node: Node | undefined, key: string): Node | undefined =>
  node?.is === 'map' ? node.entries.get(key)?.value : undefined

/** The settings of a plan; `failed` are parts whose own entries are wrong, of which nothing is said here. */
export function settingsOf(
  book: Notebook,
  input: Input,
  node: MapNode | undefined,
  places: SettingPlaces,
  failed: ReadonlySet<string>,
): Settings {
  const checked = <T, U>(
    section: 'headers' | 'channels' | 'ports',
    values: Readonly<Record<string, T>> | undefined,
    make: (value: T, node: Node | undefined) => U,
    name: (key: string) => string,
  ): Record<string, U> => {
    const made: Record<string, U> = {}
    const home = child(node, section)
    const lost = home?.is === 'map' ? home.entries.get('__proto__') : undefined
    if (lost)
      report(
        book,
        lost.key,
        shown('__proto__'),
        `one of ${listed(places[section])}`,
        'name a place of this plan',
      )
    for (const [key, value] of Object.entries(values ?? {})) {
      const id = name(key)
      const entry = home?.is === 'map' ? home.entries.get(key) : undefined
      if (!places[section].includes(id)) {
        if (failed.has(id.split('.')[0] ?? '') || (failed.has('board') && !id.includes('.'))) continue
        const meant = nearest(id, places[section])
        if (entry)
          report(
            book,
            entry.key,
            `${shown(key)}, which has no such setting`,
            meant ?? `one of ${listed(places[section])}`,
            meant ? `write ${meant}` : 'name a place of this plan',
          )
      } else if (Object.hasOwn(made, id)) {
        if (entry)
          report(
            book,
            entry.key,
            `settings for ${id} a second time`,
            'one entry a place',
            'put the two together',
          )
      } else made[id] = make(value, entry?.value)
      if (entry && id !== key) markPlaces(book, entry.value, `settings.${section}.${id}`, entry.key)
    }
    return made
  }
  const headers = checked(
    'headers',
    input.headers,
    (h, at): HeaderSetting => {
      const curve = h.curve?.map(([celsius, share]) => [celsius ?? usualCelsius, share ?? 100] as const)
      curveTrouble(book, child(at, 'curve'), curve)
      return {
        ...given('drive', h.drive),
        ...given('curve', curve),
        ...given('delay', h.delay),
        ...given('pulses', h.pulses),
        ...given('alarmBelow', h.alarm_below),
      }
    },
    bare,
  )
  const channels = checked(
    'channels',
    input.channels,
    (c): ChannelSetting => {
      return {
        ...given(
          'profile',
          c.profile?.map((n) => n ?? 0),
        ),
        ...given('colours', c.colours),
        ...given('brightness', c.brightness),
      }
    },
    bare,
  )
  const ports = checked(
    'ports',
    input.ports,
    (p) => ({ enabled: p.enabled ?? true }),
    (key) => (places.ports.includes(`board.${key}`) ? `board.${key}` : key),
  )
  return {
    headers,
    channels,
    ports,
    host: { program: input.host?.program ?? 'running', globalEffect: input.host?.global_effect ?? 'off' },
    celsius: usual(book, 'settings.celsius', input.celsius, usualCelsius),
  }
}
