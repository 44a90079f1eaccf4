/**
 * A figure in RPM as a word of the vocabulary: against what the plan's setting asks of the fan that reports there, as
 * the bench judges it. The temperature that the curves see is not the plan's guess but what the reading itself says,
 * as far as it does; where that leaves two words open, none is taken.
 */
import type { Build } from '../bench/build.ts'
import { headerSetting, USUAL_CURVE } from '../bench/drive.ts'
import type { Edit } from '../bench/edit.ts'
import type { Moment } from '../bench/moment.ts'
import { askedRpm, governor } from '../bench/motor.ts'
import { referenceOf } from '../bench/run.ts'
import { tachSources } from '../bench/tach.ts'
import { dutyAt } from '../electrics/fan-curve.ts'
import { slowestCountedRpm } from '../electrics/tach.ts'
import type { Motor } from '../plan/part.ts'

export type SpeedWord = 'zero' | 'low' | 'plausible' | 'high' | 'erratic'
export type NoWord = 'no-figure' | 'temperature-open' | 'too-slow-to-count' | 'whose-speed'

/** About is within a tenth of the top speed, as everywhere on the bench. */
const ABOUT = 0.1
/** Neighbouring figures this far apart, and back again, are jumps and no ramp (judgement). */
const JUMP = 0.25
const FEWEST_FOR_JUMPS = 3

/** Jumps up and down again between figures a few seconds apart. */
function isErratic(figures: readonly number[]): boolean {
  if (figures.length < FEWEST_FOR_JUMPS) return false
  const top = Math.max(...figures)
  const jumps = figures.slice(1).map((f, i) => f - (figures[i] ?? f))
  const far = jumps.filter((j) => Math.abs(j) > JUMP * top)
  return far.some((j) => j > 0) && far.some((j) => j < 0)
}

const middle = (figures: readonly number[]): number =>
  [...figures].sort((a, b) => a - b)[Math.floor((figures.length - 1) / 2)] ?? 0

/** The fan whose speed should arrive at this port as things are plugged now. */
function reporting(moment: Moment, port: number): { motor: Motor; index: number } | undefined {
  const index = tachSources(moment, port)[0]
  const motor = index === undefined ? undefined : moment.build.parts[index]?.motor
  return motor && index !== undefined ? { motor, index } : undefined
}

/** What the setting may ask now, duty in percent: at the plan's temperature first, then at the coolest and hottest seen. */
function dutiesAsked(build: Build, moment: Moment, port: number, celsius: readonly number[]): number[] {
  const { settings } = moment.world
  const set = headerSetting(build, settings, port).curve
  if (!set?.length && build.fanHeaders.get(port)?.role === 'pump') return [100]
  const curve = set?.length ? set : USUAL_CURVE
  const seen = celsius.length === 0 ? [] : [Math.min(...celsius), Math.max(...celsius)]
  return [settings.celsius, ...seen].map((c) => dutyAt(curve, c))
}

export interface Figures {
  readonly rpm: readonly number[]
  readonly celsius: readonly number[]
  /** What the port drives now, where it was read and follows a curve by itself. */
  readonly percent?: number
  readonly div?: number
}

/** The word for a figure at a port, or why none is taken. @param history what has been changed in the build so far */
export function speedWord(
  build: Build,
  history: readonly Edit[],
  port: number,
  figures: Figures,
): SpeedWord | NoWord {
  if (figures.rpm.length === 0) return 'no-figure'
  if (isErratic(figures.rpm)) return 'erratic'
  const rpm = middle(figures.rpm)
  const moment = referenceOf(build, history)
  const from = reporting(moment, port)
  if (from === undefined) return rpm === 0 ? 'zero' : 'whose-speed'
  const { motor, index } = from
  const duties = governor(moment, index) < 0 ? [100] : dutiesAsked(build, moment, port, figures.celsius)
  const asked = duties.map((d) => askedRpm(motor, d))
  if (rpm === 0) {
    const slowest = Math.min(...asked)
    return figures.div !== undefined && slowest > 0 && slowest < slowestCountedRpm(figures.div)
      ? 'too-slow-to-count'
      : 'zero'
  }
  const tolerance = ABOUT * motor.rpm[1]
  const word = (a: number): SpeedWord =>
    rpm > a + tolerance ? 'high' : rpm < a - tolerance ? 'low' : 'plausible'
  const inRange = (d: number): boolean => d >= Math.min(...duties) - 2 && d <= Math.max(...duties) + 2
  // What the port really drives narrows it down, as long as the plan's own curve can ask for that.
  if (figures.percent !== undefined && inRange(figures.percent)) return word(askedRpm(motor, figures.percent))
  const [planned = 0] = asked
  if (word(planned) === 'plausible') return 'plausible'
  const [low, high] = [Math.min(...asked), Math.max(...asked)]
  if (rpm > high + tolerance) return 'high'
  if (rpm < low - tolerance) return 'low'
  // Between what is asked cold and hot: right at some temperature, which one is not known.
  return high - low <= 2 * tolerance ? 'plausible' : 'temperature-open'
}
