/**
 * Whether parts are listed over USB, by the id or the place that a person named. Missing from a list is an answer only
 * where the list is whole.
 */
import { NOWHERE } from '../bench/build.ts'
import type { Value } from '../bench/observable.ts'
import type { Reading } from './reading.ts'
import { join, leave, type Situation, type Takes } from './takes.ts'

export function fromUsb(reading: Reading, { build, named }: Situation): Takes {
  const parts = named.flatMap(({ name, ref }) => {
    const index = build.partAt.get(ref)
    return index !== undefined && (build.parts[index]?.usbPlug ?? NOWHERE) >= 0 ? [{ name, ref }] : []
  })
  return join(
    parts.flatMap(({ name, ref }) => [...listedAs(reading, name, ref), ...portStates(reading, name, ref)]),
  )
}

const isPath = (name: string): boolean => /^\d+-\d/.test(name)

function listedAs({ usb }: Reading, name: string, at: string): Takes[] {
  if (usb === null) return []
  // Names of the other kind say nothing about this list.
  if (!usb.devices.some((d) => (isPath(name) ? d.path : d.id) !== undefined)) return []
  const take = (value: Value, figure: string): Takes[] => [
    { taken: [{ observe: { what: 'listed', at }, value, from: name, figure }], left: [] },
  ]
  if (usb.devices.some((d) => !d.isRoot && (d.path === name || d.id === name))) return take('yes', 'listed')
  return usb.complete ? take('no', 'not listed') : [leave(name, 'list-not-whole', '', at)]
}

const STATE = {
  there: 'yes',
  gone: 'no',
  'never-answered': 'no',
  'comes-and-goes': 'comes-and-goes',
} as const

const portStates = ({ ports }: Reading, name: string, at: string): Takes[] =>
  ports
    .filter((p) => p.path === name)
    .map((p) => ({
      taken: [{ observe: { what: 'listed', at }, value: STATE[p.state], from: name, figure: p.state }],
      left: [],
    }))
