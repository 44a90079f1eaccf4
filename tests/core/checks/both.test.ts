import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { editText } from '../../../src/core/bench/edit.ts'
import { run } from '../../../src/core/bench/run.ts'
import { bothRepairs } from '../../../src/core/checks/both.ts'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import type { RepairDef } from '../../../src/core/checks/step.ts'
import { faultByName } from '../../../src/core/faults/catalogue.ts'
import { parseFault } from '../../../src/core/faults/fault.ts'
import { build } from '../../support/build.ts'

const machine = compile(
  build()
    .header('SYS1')
    .header('SYS2')
    .fan('F1..F2')
    .lead('F1.motor', 'board.SYS1')
    .lead('F2.motor', 'board.SYS2')
    .plan(),
)
const faultOf = (text: string) => parseFault(text) ?? expect.fail(text)
const plantOf = (text: string) => faultByName(machine, faultOf(text))?.plant ?? expect.fail(text)
const first = (text: string): RepairDef => repairsFor(machine, faultOf(text))[0] ?? expect.fail(text)
const spinAfter = (faults: readonly string[], repair: RepairDef) => {
  const sight = run(machine, { plants: faults.map(plantOf), edits: repair.edits })
  return ['F1', 'F2'].map((at) => sight.see({ what: 'spins', at }))
}

describe('two repairs in one go', () => {
  test('do what is inside first and the settings after it, whichever was named first', () => {
    const faults = ['headers/SYS1/curve:rests-at-zero', 'F2.motor:unplugged']
    const [a, b] = [first(faults[0] ?? ''), first(faults[1] ?? '')]
    const repair = bothRepairs(machine, a, b)
    expect(repair.edits.map((e) => e.do)).toEqual(['reseat', 'set'])
    expect(repair).toMatchObject({ power: 'off', hands: 'in', minutes: a.minutes + b.minutes })
    expect(repair.id).toBe(bothRepairs(machine, b, a).id)
    expect(spinAfter(faults, repair)).toEqual(['normal', 'normal'])
  })

  test('put all plugs home where one of two that are exchanged is out besides', () => {
    const faults = ['F1.motor:swapped-with-F2.motor', 'F2.motor:unplugged']
    const repair = bothRepairs(machine, first(faults[0] ?? ''), first(faults[1] ?? ''))
    expect(repair.edits.map(editText)).toEqual([
      'unplug F1.motor',
      'unplug F2.motor',
      'plug F1.motor -> board.SYS1',
      'plug F2.motor -> board.SYS2',
    ])
    expect(spinAfter(faults, repair)).toEqual(['normal', 'normal'])
  })

  test('leave settings alone that both only set', () => {
    const faults = ['headers/SYS1/curve:rests-at-zero', 'headers/SYS2/curve:rests-at-zero']
    const repair = bothRepairs(machine, first(faults[0] ?? ''), first(faults[1] ?? ''))
    expect(repair).toMatchObject({ power: 'on', hands: 'out' })
    expect(repair.edits).toHaveLength(2)
  })
})
