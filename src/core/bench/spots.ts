/**
 * The places in a moment that a look may go by, each with a number: the entries of its lists and maps, and of its settings.
 * A noting moment tells of each that is read; two moments differ in those whose entries are not the same.
 */
import type { Build } from './build.ts'
import { freshly, type Moment } from './moment.ts'

export type Spot = number

/** Of a scene's two moments each has its own spots: as it is now, and as it should be then. */
export type When = 'now' | 'then'

export interface Spots {
  /** Makes moments like the one given, with nothing worked out yet, that note what is read of them. */
  noting(moment: Moment, when: When, note: (spot: Spot) => void): () => Moment
  differences(a: Moment, b: Moment, when: When): readonly Spot[]
}

const LISTS = ['socketOf', 'plugIn', 'joint', 'cut', 'frayed', 'port', 'supplyEnd'] as const
const MAPS = ['parts', 'held'] as const
const NAMES = [...LISTS, ...MAPS, 'strain'] as const
type Name = (typeof NAMES)[number]

export function spotsOf(build: Build): Spots {
  const most = build.ports.length + build.parts.length + build.plan.supply.leads.length
  const firstOf = (name: Name, when: When): Spot =>
    (2 * NAMES.indexOf(name) + (when === 'now' ? 0 : 1)) * most
  const settings = new Map<string, Spot>()
  const settingAt = (when: When, section: string, place: string): Spot => {
    const key = `${when} ${section} ${place}`
    const spot = settings.get(key) ?? 2 * NAMES.length * most + settings.size
    settings.set(key, spot)
    return spot
  }

  return {
    noting: (moment, when, note) => {
      const { world } = moment
      const list = <T extends object>(name: Name, of: T): T => {
        const first = firstOf(name, when)
        return notingEach(of, (key) => note(first + Number(key)))
      }
      const map = (name: (typeof MAPS)[number]) => {
        const first = firstOf(name, when)
        const get = (key: number): unknown => {
          note(first + key)
          return world[name].get(key)
        }
        return { get }
      }
      const sections = Object.entries(world.settings).map(([section, of]) => {
        const noted = (key: string): void => note(settingAt(when, section, key))
        return [section, typeof of === 'object' ? notingEach(of, noted) : of]
      })
      const strain = list('strain', moment.strain)
      const noted = {
        ...world,
        ...Object.fromEntries(LISTS.map((name) => [name, list(name, world[name])])),
        ...Object.fromEntries(MAPS.map((name) => [name, map(name)])),
        settings: Object.fromEntries(sections),
      }
      return () => freshly({ ...moment, strain, world: noted })
    },
    differences: (a, b, when) => {
      const found: Spot[] = []
      const lists = (name: Name, as: ArrayLike<number>, bs: ArrayLike<number>): void => {
        // Worlds share what was never written to.
        if (as === bs) return
        const first = firstOf(name, when)
        for (let i = 0; i < as.length; i++) if (as[i] !== bs[i]) found.push(first + i)
      }
      for (const name of LISTS) lists(name, a.world[name], b.world[name])
      lists('strain', a.strain, b.strain)
      for (const name of MAPS) {
        const [as, bs] = [a.world[name], b.world[name]]
        if (as !== bs)
          for (const key of new Set([...as.keys(), ...bs.keys()]))
            if (as.get(key) !== bs.get(key)) found.push(firstOf(name, when) + key)
      }
      if (a.world.settings !== b.world.settings)
        for (const [section, as] of Object.entries(a.world.settings)) {
          const bs = Reflect.get(b.world.settings, section)
          if (as !== bs)
            for (const key of new Set([...Object.keys(as), ...Object.keys(bs)]))
              if (Reflect.get(as, key) !== Reflect.get(bs, key)) found.push(settingAt(when, section, key))
        }
      return found
    },
  }
}

const notingEach = <T extends object>(of: T, note: (key: string) => void): T =>
  new Proxy(of, {
    get: (target, key) => {
      note(String(key))
      return Reflect.get(target, key)
    },
  })
