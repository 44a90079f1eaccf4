import { describe, expect, it } from 'vitest'
import { compile } from '../../src/core/bench/build.ts'
import { catalogue, faultsOf } from '../../src/core/faults/catalogue.ts'
import { parseFault } from '../../src/core/faults/fault.ts'
import { faultWords, knownFault } from '../../src/wording/en/faults.ts'
import { archivePlan } from '../support/archive-plan.ts'

const scene = { plan: archivePlan }

/** One of every mode that a part, port, lead, joint or setting can have. */
const everyMode = [
  ...['unplugged', 'loose', 'offset', 'reversed'].map((m) => `F1.motor:${m}`),
  'H1.usb:out-at-part',
  ...['12V', 'GND', 'TACH', 'CONTROL'].map((c) => `F1.motor:open-${c}`),
  ...['5V', 'GND', 'DATA', 'DATA_BACK', 'R', 'G', 'B'].map((c) => `F1.light:open-${c}`),
  'H1.usb:open-USB',
  ...['12V', 'TACH', 'CONTROL'].map((c) => `F1.motor:frayed-${c}`),
  'F1.light:frayed-DATA',
  'H1.usb:frayed-USB',
  'board.SYS1:trips-again',
  'F2:sticking',
  'headers/SYS1/curve:steps-at-start',
  'headers/SYS1/delay:follows-at-once',
  'F1.motor:swapped-with-F2.motor',
  'F1.light:in-board.L1',
  ...['dead', 'tripped', 'overloaded', 'control-dead', 'tach-dead'].map((m) => `board.SYS1:${m}`),
  ...['worn-contact', 'alarm-stored', 'counts-coarsely', 'nothing-reports'].map((m) => `board.SYS1:${m}`),
  'board.L1:data-weak',
  'H1.2:gap',
  'F2:not-controlled',
  'board.U1.a:over-budget',
  'H1.3:data-dead',
  ...[
    'motor-dead',
    'seized',
    'blocked',
    'tach-dead',
    'tach-level',
    'lights-dead',
    'led-dead-3',
    'led-dark-3',
    'worn',
  ].map((m) => `F2:${m}`),
  ...['dead', 'not-answering', 'usb-stuck', 'hung'].map((m) => `H1:${m}`),
  'Y1:way-missing',
  'Y1:tach-from-2',
  'Y1:tach-joined',
  'headers/SYS1/drive:wrong-mode',
  ...['rests-at-zero', 'under-start', 'flat-out'].map((m) => `headers/SYS1/curve:${m}`),
  'headers/SYS1/pulses:wrong',
  'headers/SYS1/alarm_below:too-high',
  ...['count-low', 'count-high', 'entry-missing', 'wrong-order'].map((m) => `channels/H1/profile:${m}`),
  'channels/H1/colours:wrong',
  'host/program:not-running',
  'host/global_effect:left-on',
  'ports/board.U1.a/enabled:off',
  'supply.SA:unplugged',
  'supply.SA:loose',
  'build:nothing-wrong',
  'build:none-of-these',
]

const fault = (text: string) => {
  const read = parseFault(text)
  if (!read) throw new Error(text)
  return read
}

const build = compile(archivePlan)
const listed = faultsOf(build).map((known) => known.fault)

describe('faults in words', () => {
  it('every fault that the catalogue has for a build has a sentence of its own, and no two the same', () => {
    expect(listed.length).toBeGreaterThan(100)
    for (const f of listed) expect(knownFault(f, scene), `${f.at}:${f.mode}`).toBeDefined()
    expect(new Set(listed.map((f) => faultWords(f, scene).is)).size).toBe(listed.length)
  })

  it('every mode of the catalogue has a sentence, whether or not this build can have it', () => {
    const said = new Set(everyMode.map((text) => fault(text).mode))
    for (const { mode } of catalogue)
      expect(
        [...said].some((m) => (mode.endsWith('-') ? m.startsWith(mode) : m === mode)),
        mode,
      ).toBe(true)
  })

  it.each(everyMode)('%s has a name and a sentence of its own', (mode) => {
    const said = knownFault(fault(mode), scene)
    expect(said).toBeDefined()
    expect(said?.is).toMatch(/^\S.*[.]$/u)
    expect(said?.name).not.toMatch(/[.]$|undefined/u)
  })

  it('no two modes at one place read the same', () => {
    const said = everyMode.map((m) => faultWords(fault(m), scene))
    expect(new Set(said.map((s) => s.is)).size).toBe(everyMode.length)
    expect(new Set(said.map((s) => s.name)).size).toBe(everyMode.length)
  })

  it('names the part and its place', () => {
    expect(faultWords(fault('F2.light:unplugged'), scene).is).toBe(
      'The light plug of fan F2 (front-top) is not plugged in.',
    )
    expect(faultWords(fault('H1.usb:out-at-part'), scene).name).toBe(
      'the USB lead of light hub H1 (behind the board tray) not plugged in at H1',
    )
    expect(faultWords(fault('supply.SA:loose'), scene).is).toContain(
      'Supply lead SA is not home at the supply',
    )
    expect(faultWords(fault('headers/SYS1/drive:wrong-mode'), scene).is).toContain(
      'header SYS1 on the board'.replace('h', 'H'),
    )
  })

  it('tells exchanged plugs of the same kind together, others one by one', () => {
    expect(faultWords(fault('F1.motor:swapped-with-F2.motor'), scene).is).toBe(
      'The motor plugs of fans F1 (front-bottom) and F2 (front-top) are exchanged: each sits in the socket of the other.',
    )
    expect(faultWords(fault('F1.motor:swapped-with-Y1.in'), scene).name).toBe(
      'the motor plug of fan F1 (front-bottom) and the input plug of fan splitter Y1 exchanged',
    )
  })

  it('says a mode that it does not know by its own words', () => {
    expect(faultWords({ at: 'F2.motor', mode: 'chewed-by-mice' }, scene).is).toBe(
      'The motor plug of fan F2 (front-top) has this fault: chewed by mice.',
    )
  })
})
