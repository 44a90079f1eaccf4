/** The figures of a person's locale, from the environment, through Intl. */
import { type Figures, NEUTRAL } from '../wording/figures.ts'

type Env = Readonly<Record<string, string | undefined>>

/** `de_DE.UTF-8` is `de-DE`, `sr_RS@latin` is `sr-Latn-RS`; undefined for `C`, `POSIX`, and what Intl does not know. */
export function tagOf(locale: string | undefined): string | undefined {
  const [, language, region, variant] =
    /^([A-Za-z]{2,3})(?:[_-]([A-Za-z]{2}|\d{3}))?(?:\.[\w-]+)?(?:@(\w+))?$/.exec(locale ?? '') ?? []
  if (language === undefined) return undefined
  const script = variant === 'latin' ? 'Latn' : variant === 'cyrillic' ? 'Cyrl' : undefined
  const tag = [language, script, region?.toUpperCase()].filter((p) => p !== undefined).join('-')
  try {
    return Intl.DateTimeFormat.supportedLocalesOf(tag).length > 0 ? tag : undefined
  } catch {
    return undefined
  }
}

/** By the environment, in the order that POSIX gives: `LC_ALL`, then the category, then `LANG`; the first not empty. */
const localeIn = (env: Env, category: 'LC_NUMERIC' | 'LC_TIME'): string | undefined =>
  [env.LC_ALL, env[category], env.LANG].find((l) => l !== undefined && l !== '')

/** The figures of an environment; undefined where all of them are the neutral ones. */
export function figuresOf(env: Env): Figures | undefined {
  const [numeric, time] = [tagOf(localeIn(env, 'LC_NUMERIC')), tagOf(localeIn(env, 'LC_TIME'))]
  if (numeric === undefined && time === undefined) return undefined
  return {
    ...NEUTRAL,
    ...(numeric === undefined ? {} : { number: numbersOf(numeric) }),
    ...(time === undefined ? {} : timesOf(time)),
  }
}

/** Digits stay those that stand on headers and meters. */
const numbersOf = (tag: string): Figures['number'] => {
  const forms = new Map<number, Intl.NumberFormat>()
  return (value, decimals) => {
    const form =
      forms.get(decimals) ??
      new Intl.NumberFormat(tag, {
        maximumFractionDigits: decimals,
        useGrouping: false,
        numberingSystem: 'latn',
      })
    forms.set(decimals, form)
    return form.format(value)
  }
}

function timesOf(tag: string): Pick<Figures, 'day' | 'clock' | 'moment'> {
  const digits = { numberingSystem: 'latn' } as const
  const day = { ...digits, year: 'numeric', month: '2-digit', day: '2-digit' } as const
  const clock = { ...digits, hour: '2-digit', minute: '2-digit' } as const
  const form = (options: Intl.DateTimeFormatOptions) => {
    let made: Intl.DateTimeFormat | undefined
    return (at: string): string => {
      const moment = new Date(at)
      if (Number.isNaN(moment.getTime())) return at
      made ??= new Intl.DateTimeFormat(tag, options)
      return made.format(moment)
    }
  }
  const both = form({ ...day, ...clock })
  const zoned = form({ ...day, ...clock, timeZoneName: 'short' })
  return { day: form(day), clock: form(clock), moment: (at, zone = false) => (zone ? zoned : both)(at) }
}
