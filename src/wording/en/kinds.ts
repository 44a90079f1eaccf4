/** What kinds of parts and headers are called; the check of a plan needs no more of the language to name things. */
import type { Part } from '../../core/plan/part.ts'

export const PART_KIND: Readonly<Record<Part['kind'], string>> = {
  fan: 'fan',
  pump: 'pump',
  strip: 'light strip',
  'fan-splitter': 'fan splitter',
  'fan-hub': 'fan hub',
  'light-hub': 'light hub',
  controller: 'controller',
  'light-splitter': 'light splitter',
  'usb-hub': 'USB hub',
  adapter: 'adapter',
  'usb-device': 'USB device',
}

export const HEADER_KIND = { fan: 'header', light: 'light header', usb: 'USB header' } as const

/** Nothing where the name says so itself. */
export const unlessNamed = (kind: string, id: string): string =>
  id.toLowerCase().includes(kind.split(' ').at(-1) ?? kind) ? '' : kind
