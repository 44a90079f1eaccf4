/**
 * `sensors -j`: an object a chip, in it an object a feature. Features are found by the names inside (`fan1_input`),
 * since their keys are labels that may be renamed or doubled (lm-sensors, prog/sensors/chips.c and main.c).
 */
import { isObject, type Json, type JsonRead } from './json-text.ts'
import { type FanRecord, isRoomLike, NOTHING, type ReadText } from './reading.ts'

interface Feature {
  readonly chip: string
  readonly label: string
  /** By the name inside, such as `fan1_input`. */
  readonly figures: ReadonlyMap<string, number>
}

function featuresOf(documents: readonly Json[]): Feature[] {
  return documents.flatMap((document) =>
    !isObject(document)
      ? []
      : document.entries.flatMap(([chip, body]) =>
          !isObject(body)
            ? []
            : body.entries.flatMap(([label, feature]) => {
                if (!isObject(feature)) return []
                const figures = feature.entries.flatMap(([name, v]): [string, number][] =>
                  typeof v === 'number' ? [[name, v]] : [],
                )
                return [{ chip, label, figures: new Map(figures) }]
              }),
        ),
  )
}

/** Whether the documents have the shape at all: a chip with an adapter, or with a feature's figures. */
export const looksLikeSensors = (documents: readonly Json[]): boolean =>
  documents.some(
    (document) =>
      isObject(document) &&
      document.entries.some(
        ([, chip]) =>
          isObject(chip) && chip.entries.some(([key, v]) => key === 'Adapter' && typeof v === 'string'),
      ),
  )

const FLAG = /^(?:fan|temp|in)\d+_(?:\w+_)?(?:alarm|beep|fault)$/

/**
 * With the flag for Fahrenheit every figure goes through the formula, flags and speeds too: a flag is then 32 or
 * 33.8, two pulses are 35.6, a stopped fan shows 32 (lm-sensors, prog/sensors/chips.c). Speeds are whole numbers.
 */
const isConverted = (name: string, value: number): boolean => {
  if (FLAG.test(name)) return value !== 0 && value !== 1
  if (/^fan\d+_pulses$/.test(name)) return !Number.isInteger(value) || value > 16
  return /^fan\d+_input$/.test(name) && (!Number.isInteger(value) || value === 32)
}

export function readSensors({ documents, commas, strayLines, doubled }: JsonRead): ReadText {
  const features = featuresOf(documents)
  for (const { figures } of features)
    for (const [name, value] of figures)
      if (isConverted(name, value)) return { ok: false, why: 'fahrenheit', found: `${name}: ${value}` }
  const fans = features.flatMap(fanOf)
  const remark = (
    is: boolean,
    code: 'repaired-comma' | 'repaired-stray-lines' | 'no-fan-data',
    at: string,
  ) => (is ? [{ code, at }] : [])
  return {
    ok: true,
    reading: {
      ...NOTHING,
      source: 'sensors',
      fans,
      celsius: features.flatMap(({ figures }) =>
        [...figures].flatMap(([name, v]) => (/^temp\d+_input$/.test(name) && isRoomLike(v) ? [v] : [])),
      ),
      remarks: [
        ...remark(strayLines.length > 0, 'repaired-stray-lines', strayLines[0] ?? ''),
        ...remark(commas > 0, 'repaired-comma', ''),
        ...doubled.map((at) => ({ code: 'doubled-name', at }) as const),
        ...remark(fans.length === 0, 'no-fan-data', ''),
      ],
    },
  }
}

function fanOf({ chip, label, figures }: Feature): FanRecord[] {
  const names = [...figures.keys()]
  const channel = names.map((n) => /^(fan\d+)_/.exec(n)?.[1]).find((n) => n !== undefined)
  if (channel === undefined) return []
  const figure = (item: string): number | undefined => figures.get(`${channel}_${item}`)
  const rpm = figure('input')
  const alarm = figure('alarm') ?? figure('min_alarm')
  const [min, pulses, div, fault] = ['min', 'pulses', 'div', 'fault'].map(figure)
  return [
    {
      channel,
      chip,
      label,
      also: label === channel ? [] : [label],
      rpm: rpm === undefined ? [] : [rpm],
      ...(min === undefined ? {} : { min }),
      ...(alarm === undefined ? {} : { alarm: alarm === 1 }),
      ...(fault === undefined ? {} : { fault: fault === 1 }),
      ...(pulses === undefined ? {} : { pulses }),
      ...(div === undefined ? {} : { div }),
    },
  ]
}
