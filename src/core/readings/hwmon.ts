/**
 * A copy of hwmon files: `path TAB value`, one a line, or `seconds TAB path TAB value` for a series. One number a file;
 * items are named by the kernel's sysfs-class-hwmon page. An empty file is not known, never 0.
 */
import { dutyFromRaw } from '../electrics/control-signal.ts'
import { type DriveRecord, type FanRecord, isRoomLike, NOTHING, type ReadText } from './reading.ts'

const LINE = /^(?:(\d+(?:\.\d+)?)\t)?(\S*?\/)?(hwmon\d+)\/([a-z0-9_]+)(?:\t|=|: )(.*)$/

export const looksLikeHwmon = (text: string): boolean =>
  text.split('\n', 40).some((line) => LINE.test(line.replace(/\r$/, '')))

interface Chip {
  readonly folder: string
  /** Values by file, in the order of the lines. */
  readonly files: Map<string, string[]>
}

/** Fans and drives by chip; broken at the first line that is none of this, with its number. */
export function readHwmon(text: string): ReadText {
  const chips = new Map<string, Chip>()
  for (const [i, raw] of text.split('\n').entries()) {
    const line = raw.replace(/\r$/, '')
    if (line.trim() === '' || line.startsWith('#')) continue
    const [, , , folder, file, value] = LINE.exec(line) ?? []
    if (folder === undefined || file === undefined || value === undefined)
      return { ok: false, why: 'broken', line: i + 1, found: line.trim().slice(0, 60) }
    const chip = chips.get(folder) ?? { folder, files: new Map() }
    chips.set(folder, chip)
    chip.files.set(file, [...(chip.files.get(file) ?? []), value.trim()])
  }
  const read = [...chips.values()].map(chipOf)
  const fans = read.flatMap((c) => c.fans)
  return {
    ok: true,
    reading: {
      ...NOTHING,
      source: 'hwmon',
      fans,
      drives: read.flatMap((c) => c.drives),
      celsius: read.flatMap((c) => c.celsius),
      remarks: fans.length === 0 ? [{ code: 'no-fan-data', at: '' }] : [],
    },
  }
}

const numberOf = (text: string | undefined): number | undefined =>
  text !== undefined && /^-?\d+(?:\.\d+)?$/.test(text) ? Number(text) : undefined

function chipOf({ folder, files }: Chip) {
  const chip = files.get('name')?.[0] || folder
  const last = (file: string): number | undefined => numberOf(files.get(file)?.at(-1))
  const numbers = (kind: RegExp): string[] =>
    [...new Set([...files.keys()].flatMap((f) => kind.exec(f)?.[1] ?? []))].sort(
      (a, b) => Number(a) - Number(b),
    )
  const milli = (file: string): number | undefined => {
    const value = last(file)
    return value === undefined ? undefined : value / 1000
  }
  return {
    fans: numbers(/^fan(\d+)_/).map((n) => fanOf(chip, n, files, last)),
    drives: numbers(/^pwm(\d+)(?:_|$)/).map((n) => driveOf(chip, n, last)),
    celsius: numbers(/^temp(\d+)_input$/)
      .map((n) => milli(`temp${n}_input`))
      .filter((c) => c !== undefined)
      .filter(isRoomLike),
  }
}

function fanOf(
  chip: string,
  n: string,
  files: Chip['files'],
  last: (file: string) => number | undefined,
): FanRecord {
  const channel = `fan${n}`
  const of = (item: string): number | undefined => last(`${channel}_${item}`)
  const label = files.get(`${channel}_label`)?.at(-1)
  const alarm = of('alarm') ?? of('min_alarm')
  const [min, fault, pulses, div] = ['min', 'fault', 'pulses', 'div'].map(of)
  return {
    channel,
    chip,
    ...(label ? { label } : {}),
    also: label ? [label] : [],
    rpm: (files.get(`${channel}_input`) ?? []).map(numberOf).filter((v) => v !== undefined),
    ...(min === undefined ? {} : { min }),
    ...(alarm === undefined ? {} : { alarm: alarm !== 0 }),
    ...(fault === undefined ? {} : { fault: fault !== 0 }),
    // Where the chip has no such file, two pulses a turn is what the driver counts.
    ...(pulses === undefined ? {} : { pulses }),
    ...(div === undefined ? {} : { div }),
    ...(of('enable') === 0 ? { off: true as const } : {}),
  }
}

function driveOf(chip: string, n: string, last: (file: string) => number | undefined): DriveRecord {
  const duty = last(`pwm${n}`)
  const enable = last(`pwm${n}_enable`)
  const mode = last(`pwm${n}_mode`)
  const curve: (readonly [number, number])[] = []
  for (let m = 1; m <= 10; m++) {
    const celsius = last(`pwm${n}_auto_point${m}_temp`)
    const share = last(`pwm${n}_auto_point${m}_pwm`)
    if (celsius !== undefined && share !== undefined) curve.push([celsius / 1000, dutyFromRaw(share)])
  }
  return {
    channel: `pwm${n}`,
    chip,
    ...(duty === undefined ? {} : { percent: dutyFromRaw(duty) }),
    ...(enable === undefined ? {} : { enable }),
    ...(mode === 0 ? { mode: 'dc' } : mode === 1 ? { mode: 'pwm' } : {}),
    ...(curve.length > 0 ? { curve } : {}),
  }
}
