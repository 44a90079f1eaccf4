/**
 * Every published or handbook value of the list, computed by our own formulas. The list names the source of each;
 * it was put together from public specifications, handbooks, kernel pages and board manuals, not from this program.
 * An entry that our arithmetic does not answer stands in `elsewhere` with the reason, so none is skipped in silence.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import * as air from '../../src/core/electrics/airflow.ts'
import { dutyFromRaw } from '../../src/core/electrics/chip-duty.ts'
import * as copper from '../../src/core/electrics/copper.ts'
import * as current from '../../src/core/electrics/fan-current.ts'
import { dutyAt } from '../../src/core/electrics/fan-curve.ts'
import * as speed from '../../src/core/electrics/fan-speed.ts'
import * as drop from '../../src/core/electrics/lead-drop.ts'
import * as data from '../../src/core/electrics/led-data.ts'
import * as plugs from '../../src/core/electrics/supply-plugs.ts'
import * as rails from '../../src/core/electrics/supply-rails.ts'
import * as tach from '../../src/core/electrics/tach.ts'
import * as usb from '../../src/core/electrics/usb-budget.ts'

type Inputs = Readonly<Record<string, number>>
interface Entry {
  readonly id: string
  readonly statement: string
  readonly inputs: Inputs
  readonly expected: number | string
  readonly tolerance: number
  readonly source: string
}
type Ours = (i: Record<string, number>) => number

const fan = (belowMin: 'keeps' | 'stops-at-zero' | 'stops', minPct: number) => ({
  rpm: [minPct, 100] as const,
  belowMin,
  startDuty: minPct,
  startVolts: 7,
})
const misset: Ours = (i) => tach.shownRpm(i.true_rpm!, i.real_pulses!, i.assumed_pulses!)
const slowest: Ours = ({ div }) => tach.slowestCountedRpm(div!)
const duty: Ours = ({ pwm }) => dutyFromRaw(pwm!)
const dcVolts: Ours = ({ pwm }) => speed.dcVolts(dutyFromRaw(pwm!))
const frameMs: Ours = ({ n, reset_us }) => data.frameUs(n!, reset_us!) / 1000
const frames: Ours = ({ n, reset_us }) => data.framesPerSecond(n!, reset_us!)
const mohm: Ours = ({ n }) => copper.ohmsPerMetre(n!) * 1000
const low: Ours = ({ nom, tol }) => rails.band(nom!, tol!)[0]
const gaugeOf = (mohmPerMetre: number): number =>
  [18, 20, 22, 24, 26, 28].find((n) => Math.abs(copper.ohmsPerMetre(n) * 1000 - mohmPerMetre) < 0.5)!
const lost: Ours = (i) => drop.leadDrop(i.a!, i.m! * 1000, gaugeOf(i.mohm_m!))

const ours: Readonly<Record<string, Ours>> = {
  'tach-misset-pulses-1': misset,
  'tach-misset-pulses-4': misset,
  'tach-four-pulse-fan': misset,
  'tach-default-pulses': () => tach.USUAL_PULSES,
  'fandiv-min-1': slowest,
  'fandiv-min-2': slowest,
  'fandiv-min-8': slowest,
  'fandiv-count-1350': ({ count, div }) => tach.rpmFromCount(count!, div!),
  'curve-50pct': (i) => speed.rpmAtDuty({ ...fan('keeps', 30), rpm: [450, i.max_rpm!] }, i.duty_pct!),
  'curve-type-a-at-0': (i) => speed.rpmAtDuty(fan('keeps', i.min_pct!), 0),
  'curve-type-a-at-10': (i) => speed.rpmAtDuty(fan('keeps', i.min_pct!), i.duty_pct!),
  'curve-type-b-at-10': (i) => speed.rpmAtDuty(fan('stops-at-zero', i.min_pct!), i.duty_pct!),
  'curve-type-b-at-0': () => speed.rpmAtDuty(fan('stops-at-zero', 20), 0),
  'curve-type-c-at-0': () => speed.rpmAtDuty(fan('stops', 20), 0),
  'fan-v-min': () => current.FAN_VOLTS_RANGE[0],
  'fan-v-max': () => current.FAN_VOLTS_RANGE[1],
  'fan-steady-max': () => current.FAN_STEADY_AMPS,
  'fan-start-max': () => current.FAN_START_AMPS,
  'dc-volts-128': dcVolts,
  'dc-volts-64': dcVolts,
  'dc-pct-7v': ({ v }) => speed.dcDuty(v!),
  'dc-pct-5v': ({ v }) => speed.dcDuty(v!),
  'hwmon-pwm-255': duty,
  'hwmon-pwm-128': duty,
  'hwmon-pwm-77': duty,
  'hwmon-curve-50c': (i) =>
    dutyAt(
      [
        [i.t1!, i.p1!],
        [i.t2!, i.p2!],
      ],
      i.t!,
    ),
  'hwmon-curve-50c-pct': duty,
  'led-bits': () => data.BITS_PER_LED,
  'led-bit-time': () => data.bitUs('zero'),
  'led-bit-time-one': () => data.bitUs('one'),
  'led-time-per-led': ({ bits }) => data.ledUs(bits!),
  'led-frame-16': (i) => frameMs(i) * 1000,
  'led-frame-100': frameMs,
  'led-rate-100': frames,
  'led-frame-100-280': frameMs,
  'led-rate-256-280': frames,
  'led-rate-1024': frames,
  'led-vih-5v': ({ vdd }) => data.highAtLeast(vdd!),
  'sata-rail-a': () => plugs.SATA_RAIL_AMPS,
  'peripheral-pin-a': () => plugs.PERIPHERAL_PIN_AMPS,
  'atx-12v-min': () => rails.railBand('12V')[0],
  'atx-12v-max': () => rails.railBand('12V')[1],
  'atx-5v-min': () => rails.railBand('5V')[0],
  'atx-5v-max': () => rails.railBand('5V')[1],
  'atx-3v3-min': () => rails.railBand('3V3')[0],
  'atx-3v3-max': () => rails.railBand('3V3')[1],
  'atx-5vsb-min': () => rails.railBand('5VSB')[0],
  'atx3-12v-min': low,
  'awg-18-mohm-m': mohm,
  'awg-20-mohm-m': mohm,
  'awg-22-mohm-m': mohm,
  'awg-24-mohm-m': mohm,
  'awg-26-mohm-m': mohm,
  'awg-28-mohm-m': mohm,
  'awg-diameter-24': ({ n }) => copper.diameterMm(n!),
  'drop-26awg-3a': lost,
  'drop-26awg-3a-load': ({ v }) =>
    drop.voltsAlong({ at: 'lights', ohms: drop.leadOhms(500, 26), amps: 3, on: [] }, v!).get('lights')!,
  'drop-22awg-3a': lost,
  'drop-24awg-1a-12v': lost,
  'usb2-unit-load': () => usb.UNIT_LOAD_MA.usb2,
  'usb2-high-power': () => usb.portMa('usb2'),
  'usb2-hub-ports': ({ total, hub }) => usb.busHubPorts(total!, hub!),
  'usb2-self-powered-port': () => usb.portMa('usb2'),
  'usb3-unit-load': () => usb.UNIT_LOAD_MA.usb3,
  'usb3-high-power': () => usb.portMa('usb3'),
  'usb-tiers': ({ hubs }) => usb.tierOf(hubs!),
  'usb-max-external-hubs': ({ tiers }) => usb.hubsBetweenAtMost(tiers!),
  'usb-depth-sample': ({ hubs }) => usb.tierOf(hubs!),
  'air-parallel-two': ({ cfm, n }) => air.sideBySide(Array.from({ length: n! }, () => cfm!)),
}

const READINGS = 'what a reading file says; belongs to the import of readings, not to the arithmetic'
const elsewhere: Readonly<Record<string, string>> = {
  'hwmon-enable-0': READINGS,
  'hwmon-enable-1': READINGS,
  'hwmon-enable-2': READINGS,
  'hwmon-enable-5': READINGS,
  'hwmon-mode-0': READINGS,
  'hwmon-mode-1': READINGS,
  'hwmon-temp-unit': READINGS,
  'hwmon-volt-unit': READINGS,
  'hwmon-fault-1': READINGS,
  'hwmon-refresh': READINGS,
  'sensorsj-fahrenheit-rpm': READINGS,
  'sensorsj-fahrenheit-undo': READINGS,
  'sensorsj-fahrenheit-zero': READINGS,
  'sensorsj-decimals': READINGS,
  'redfish-percent-max': READINGS,
  'redfish-absent': READINGS,
  'redfish-count': READINGS,
}

const list = parse(readFileSync(new URL('../fixtures/check-values.yaml', import.meta.url), 'utf8')) as {
  checks: Entry[]
}

describe('published and handbook values', () => {
  test('each entry of the list is computed here or stands under a reason, and nothing else does', () => {
    const known = [...Object.keys(ours), ...Object.keys(elsewhere)].sort()
    expect(known).toEqual(list.checks.map((entry) => entry.id).sort())
  })

  for (const entry of list.checks.filter(({ id }) => ours[id])) {
    test(`${entry.statement} (${entry.id}; ${entry.source})`, () => {
      const found = ours[entry.id]!({ ...entry.inputs })
      // half an ulp of slack, where the list gives none
      expect(Math.abs(found - Number(entry.expected))).toBeLessThanOrEqual(entry.tolerance + 1e-9)
    })
  }
})
