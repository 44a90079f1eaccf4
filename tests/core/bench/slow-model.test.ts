/**
 * A second, slow and plain model of two things, to hold against the bench over all single faults and all pairs:
 * light data going LED by LED and wire by wire (the chain rule of the WS2812B data sheet), and a splitter as a list
 * of wires that are there or not. It knows nothing of ports, joints or graphs.
 */
import { describe, expect, it } from 'vitest'
import { type Bench, benchOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

interface LitFan {
  readonly leds: number
  in: boolean
  fiveVolts: boolean
  ground: boolean
  data: boolean
  back: boolean
  /** The hub's socket gives anything, gives data. */
  port: boolean
  portData: boolean
  /** By LED: lights, hands on. */
  readonly glows: boolean[]
  readonly relays: boolean[]
}

const fanOf = (leds: number): LitFan => ({
  leds,
  in: true,
  fiveVolts: true,
  ground: true,
  data: true,
  back: true,
  port: true,
  portData: true,
  glows: Array.from({ length: leds }, () => true),
  relays: Array.from({ length: leds }, () => true),
})

/** How many LEDs of each fan light; `through`: supply and data go on from fan to fan, not by a hub. */
function light(fans: readonly LitFan[], told: number, through: boolean): number[] {
  let frames = told
  let arrives = true
  let feeds = true
  return fans.map((fan) => {
    const sits = fan.in && fan.port
    const power = sits && fan.fiveVolts && fan.ground && (!through || feeds)
    let wire = arrives && sits && fan.data && fan.portData
    let lit = 0
    for (let n = 0; n < fan.leds; n++) {
      if (!power || !wire || frames === 0) wire = false
      else {
        frames -= 1
        if (fan.relays[n]) lit += fan.glows[n] ? 1 : 0
        else wire = false
      }
    }
    arrives = wire && (through || fan.back)
    if (through) feeds = power
    return lit
  })
}

const word = (lit: number, leds: number): string => (lit === 0 ? 'dark' : lit === leds ? 'whole' : 'part')

interface Planted {
  readonly name: string
  readonly does: (fans: LitFan[]) => void
}

const set = (k: number, change: Partial<LitFan>) => (fans: LitFan[]) =>
  void Object.assign(fans[k] ?? {}, change)
const led = (k: number, n: number, list: 'glows' | 'relays') => (fans: LitFan[]) => {
  const of = fans[k]?.[list]
  if (of) of[n - 1] = false
}

function lightFaults(counts: readonly number[], socket: (k: number) => string): Planted[] {
  return counts.flatMap((leds, k): Planted[] => {
    const f = `F${k + 1}`
    return [
      { name: `${f}.light:unplugged`, does: set(k, { in: false }) },
      { name: `${f}.light:offset`, does: set(k, { in: false }) },
      { name: `${f}.light:open-5V`, does: set(k, { fiveVolts: false }) },
      { name: `${f}.light:open-GND`, does: set(k, { ground: false }) },
      { name: `${f}.light:open-DATA`, does: set(k, { data: false }) },
      { name: `${f}.light:open-DATA_BACK`, does: set(k, { back: false }) },
      { name: `${socket(k)}:dead`, does: set(k, { port: false }) },
      { name: `${socket(k)}:data-dead`, does: set(k, { portData: false }) },
      ...Array.from({ length: leds }, (_, i): Planted[] => [
        { name: `${f}:led-dead-${i + 1}`, does: led(k, i + 1, 'relays') },
        { name: `${f}:led-dark-${i + 1}`, does: led(k, i + 1, 'glows') },
      ]).flat(),
    ]
  })
}

function compare(
  b: Bench,
  counts: readonly number[],
  told: number,
  through: boolean,
  faults: readonly Planted[],
): void {
  const fans = counts.map(fanOf)
  for (const { does } of faults) does(fans)
  const slow = light(fans, told, through).map((lit, k) => word(lit, counts[k] ?? 0))
  const names = faults.map((f) => f.name)
  const ids = counts.map((_, k) => `F${k + 1}`)
  expect([names, b.fault(...names).seeAll('lit', ...ids)]).toEqual([names, slow])
}

const series = (counts: readonly number[], told: readonly number[]) => {
  const b = build().supply('SA').usbHeader('U1')
  for (const [k, leds] of counts.entries()) b.fan(`F${k + 1}`, { light: { leds } })
  return benchOf(
    b
      .lightHub(
        'H1',
        counts.map((_, k) => `F${k + 1}`),
      )
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: told })
      .plan(),
  )
}

const chain = (counts: readonly number[], told: number) => {
  const b = build().lightHeader('L1')
  for (const [k, leds] of counts.entries())
    b.fan(`F${k + 1}`, { light: { leds, passes_on: true } }).lead(
      `F${k + 1}.light`,
      k === 0 ? 'board.L1' : `F${k}.light_out`,
    )
  return benchOf(b.channel('L1', { profile: [told] }).plan())
}

const total = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)
const COUNTS = [3, 2, 4] as const
const byHub = (k: number): string => `H1.${k + 1}`
const byChain = (k: number): string => (k === 0 ? 'board.L1' : `F${k}.light_out`)

describe('lights in series, LED by LED', () => {
  it('agree over every single fault', () => {
    const b = series(COUNTS, COUNTS)
    for (const fault of lightFaults(COUNTS, byHub)) compare(b, COUNTS, total(COUNTS), false, [fault])
  })

  it('agree over every pair of faults', () => {
    const b = series(COUNTS, COUNTS)
    const all = lightFaults(COUNTS, byHub)
    for (const [i, a] of all.entries())
      for (const c of all.slice(i + 1)) {
        // One LED number a fan is all that a state of the bench can hold.
        if (a.name.replace(/\d+$/, '') === c.name.replace(/\d+$/, '') && a.name.includes('led-')) continue
        compare(b, COUNTS, total(COUNTS), false, [a, c])
      }
  })

  it('agree for every count that can be told', () => {
    for (let told = 0; told <= total(COUNTS) + 2; told++) {
      const b = series(COUNTS, [told, 0, 0])
      for (const fault of [[], lightFaults(COUNTS, byHub).slice(9, 10)])
        compare(b, COUNTS, told, false, fault)
    }
  })
})

describe('lights chained from fan to fan, LED by LED', () => {
  it('agree over every single fault and every pair', () => {
    const b = chain(COUNTS, total(COUNTS))
    const all = lightFaults(COUNTS, byChain).filter((f) => !f.name.endsWith('DATA_BACK'))
    for (const [i, a] of all.entries()) {
      compare(b, COUNTS, total(COUNTS), true, [a])
      for (const c of all.slice(i + 1)) {
        if (a.name.replace(/\d+$/, '') === c.name.replace(/\d+$/, '') && a.name.includes('led-')) continue
        compare(b, COUNTS, total(COUNTS), true, [a, c])
      }
    }
  })
})

/** One way of a splitter, and the splitter's own lead, as wires that are there or not. */
interface Wires {
  supply: boolean
  ground: boolean
  tach: boolean
  control: boolean
}
interface Way extends Wires {
  motor: 'well' | 'dead' | 'held'
  sensor: boolean
}
const wires = (): Wires => ({ supply: true, ground: true, tach: true, control: true })

function splitterSays(own: Wires, ways: readonly Way[], marked: number): { spins: string[]; rpm: string } {
  const turns = ways.map(({ supply, ground, motor }) => {
    const fed = own.supply && own.ground && supply && ground
    return !fed || motor === 'dead' ? 'no' : motor === 'held' ? 'twitches' : 'turns'
  })
  const heard = ways.map((way) => own.control && way.control)
  const spins = turns.map((t, i) => (t === 'turns' ? (heard[i] ? 'normal' : 'full') : t))
  const seen = ways[marked]
  const counts = own.tach && seen?.tach && seen.sensor && turns[marked] === 'turns'
  return { spins, rpm: counts ? (heard[marked] ? 'plausible' : 'high') : 'zero' }
}

describe('fans on a splitter, wire by wire', () => {
  const WAYS = 3
  type Does = (own: Wires, ways: Way[]) => void
  const KEYS = { '12V': 'supply', GND: 'ground', TACH: 'tach', CONTROL: 'control' } as const
  const gone = { supply: false, ground: false, tach: false, control: false }
  const faults: { name: string; does: Does }[] = [
    ...Object.entries(KEYS).map(([c, key]) => ({
      name: `Y1.in:open-${c}`,
      does: ((own) => void Object.assign(own, { [key]: false })) as Does,
    })),
    { name: 'Y1.in:unplugged', does: (own) => void Object.assign(own, gone) },
    { name: 'board.SYS1:dead', does: (own) => void Object.assign(own, gone) },
    { name: 'board.SYS1:control-dead', does: (own) => void Object.assign(own, { control: false }) },
    { name: 'board.SYS1:tach-dead', does: (own) => void Object.assign(own, { tach: false }) },
    ...Array.from({ length: WAYS }, (_, i) => {
      const way =
        (change: Partial<Way>): Does =>
        (_own, ways) =>
          void Object.assign(ways[i] ?? {}, change)
      const f = `F${i + 1}`
      return [
        ...Object.entries(KEYS).map(([c, key]) => ({
          name: `${f}.motor:open-${c}`,
          does: way({ [key]: false }),
        })),
        { name: `${f}.motor:unplugged`, does: way(gone) },
        { name: `Y1.${i + 1}:dead`, does: way(gone) },
        { name: `${f}:motor-dead`, does: way({ motor: 'dead' as const }) },
        { name: `${f}:blocked`, does: way({ motor: 'held' as const }) },
        { name: `${f}:tach-dead`, does: way({ sensor: false }) },
      ]
    }).flat(),
  ]

  it.each([1, 2, 3])('agree over every single fault and every pair, marked way %i', (marked) => {
    const b = benchOf(
      build()
        .header('SYS1', { drive: 'pwm', amps: 2 })
        .plainFan('F1..F3')
        .splitter('Y1', ['F1', 'F2', 'F3'], { tach_from: marked })
        .lead('Y1.in', 'board.SYS1')
        .set('SYS1', { curve: [[0, 50]] })
        .plan(),
    )
    const hold = (planted: typeof faults): void => {
      const own = wires()
      const ways = Array.from({ length: WAYS }, (): Way => ({ ...wires(), motor: 'well', sensor: true }))
      for (const { does } of planted) does(own, ways)
      const names = planted.map((f) => f.name)
      const now = b.fault(...names)
      expect([names, now.seeAll('spins', 'F1', 'F2', 'F3'), now.see('rpm board.SYS1')]).toEqual([
        names,
        ...Object.values(splitterSays(own, ways, marked - 1)),
      ])
    }
    for (const [i, a] of faults.entries()) {
      hold([a])
      for (const c of faults.slice(i + 1)) {
        // A motor has one thing wrong with it at a time.
        const motors = [a, c]
          .filter((f) => /:(motor-dead|blocked)$/.test(f.name))
          .map((f) => f.name.split(':')[0])
        if (motors.length === 2 && motors[0] === motors[1]) continue
        hold([a, c])
      }
    }
  })
})
