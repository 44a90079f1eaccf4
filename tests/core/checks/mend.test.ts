/**
 * Every fault that shows can be mended at the bench, by the first repair offered where there is one that certainly
 * helps: the bench is run with fault and repair and everything looked at again.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { type Build, compile } from '../../../src/core/bench/build.ts'
import { everything } from '../../../src/core/bench/everything.ts'
import { run } from '../../../src/core/bench/run.ts'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import { otherSockets } from '../../../src/core/checks/repair.ts'
import type { RepairDef } from '../../../src/core/checks/step.ts'
import { faultByName, faultsOf, type KnownFault } from '../../../src/core/faults/catalogue.ts'
import { faultText, parseFault } from '../../../src/core/faults/fault.ts'
import { plannedTroubles, wanted } from '../../../src/core/infer/planned.ts'
import { build, planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, wiring } from '../../support/wired.ts'

/** What a person would call working: fans turn, lights are right, parts are listed. */
const WORKS: readonly string[] = ['spins', 'lit', 'shows', 'listed', 'effect']
/** And what a header shows, where nothing was moved to another one. */
const READS: readonly string[] = ['rpm', 'follows', 'alarm', 'setting']

function mends(build: Build, known: KnownFault, repair: RepairDef): boolean {
  const sight = run(build, { plants: [known.plant], edits: repair.edits })
  const moved = repair.edits.some((e) => e.do === 'plug')
  return everything(build)
    .filter((o) => WORKS.includes(o.what) || (!moved && READS.includes(o.what)))
    .every((o) => sight.see(o) === wanted(build, o))
}

const shows = (build: Build, known: KnownFault): boolean => {
  const sight = run(build, { plants: [known.plant], edits: [] })
  return everything(build).some(
    (o) => (WORKS.includes(o.what) || READS.includes(o.what)) && sight.see(o) !== wanted(build, o),
  )
}

/** Nothing at a bench mends a board's own header; a fan can only go to another one, where there is a free one. */
const boards = (known: KnownFault): boolean => known.fault.at.startsWith('board.')

const ofExample = (name: string): Build =>
  compile(planOf(readFileSync(`docs/examples/${name}.build.yaml`, 'utf8')))

describe('on the example builds', () => {
  it.each(['archive-ten-fans', 'plain-no-lights', 'small-three-fans'])(
    '%s: every fault that shows is mended by the first repair, but for ports, where moving is tried before changing the part',
    (name) => {
      const build = ofExample(name)
      const mended = faultsOf(build).filter((known) => !boards(known) && shows(build, known))
      expect(mended.length).toBeGreaterThan(50)
      for (const known of mended) {
        const helps = repairsFor(build, known.fault).map((repair) => mends(build, known, repair))
        const isPort = build.ports.some((p) => p.ref === known.fault.at && p.gender === 'socket')
        expect([isPort ? helps.some((h) => h) : helps[0], faultText(known.fault)]).toEqual([
          true,
          faultText(known.fault),
        ])
      }
    },
  )
})

describe('on any wired build', () => {
  it('a fault that shows is mended by one of its repairs', () => {
    fc.assert(
      fc.property(wiring, fc.nat(), (made, pick) => {
        const build = compile(buildOf(made).plan())
        fc.pre(plannedTroubles(build).length === 0)
        const faults = faultsOf(build)
        const known = faults[pick % Math.max(faults.length, 1)]
        if (!known || boards(known) || !shows(build, known)) return
        expect(
          repairsFor(build, known.fault).some((r) => mends(build, known, r)),
          faultText(known.fault),
        ).toBe(true)
      }),
      { numRuns: 30 },
    )
  })

  it('a repair has edits, takes minutes, and is done with hands in only with power off', () => {
    fc.assert(
      fc.property(wiring, fc.nat(), (made, pick) => {
        const build = compile(buildOf(made).plan())
        const faults = faultsOf(build)
        const known = faults[pick % Math.max(faults.length, 1)]
        if (!known) return
        for (const repair of repairsFor(build, known.fault)) {
          expect(repair.edits.length).toBeGreaterThan(0)
          expect(repair.minutes).toBeGreaterThan(0)
          expect(repair.hands === 'in' ? repair.power : 'off').toBe('off')
          const moves = repair.edits.some((e) =>
            ['plug', 'unplug', 'swap', 'reseat', 'substitute', 'free'].includes(e.do),
          )
          if (moves) expect(repair.hands).toBe('in')
        }
      }),
      { numRuns: 30 },
    )
  })
})

describe('repairs one by one', () => {
  const b = build()
    .supply('SA')
    .header('SYS1', { drive: 'auto' })
    .header('SYS2', { drive: 'auto' })
    .usbHeader('U1')
    .usbHeader('U2')
    .fan('F1', { motor: { pins: 3 } })
    .lead('F1.motor', 'board.SYS1')
    .lightHub('H1', ['F1'], { ports: 2, reach: 'behind-cover' })
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .part('front-panel', { kind: 'usb-device', ports: 2 })
    .lead('front-panel.usb', 'board.U2')
    .channel('H1', { profile: [8] })
  const made = compile(b.plan())
  const ids = (text: string): string[] => {
    const fault = parseFault(text)
    if (!fault || !faultByName(made, fault)) throw new Error(text)
    return repairsFor(made, fault).map((r) => r.id.replace(/^mend /, ''))
  }

  it('a tripped header, a hung hub, an old alarm and a part asleep get their power cut first', () => {
    for (const text of ['board.SYS1:tripped', 'H1:hung', 'H1:usb-stuck', 'board.SYS1:alarm-stored'])
      expect(ids(text)[0], text).toBe('power off, power on')
  })

  it('a blocked fan is freed before it is changed', () => {
    expect(ids('F1:blocked')).toEqual(['free F1', 'substitute F1'])
  })

  it("a lead that can be changed alone is, and a fan's own lead means another fan", () => {
    expect(ids('H1.usb:open-USB')).toEqual(['substitute H1.usb'])
    expect(ids('F1.motor:open-TACH')).toEqual(['substitute F1'])
  })

  it('a three-pin fan on a dead header goes to a free four-pin one', () => {
    expect(ids('board.SYS1:dead')).toContain('plug F1.motor -> board.SYS2')
  })

  it('no row under a plug over both rows is offered as free', () => {
    const usb = made.portAt.get('H1.usb') ?? -1
    expect(otherSockets(made, usb).map((s) => made.ports[s]?.ref)).toEqual(['board.U1.b'])
  })

  it('what is behind a cover takes twice the minutes', () => {
    const minutes = (text: string) => {
      const fault = parseFault(text)
      return fault ? repairsFor(made, fault)[0]?.minutes : undefined
    }
    expect(minutes('H1.usb:unplugged')).toBeCloseTo(2 * (minutes('F1.motor:unplugged') ?? 0))
  })
})
