/** Drawings and the wiring sheet in English. */
import type { DrawingWords } from '../drawing/text.ts'
import { PART_KIND } from './kinds.ts'

export const drawingWords: DrawingWords = {
  lines: { supply: 'supply', motor: 'motor', light: 'light', usb: 'USB' },
  kinds: PART_KIND,
  empty: 'empty',
  loose: 'not connected',
  under: (plug) => `its sockets stand under ${plug}`,
  findings: 'Findings',
  legend: 'Lines',
  sheet: {
    title: (build) => `Wiring sheet: ${build}`,
    about: [
      'Shut down, switch the supply off, pull the mains lead, wait, and touch bare metal before the first plug.',
      'Plug in this order. Stick the label on the lead before it goes in. The manuals of board and parts come first.',
    ],
    columns: { done: '', n: 'No.', from: 'From', to: 'To', mm: 'Length', label: 'Label' },
    steps: {
      motor: 'Motor leads, outermost first',
      light: 'Light leads, outermost first (5 V never on a 12 V header)',
      usb: 'USB leads (mind the missing pin)',
      supply: 'Supply plugs, last of all',
    },
    length: (mm) => `${mm} mm`,
  },
}
