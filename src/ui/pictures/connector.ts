/**
 * The connector that the question or the step is about, drawn with its contacts; for a measurement with the places of both
 * probes as letters, so that it can be read without colour.
 */

import type { Connector } from '../../core/plan/part.ts'
import { allPorts, type Conductor, type Port } from '../../core/plan/ports.ts'
import type { View } from '../../job/view.ts'
import type { PictureKind } from '../../wording/screen.ts'
import { type Line, line, lineWidth, span } from '../text/line.ts'
import { width } from '../text/width.ts'
import { type Model, marksOf, sayLines } from '../views/model.ts'
import { CONTACTS, type Contact, rightVolts } from './contacts.ts'

interface Target {
  readonly port: Port
  readonly kind: PictureKind
  /** The conductor to measure; undefined where nothing is measured. */
  readonly pin?: Conductor
}

const DRAWN: Readonly<Partial<Record<Connector, PictureKind>>> = {
  fan3: 'fan3',
  fan4: 'fan4',
  light5: 'light5',
  light12: 'light12',
  sata: 'sata',
  peripheral: 'peripheral',
  usb2: 'usb2',
  'usb2-pair': 'usb2',
  usb3: 'usb3',
}

/** References that a prompt is about, the measured one first. */
function refsOf({ prompt }: View): string[] {
  if (prompt === null) return []
  if (prompt.show === 'do')
    return prompt.edits.flatMap((e) =>
      e.do === 'plug'
        ? [e.socket]
        : e.do === 'unplug' || e.do === 'reseat'
          ? [e.plug]
          : e.do === 'swap'
            ? [e.a]
            : [],
    )
  if (prompt.many || 'about' in prompt) return []
  const volts = prompt.observe.filter((o) => o.what === 'volts')
  const plugs = prompt.observe.filter((o) => o.what === 'seated' || o.what === 'goes')
  return [...volts, ...plugs].map((o) => o.at)
}

function targetOf(view: View): Target | undefined {
  const [ref] = refsOf(view)
  if (ref === undefined) return undefined
  const slash = ref.indexOf('/')
  const at = slash < 0 ? ref : ref.slice(0, slash)
  const port = allPorts(view.plan).find((p) => p.ref === at)
  const kind = port && DRAWN[port.connector]
  if (!port || !kind) return undefined
  return { port, kind, ...(slash < 0 ? {} : { pin: ref.slice(slash + 1) as Conductor }) }
}

/** Whether the prompt is about a connector that can be drawn. */
export const hasPicture = (model: Model): boolean => targetOf(model.view) !== undefined

/** Rows in which the contact may be probed: of a USB header only the row of the port in question. */
function rowsInQuestion({ port, kind }: Target): readonly number[] {
  if (kind !== 'usb2' && kind !== 'usb3') return [0]
  if (/\.a$/.test(port.ref)) return [0]
  return /\.b$/.test(port.ref) ? [1] : [0, 1]
}

/** `R`, `B`, `x`, or a plain contact. The first contact that fits gets the probe; one is enough. */
function lettersOf(target: Target): string[][] {
  const rows = rowsInQuestion(target)
  const contacts = CONTACTS[target.kind]
  const first = (carries: Conductor): Contact | undefined =>
    rows.flatMap((r) => contacts[r] ?? []).find((c) => c.carries === carries)
  const red = target.pin === undefined ? undefined : first(target.pin)
  const black = target.pin === undefined || target.pin === 'GND' ? undefined : first('GND')
  return contacts.map((row) =>
    row.map((c) => (c.carries === 'key' ? 'x' : c === red ? 'R' : c === black ? 'B' : 'o')),
  )
}

const centred = (text: string, columns: number): string => {
  const left = Math.max(0, Math.floor((columns - width(text)) / 2))
  return `${' '.repeat(left)}${text}`.padEnd(columns)
}

/** Words under the contacts; neighbours that carry the same share one. */
function wireRow(model: Model, contacts: readonly Contact[], cell: number): string {
  const { wire, unused } = model.words.picture
  const name = (c: Contact): string =>
    c.carries === 'key' ? '' : c.carries === 'unused' ? unused : wire[c.carries]
  let text = ''
  for (let i = 0; i < contacts.length; ) {
    const from = i
    const carries = contacts[i]?.carries
    while (contacts[i]?.carries === carries && i < contacts.length) i++
    // Two contacts of one kind on a wide drawing keep a word each; on the narrow one they share it.
    const shared = cell < 6
    const long = contacts[from] ? name(contacts[from]) : ''
    // Where the word has no room the code that is printed on boards has.
    const word = width(long) <= cell * (shared ? i - from : 1) ? long : String(carries)
    text += shared
      ? centred(word, cell * (i - from))
      : Array.from({ length: i - from }, () => centred(word, cell)).join('')
  }
  return text.trimEnd()
}

/** Contacts in their frame, with numbers and what they carry. */
function drawing(model: Model, target: Target, room: number): Line[] {
  const contacts = CONTACTS[target.kind]
  const longest = Math.max(...contacts.map((r) => r.length))
  const cell = longest > 6 ? 3 : Math.max(6, Math.min(7, Math.floor((room - 4) / longest)))
  const { box } = marksOf(model)
  const edge = (left: string, right: string): Line =>
    line(span(`  ${left}${box.h.repeat(cell * longest)}${right}`))
  const pins = (row: readonly Contact[]): Line =>
    line(span(`   ${row.map((c) => centred(String(c.pin), cell)).join('')}`.trimEnd(), 'dim'))
  const [above = [], below] = contacts
  const wires = (row: readonly Contact[]): Line => line(span(`   ${wireRow(model, row, cell)}`, 'dim'))
  // Two rows that carry the same share their words.
  const apart = below?.some((c, i) => c.carries === '5V' && above[i]?.carries !== '5V') === true
  return [
    ...(apart ? [wires(above)] : []),
    pins(above),
    edge(box.tl, box.tr),
    ...lettersOf(target).map((row) =>
      line(
        span(`  ${box.v}`),
        ...row.map((letter) =>
          span(centred(letter, cell), letter === 'R' || letter === 'B' ? 'strong' : 'plain'),
        ),
        span(box.v),
      ),
    ),
    edge(box.bl, box.br),
    ...(below ? [pins(below)] : []),
    wires(apart && below ? below : above),
  ]
}

/** What the letters mean and what the meter should show. */
function legend(model: Model, target: Target, columns: number): Line[] {
  const { picture } = model.words
  const used = new Set(lettersOf(target).flat())
  const key = used.has('x') ? [picture.key] : []
  if (target.pin === undefined) return key.flatMap((text) => sayLines(model, text, columns))
  const volts = rightVolts(target.pin)
  const words = [picture.red, used.has('B') ? picture.black : picture.blackElsewhere, ...key].join(', ')
  const figure = (v: number): string => model.language.labels.figure(v, 2)
  return [
    ...sayLines(model, words, columns, 'strong'),
    ...(volts
      ? sayLines(model, picture.volts(figure(volts.nominal), figure(volts.from), figure(volts.to)), columns)
      : []),
  ]
}

/** The drawing with all its words; nothing where the prompt is about no connector that can be drawn. */
export function connectorLines(model: Model, columns: number): Line[] {
  const target = targetOf(model.view)
  if (!target) return []
  const { picture } = model.words
  const head = picture.head[target.kind](model.language.ref(target.port.ref, model.view))
  return [
    ...sayLines(model, head, columns),
    ...drawing(model, target, columns),
    ...legend(model, target, columns),
    ...sayLines(model, picture.fits[target.kind], columns, 'dim'),
  ]
}

/**
 * For a measurement: the drawing to stand beside the answers, in at most `columns`; nothing where it is wider. Of its lines
 * the first `least` are the drawing, the rest words.
 */
export function probeLines(
  model: Model,
  columns: number,
): { readonly lines: Line[]; readonly least: number } {
  const none = { lines: [], least: 0 }
  const target = targetOf(model.view)
  if (target?.pin === undefined || columns < 20) return none
  const drawn = drawing(model, target, columns)
  const wide = Math.max(...drawn.map(lineWidth))
  if (wide > columns) return none
  const words = legend(model, target, Math.min(columns - 2, 44)).map((l) => line(span('  '), ...l))
  return { lines: [...drawn, ...words], least: drawn.length }
}
