/**
 * Every published or handbook value of the list, computed by our own formulas. The list names the source of each;
 * it was put together from public specifications, handbooks, kernel pages and board manuals, not from this program.
 * An entry that our arithmetic does not answer stands in `elsewhere` with the reason, so none is skipped in silence.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import * as air from '../../src/core/electrics/airflow.ts'
import * as control from '../../src/core/electrics/control-signal.ts'
import * as copper from '../../src/core/electrics/copper.ts'
import * as current from '../../src/core/electrics/fan-current.ts'
import { dutyAt } from '../../src/core/electrics/fan-curve.ts'
import * as speed from '../../src/core/electrics/fan-speed.ts'
import * as drop from '../../src/core/electrics/lead-drop.ts'
import * as led from '../../src/core/electrics/led-current.ts'
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
const rpmFromHz: Ours = ({ hz, pulses }) => tach.rpmFromHz(hz!, pulses!)
const misset: Ours = (i) => tach.shownRpm(i.true_rpm!, i.real_pulses!, i.assumed_pulses!)
const slowest: Ours = ({ div }) => tach.slowestCountedRpm(div!)
const duty: Ours = ({ pwm }) => control.dutyFromRaw(pwm!)
const raw: Ours = ({ pct }) => control.rawFromDuty(pct!)
const dcVolts: Ours = ({ pwm }) => speed.dcVolts(control.dutyFromRaw(pwm!))
const watts: Ours = ({ v, a }) => current.watts(v!, a!)
const left: Ours = ({ limit, n, each }) =>
  current.ampsLeft(
    limit!,
    Array.from({ length: n! }, () => each!),
  )
const frameMs: Ours = ({ n, reset_us }) => data.frameUs(n!, reset_us!) / 1000
const frames: Ours = ({ n, reset_us }) => data.framesPerSecond(n!, reset_us!)
const white: Ours = ({ ma }) => led.whiteMa(ma!)
const amps: Ours = (i) => led.ledAmps(i.n ?? i.fans! * i.per!, i.ma!)
const fits: Ours = (i) => led.ledsThatFit(i.limit_a!, i.ma!)
const mohm: Ours = ({ n }) => copper.ohmsPerMetre(n!) * 1000
const low: Ours = ({ nom, tol }) => rails.band(nom!, tol!)[0]
const gaugeOf = (mohmPerMetre: number): number =>
  [18, 20, 22, 24, 26, 28].find((n) => Math.abs(copper.ohmsPerMetre(n) * 1000 - mohmPerMetre) < 0.5)!
const lost: Ours = (i) => drop.leadDrop(i.a!, i.m! * 1000, gaugeOf(i.mohm_m!))

const ours: Readonly<Record<string, Ours>> = {
  'tach-rpm-40hz': rpmFromHz,
  'tach-rpm-50hz': rpmFromHz,
  'tach-rpm-25hz': rpmFromHz,
  'tach-rpm-90hz': rpmFromHz,
  'tach-hz-from-rpm': ({ rpm, pulses }) => tach.hzFromRpm(rpm!, pulses!),
  'tach-period-1200': ({ rpm, pulses }) => tach.pulsePeriodMs(rpm!, pulses!),
  'tach-misset-pulses-1': misset,
  'tach-misset-pulses-4': misset,
  'tach-four-pulse-fan': misset,
  'tach-joined-upper-bound': (i) => tach.joinedRpmAtMost([i.rpm_a!, i.rpm_b!]),
  'tach-default-pulses': () => tach.USUAL_PULSES,
  'fandiv-min-1': slowest,
  'fandiv-min-2': slowest,
  'fandiv-min-8': slowest,
  'fandiv-count-1350': ({ count, div }) => tach.rpmFromCount(count!, div!),
  'pwm-freq-nominal': () => control.CONTROL_HZ.target,
  'pwm-freq-min': () => control.CONTROL_HZ.least,
  'pwm-freq-max': () => control.CONTROL_HZ.most,
  'pwm-period-nominal': ({ hz }) => control.periodUs(hz!),
  'pwm-period-at-21k': ({ hz }) => control.periodUs(hz!),
  'pwm-period-at-28k': ({ hz }) => control.periodUs(hz!),
  'pwm-high-time-30pct': (i) => control.highUs(i.duty_pct!, i.hz!),
  'pwm-vil-max': () => control.CONTROL_LOW_VOLTS,
  'pwm-open-circuit-max': () => control.CONTROL_OPEN_VOLTS,
  'pwm-source-current-max': () => control.CONTROL_SOURCE_MA,
  'pwm-fans-per-sink-5ma': (i) => control.fansPerSink(i.sink_ma!),
  'pwm-open-duty': () => control.OPEN_CONTROL_DUTY,
  'pwm-open-not-connected-rpm': (i) =>
    speed.rpmAtDuty({ ...fan('keeps', 30), rpm: [450, i.max_rpm!] }, control.OPEN_CONTROL_DUTY),
  'curve-50pct': (i) => speed.rpmAtDuty({ ...fan('keeps', 30), rpm: [450, i.max_rpm!] }, i.duty_pct!),
  'curve-band-low': (i) => speed.speedBand(i.max_rpm!, i.duty_pct!)[0],
  'curve-band-high': (i) => speed.speedBand(i.max_rpm!, i.duty_pct!)[1],
  'curve-min-rpm-limit': (i) => speed.lowestRpmAtMost(i.max_rpm!),
  'curve-start-pulse-max-s': () => speed.START_PULSE_SECONDS,
  'curve-type-a-at-0': (i) => speed.rpmAtDuty(fan('keeps', i.min_pct!), 0),
  'curve-type-a-at-10': (i) => speed.rpmAtDuty(fan('keeps', i.min_pct!), i.duty_pct!),
  'curve-type-b-at-10': (i) => speed.rpmAtDuty(fan('stops-at-zero', i.min_pct!), i.duty_pct!),
  'curve-type-b-at-0': () => speed.rpmAtDuty(fan('stops-at-zero', 20), 0),
  'curve-type-c-at-0': () => speed.rpmAtDuty(fan('stops', 20), 0),
  'fan-v-min': () => current.FAN_VOLTS_RANGE[0],
  'fan-v-max': () => current.FAN_VOLTS_RANGE[1],
  'fan-steady-max': () => current.FAN_STEADY_AMPS,
  'fan-start-max': () => current.FAN_START_AMPS,
  'fan-start-duration': () => current.FAN_START_SECONDS,
  'fan-power-150ma': watts,
  'header-power-1a': watts,
  'header-power-2a': watts,
  'splitter-3x-0p3-ok': left,
  'splitter-4x-0p3-over': left,
  'splitter-max-fans': ({ limit, each }) => current.loadsThatFit(limit!, each!),
  'splitter-derated-80': ({ limit, each }) => current.loadsThatFit(limit!, each!, current.PLANNED_SHARE),
  'dc-volts-128': dcVolts,
  'dc-volts-64': dcVolts,
  'dc-pct-7v': ({ v }) => speed.dcDuty(v!),
  'dc-pct-5v': ({ v }) => speed.dcDuty(v!),
  'hwmon-pwm-255': duty,
  'hwmon-pwm-128': duty,
  'hwmon-pwm-77': duty,
  'hwmon-pwm-from-40pct': raw,
  'hwmon-pwm-from-60pct': raw,
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
  'led-data-rate': (i) => data.kilobitsPerSecond(i.bit_us!),
  'led-time-per-led': ({ bits }) => data.ledUs(bits!),
  'led-frame-16': (i) => frameMs(i) * 1000,
  'led-frame-100': frameMs,
  'led-rate-100': frames,
  'led-frame-100-280': frameMs,
  'led-rate-256-280': frames,
  'led-rate-1024': frames,
  'led-vih-5v': ({ vdd }) => data.highAtLeast(vdd!),
  'led-vil-5v': ({ vdd }) => data.lowAtMost(vdd!),
  'led-3v3-margin-5v': ({ vdata, vdd }) => data.dataMargin(vdata!, vdd!),
  'led-3v3-max-vdd': ({ vdata }) => data.highestSupplyFor(vdata!),
  'led-current-white-20': white,
  'led-current-white-12': white,
  'led-current-white-16': white,
  'led-current-8': amps,
  'led-current-48': amps,
  'led-current-144': amps,
  'led-typical-third': ({ n }) => led.ledAmps(n!, led.MIXED_MA),
  'led-max-on-3a-60': fits,
  'led-max-on-3a-36': fits,
  'led-max-on-5a-60': fits,
  'led-header-power': watts,
  'led-first-dark-index': (i) => data.ledsReached(i.n!, i.last_good!),
  'led-short-count': ({ fitted, configured }) => data.ledsNotTold(fitted!, configured!),
  'led-long-count': ({ fitted, configured }) => data.framesToNobody(fitted!, configured!),
  'sata-rail-a': () => plugs.SATA_RAIL_AMPS,
  'sata-5v-w': ({ v }) => current.watts(v!, plugs.SATA_RAIL_AMPS),
  'sata-12v-w': ({ v }) => current.watts(v!, plugs.SATA_RAIL_AMPS),
  'sata-3v3-w': ({ v }) => current.watts(v!, plugs.SATA_RAIL_AMPS),
  'sata-pins': () => plugs.SATA_PINS,
  'sata-led-limit': ({ ma }) => led.ledsThatFit(plugs.SATA_RAIL_AMPS, ma!),
  'sata-fan-limit': ({ each }) => current.loadsThatFit(plugs.SATA_RAIL_AMPS, each!),
  'peripheral-pin-a': () => plugs.PERIPHERAL_PIN_AMPS,
  'peripheral-total-w': ({ a }) => plugs.peripheralWatts(a!),
  'atx-12v-min': () => rails.railBand('12V')[0],
  'atx-12v-max': () => rails.railBand('12V')[1],
  'atx-5v-min': () => rails.railBand('5V')[0],
  'atx-5v-max': () => rails.railBand('5V')[1],
  'atx-3v3-min': () => rails.railBand('3V3')[0],
  'atx-3v3-max': () => rails.railBand('3V3')[1],
  'atx-5vsb-min': () => rails.railBand('5VSB')[0],
  'atx-12v-peak-min': ({ nom }) => rails.band(nom!, rails.PEAK_TOLERANCE)[0],
  'atx3-12v-min': low,
  'awg-18-mohm-m': mohm,
  'awg-20-mohm-m': mohm,
  'awg-22-mohm-m': mohm,
  'awg-24-mohm-m': mohm,
  'awg-26-mohm-m': mohm,
  'awg-28-mohm-m': mohm,
  'awg-24-from-table': (i) => copper.perMetreFromPer1000Feet(i.ohm_kft!) * 1000,
  'awg-diameter-24': ({ n }) => copper.diameterMm(n!),
  'awg-step-6': ({ steps }) => copper.diameterRatio(steps!),
  'awg-step-3-r': ({ steps }) => copper.resistanceRatio(steps!),
  'drop-26awg-3a': lost,
  'drop-26awg-3a-load': ({ v }) => v! - drop.leadDrop(3, 500, 26),
  'drop-22awg-3a': lost,
  'drop-24awg-1a-12v': lost,
  'drop-contact-30m': ({ a, mohm: m }) => drop.contactDrop(a!, m! / 1000),
  'drop-contact-heat': ({ a, mohm: m }) => drop.contactHeat(a!, m! / 1000),
  'wire-temp-60c': ({ t }) => copper.warmRatio(t!),
  'usb2-unit-load': () => usb.UNIT_LOAD_MA.usb2,
  'usb2-high-power': () => usb.portMa('usb2'),
  'usb2-hub-ports': ({ total, hub }) => usb.busHubPorts(total!, hub!),
  'usb2-hub-budget-ok': ({ total, hub, n, each }) =>
    usb.hubMaLeft(
      total!,
      hub!,
      Array.from({ length: n! }, () => each!),
    ),
  'usb2-hub-budget-500': ({ want, port }) => usb.portMaOver(want!, port!),
  'usb2-self-powered-port': () => usb.portMa('usb2'),
  'usb3-unit-load': () => usb.UNIT_LOAD_MA.usb3,
  'usb3-high-power': () => usb.portMa('usb3'),
  'usb-tiers': ({ hubs }) => usb.tierOf(hubs!),
  'usb-max-external-hubs': ({ tiers }) => usb.hubsBetweenAtMost(tiers!),
  'usb-addresses': ({ bits }) => usb.mostDevices(bits!),
  'usb-header-ports': () => usb.headerPorts(),
  'usb-header-key': () => usb.HEADER_9_PIN.keyPin,
  'usb-header-nc': () => usb.HEADER_9_PIN.unconnectedPin,
  'usb-header-current': ({ ports }) => usb.headerAmps(ports!),
  'usb-depth-sample': ({ hubs }) => usb.tierOf(hubs!),
  'fanlaw-flow-half': ({ ratio }) => air.atSpeed(ratio!).flow,
  'fanlaw-pressure-half': ({ ratio }) => air.atSpeed(ratio!).pressure,
  'fanlaw-power-half': ({ ratio }) => air.atSpeed(ratio!).power,
  'air-balance': (i) =>
    air.balance(
      Array.from({ length: i.n_in! }, () => i.cfm!),
      Array.from({ length: i.n_out! }, () => i.cfm!),
    ),
  'air-parallel-two': ({ cfm, n }) => air.sideBySide(Array.from({ length: n! }, () => cfm!)),
  'air-cfm-to-m3h': ({ cfm }) => air.cubicMetresPerHour(cfm!),
  'air-dt-300w': ({ w, cfm }) => air.warming(w!, cfm!),
  'noise-two-equal': ({ n }) => air.louderBy(n!),
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
