/**
 * One pair of builds a rule: one that breaks it and a nearly equal one that does not. `bad` says which is wanted,
 * so the difference between the two is what the rule is about, and stands in one place.
 */
import { type Build, build, type Keys, planOf } from '../../support/build.ts'

export interface RuleCase {
  readonly rule: string
  /** What differs, in the trade's words. */
  readonly says: string
  readonly make: (bad: boolean) => Build
}

export const rule = (id: string, says: string, make: (bad: boolean) => Build): RuleCase => ({
  rule: id,
  says,
  make,
})
export const motor = (keys: Keys): Keys => ({ motor: keys })
export const ids = (n: number, prefix = 'F'): string[] =>
  Array.from({ length: n }, (_, i) => `${prefix}${i + 1}`)

/** So many fans without lights on one splitter on SYS1. */
export const onSplitter = (n: number, header: Keys, fan: Keys = {}, splitter: Keys = {}): Build => {
  const made = build().header('SYS1', header)
  for (const id of ids(n)) made.plainFan(id, fan)
  return made.splitter('Y1', ids(n), splitter).lead('Y1.in', 'board.SYS1')
}
export const onFanHub = (n: number, hub: Keys, fan: Keys = {}): Build => {
  const made = build().supply('SA').header('SYS1')
  for (const id of ids(n)) made.plainFan(id, fan)
  return made.fanHub('FH1', ids(n), hub).lead('FH1.power', 'supply.SA.1').lead('FH1.in', 'board.SYS1')
}
/** Lit fans, motors on a fat header through a splitter, lights on a USB hub in series. */
export const lit = (n: number, hub: Keys = {}, light: Keys = {}): Build => {
  const made = build().supply('SA').header('SYS1', { amps: 5 }).usbHeader('U1')
  for (const id of ids(n)) made.fan(id, { light })
  return made
    .splitter('Y1', ids(n))
    .lead('Y1.in', 'board.SYS1')
    .lightHub('H1', ids(n), hub)
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
}
export const strips = (n: number, light: Keys): Build => {
  const made = build()
  for (const id of ids(n, 'S')) made.part(id, { kind: 'strip', light })
  return made
}
export const onController = (n: number, controller: Keys, fan: Keys = {}): Build => {
  const made = build().supply('SA').usbHeader('U1')
  for (const id of ids(n)) made.fan(id, fan)
  return made
    .controller('C1', ids(n), controller)
    .lead('C1.power', 'supply.SA.1')
    .lead('C1.usb', 'board.U1.a')
}
export const oneFan = (header: Keys, fan: Keys = {}, id = 'SYS1'): Build =>
  build().header(id, header).plainFan('F1', fan).lead('F1.motor', `board.${id}`)

/** A fan hub that hangs on a peripheral lead through an adapter. */
export function adapterFed(adapter: Keys): Build {
  return build()
    .supply('PA', { kind: 'peripheral' })
    .header('SYS1')
    .plainFan('F1')
    .fanHub('FH1', ['F1'])
    .lead('FH1.in', 'board.SYS1')
    .part('A1', { kind: 'adapter', ...adapter })
    .lead('A1.in', 'supply.PA.1')
    .lead('FH1.power', 'A1.out')
}

export function withWatts(watts: number): Build {
  const made = build().supply('SA').header('SYS1')
  for (const id of ids(7)) made.plainFan(id, motor({ amps: 1, start_amps: 1 }))
  const whole = made
    .fanHub('FH1', ids(7), { amps: 9 })
    .lead('FH1.power', 'supply.SA.1')
    .lead('FH1.in', 'board.SYS1')
  const text = () => whole.text().replace('supply:\n', `supply:\n  watts: ${watts}\n`)
  return { ...whole, text, plan: () => planOf(text()) }
}
