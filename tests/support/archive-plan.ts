/**
 * A small build as the plan reader would hand it on: four lit fans, a splitter, a light hub in series, a pump cooler.
 * For tests of what stands further out than the reader.
 */
import type { Fan, Light, Motor } from '../../src/core/plan/part.ts'
import type { Plan } from '../../src/core/plan/plan.ts'

export const motor: Motor = {
  feed: 'lead',
  pins: 4,
  amps: 0.25,
  startAmps: 0.5,
  rpm: [450, 1500],
  startVolts: 5,
  startDuty: 20,
  belowMin: 'keeps',
  pulses: 2,
  tach: 'pulses',
  passesOn: false,
}

export const light: Light = {
  port: 'light',
  volts: 5,
  leds: 8,
  amps: 0.32,
  colours: 'GRB',
  returns: true,
  passesOn: false,
}

export const fan = (id: string, at: string): Fan => ({
  kind: 'fan',
  id,
  at,
  reach: 'open',
  motor,
  lights: [light],
  flow: 'in',
})

const place = { file: 'archive.build.yaml', line: 1, col: 1 }
const lead = (plug: string, socket: string) => ({ plug, socket, place })

const supplyLead = (id: string) => ({
  id,
  kind: 'sata' as const,
  plugs: 3,
  amps5: 4.5,
  amps12: 4.5,
  modular: true,
})

export const archivePlan: Plan = {
  build: 'Radio archive workstation',
  supply: { leads: [supplyLead('SA'), supplyLead('SB')] },
  board: {
    fanHeaders: [
      { id: 'CPU', role: 'cpu', pins: 4, amps: 1, drive: 'pwm', protected: true },
      { id: 'SYS1', role: 'fan', pins: 4, amps: 1, drive: 'auto', protected: true },
      { id: 'SYS2', role: 'fan', pins: 4, amps: 1, drive: 'auto', protected: true },
    ],
    lightHeaders: [
      { id: 'L1', volts: 5, amps: 3 },
      { id: 'L2', volts: 12, amps: 2 },
    ],
    usbHeaders: [{ id: 'U1', kind: 'usb2', ports: 2, milliamps: 500 }],
    beforeHost: 'stored-pattern',
  },
  parts: [
    fan('F1', 'front-bottom'),
    fan('F2', 'front-top'),
    fan('F3', 'top-rear'),
    fan('F4', 'rear'),
    { kind: 'fan-splitter', id: 'Y1', reach: 'open', ways: 3, tachFrom: 1, passesControl: true },
    {
      kind: 'light-hub',
      id: 'H1',
      at: 'behind the board tray',
      reach: 'behind-cover',
      ports: 6,
      volts: 5,
      chain: 'series',
      power: 'sata',
      host: 'usb',
      beforeHost: 'stored-pattern',
      amps: 4.5,
      portAmps: 1,
      usbMilliamps: 100,
    },
  ],
  leads: [
    lead('F1.motor', 'Y1.1'),
    lead('F2.motor', 'Y1.2'),
    lead('F3.motor', 'Y1.3'),
    lead('F4.motor', 'board.SYS2'),
    lead('Y1.in', 'board.SYS1'),
    lead('F1.light', 'H1.1'),
    lead('F2.light', 'H1.2'),
    lead('F3.light', 'H1.3'),
    lead('F4.light', 'H1.4'),
    lead('H1.power', 'supply.SA.1'),
    lead('H1.usb', 'board.U1.a'),
  ],
  settings: {
    headers: {
      SYS1: {
        drive: 'pwm',
        curve: [
          [30, 40],
          [70, 100],
        ],
      },
    },
    channels: { H1: { profile: [8, 8, 8, 8] } },
    host: { program: 'running', globalEffect: 'off' },
    ports: {},
    celsius: 35,
  },
  lightOrder: ['F1', 'F2', 'F3', 'F4'],
  readings: [],
  spares: [],
  places: new Map(),
  assumed: new Set(),
}
