/** The examples are sound builds: run without a fault, everything in them does what it should, and no limit is broken. */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { compile } from '../../../src/core/bench/build.ts'
import { run } from '../../../src/core/bench/run.ts'
import { planOf } from '../../support/build.ts'

const folder = new URL('../../../docs/examples/', import.meta.url)
const names = readdirSync(folder).filter((name) => name.endsWith('.build.yaml'))

describe.each(names)('%s', (name) => {
  const plan = planOf(readFileSync(new URL(name, folder), 'utf8'))
  const sight = run(compile(plan), { plants: [], edits: [] })

  test('every fan spins as its setting asks, and every light is lit and shows what the program sets', () => {
    for (const part of plan.parts) {
      if ('motor' in part && part.motor)
        expect(sight.see({ what: 'spins', at: part.id }), part.id).toBe('normal')
      if (!('lights' in part) || part.lights.length === 0) continue
      expect(sight.see({ what: 'lit', at: part.id }), part.id).toBe('whole')
      expect(sight.see({ what: 'shows', at: part.id }), part.id).toBe('set')
    }
  })

  test('every header with a fan on it reads a speed that can be right, and none raises an alarm', () => {
    const sockets = new Set(plan.leads.map((lead) => lead.socket))
    for (const { id } of plan.board.fanHeaders) {
      if (!sockets.has(`board.${id}`)) continue
      expect(sight.see({ what: 'rpm', at: `board.${id}` }), id).toBe('plausible')
      expect(sight.see({ what: 'alarm', at: `board.${id}` }), id).toBe('no')
    }
  })

  test('all that hangs on USB is listed', () => {
    for (const lead of plan.leads)
      if (lead.plug.endsWith('.usb'))
        expect(sight.see({ what: 'listed', at: lead.plug.replace('.usb', '') }), lead.plug).toBe('yes')
  })

  test('nothing in it will damage, will not work or may not work', () => {
    const bad = audit(plan).filter((finding) => !['untidy', 'unknown'].includes(finding.severity))
    expect(bad).toEqual([])
  })
})
