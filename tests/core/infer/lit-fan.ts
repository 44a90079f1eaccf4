/** One lit fan on a hub: a small build, its suspects by name, and a job that stands wherever a test wants it. */
import { compile } from '../../../src/core/bench/build.ts'
import type { Alive } from '../../../src/core/infer/alive.ts'
import { knowledgeOf } from '../../../src/core/infer/assess.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import { hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { build } from '../../support/build.ts'

export const machine = compile(
  build()
    .supply('SA')
    .header('SYS1')
    .header('SYS2')
    .usbHeader('U1')
    .fan('F1')
    .lightHub('H1', ['F1'])
    .lead('F1.motor', 'board.SYS1')
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .channel('H1', { profile: [8], colours: 'GRB' })
    .plan(),
)
export const known = knowledgeOf(machine, [])
const all = hypotheses(machine, () => true, [])
export const named = (id: string) => {
  const found = all.find((h) => h.id === id)
  if (!found) throw new Error(`no suspect ${id}`)
  return found
}
/** Suspects in question, the likeliest first, with shares that sum to 1. */
export const alive = (...ids: string[]): Alive[] =>
  ids.map((id, i) => ({ h: named(id), p: (ids.length - i) / ((ids.length * (ids.length + 1)) / 2) }))
export const dossier = (change: Partial<Dossier> = {}): Dossier => ({
  evidence: [],
  history: [],
  inForce: [],
  power: 'on',
  scope: [{ what: 'spins', at: 'F1' }],
  closed: new Set(),
  toolsMissing: new Set(),
  ...change,
})
