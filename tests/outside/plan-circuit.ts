/**
 * A plan file's supply wiring as a circuit for a general simulator, made from the file's own text and from nothing that the
 * program works out of it: a resistor for each wire of each lead, a current sink for each motor and light at full load,
 * and each part's sockets on the node that it is fed at. Resistances come from a printed table, not from our formula.
 */
import { parse } from 'yaml'

/** Ohms per 1000 ft of solid copper at 20 °C. @source wire gauge table of a university page */
const OHMS_PER_1000_FT: Readonly<Record<number, number>> = {
  18: 6.385,
  20: 10.15,
  22: 16.14,
  24: 25.67,
  26: 40.81,
  28: 64.9,
}

type Copper = { readonly mm?: number | undefined; readonly awg?: number }
type Lit = Copper & { readonly volts?: number; readonly amps: number }
interface Written {
  readonly supply: { readonly leads: Readonly<Record<string, Copper & { plugs: number }>> }
  readonly parts: Readonly<
    Record<
      string,
      {
        readonly kind: string
        readonly power?: string
        readonly motor?: { readonly amps: number; readonly feed?: string }
        readonly light?: Lit
      }
    >
  >
  readonly leads: readonly (string | (Copper & { readonly from: string; readonly to: string }))[]
}

export interface Load {
  readonly part: string
  /** Plain lights are those of 12 V, of which no rule tells the volts: they are the maker's. */
  readonly what: 'fan' | 'light' | 'plain light'
  /** The simulator's names of the nodes that it sits between. */
  readonly plus: string
  readonly ground: string
}

/**
 * @param five volts of the 5 V rail
 * @param spread plugs of a supply lead sit evenly along it, the last at its end; without, all sit at its end
 */
export function circuitOf(text: string, five: number, spread = false): { netlist: string; loads: Load[] } {
  const plan = parse(text) as Written
  const lines = [`V5 p5_source 0 DC ${five}`, 'V12 p12_source 0 DC 12']
  const loads: Load[] = []
  let wires = 0
  const wire = (from: string, to: string, { mm, awg }: Copper): void => {
    wires++
    // where a length is not known the wire loses nothing: so little that no figure shows it
    const ohms = mm === undefined || awg === undefined ? 1e-8 : (OHMS_PER_1000_FT[awg]! / 304.8) * (mm / 1000)
    lines.push(`R${wires} ${from} ${to} ${ohms}`)
  }
  const ground = (place: string): string => (place === 'source' ? '0' : `g_${place}`)
  const cable = (from: string, to: string, copper: Copper, grounds = 1): void => {
    wire(`p5_${from}`, `p5_${to}`, copper)
    wire(`p12_${from}`, `p12_${to}`, copper)
    for (let n = 0; n < grounds; n++) wire(ground(from), ground(to), copper)
  }

  /** Ports that are one piece of metal have one place. */
  const placeOf = (ref: string): string => {
    const [id = '', port = '', plug] = ref.split('.')
    if (id === 'board') return 'source'
    if (id === 'supply') return `${port}_${plug}`
    return plan.parts[id]?.motor || plan.parts[id]?.light ? `${id}_${port.replace('_out', '')}` : id
  }
  /** Leads that bring data, control or tach to what the supply feeds. */
  const bringsNoPower = (ref: string): boolean => {
    const [id = '', port = ''] = ref.split('.')
    const part = plan.parts[id]
    if (part?.motor?.feed) return port === 'motor'
    return ['fan-hub', 'light-hub', 'controller'].includes(part?.kind ?? '') && part?.power !== 'header'
      ? ['in', 'usb', 'light_in'].includes(port)
      : false
  }

  for (const [id, lead] of Object.entries(plan.supply.leads)) {
    const share = spread ? (lead.mm ?? 0) / lead.plugs : 0
    for (let n = 1; n <= lead.plugs; n++) {
      const before = n === 1 ? 'source' : `${id}_${n - 1}`
      const mm = spread ? share : n === 1 ? lead.mm : undefined
      // SATA and peripheral leads of a supply: one wire a rail, two ground wires
      cable(before, `${id}_${n}`, { ...lead, mm }, 2)
    }
  }
  for (const lead of plan.leads) {
    const [from = '', to = ''] = typeof lead === 'string' ? lead.split(' -> ') : [lead.from, lead.to]
    if (bringsNoPower(from)) continue
    const own = from.endsWith('.light') ? plan.parts[from.slice(0, -'.light'.length)]?.light : undefined
    cable(placeOf(from), placeOf(to), { ...own, ...(typeof lead === 'string' ? {} : lead) })
  }
  for (const [part, { motor, light }] of Object.entries(plan.parts)) {
    const draw = (port: string, rail: 5 | 12, amps: number): void => {
      const at = { plus: `p${rail}_${part}_${port}`, ground: ground(`${part}_${port}`) }
      lines.push(`I_${part}_${port} ${at.plus} ${at.ground} DC ${amps}`)
      loads.push({ part, what: port !== 'light' ? 'fan' : rail === 5 ? 'light' : 'plain light', ...at })
    }
    if (motor) draw(motor.feed ? 'power' : 'motor', 12, motor.amps)
    if (light) draw('light', light.volts === 12 ? 12 : 5, light.amps)
  }
  return { netlist: `plan\n${lines.join('\n')}\n.op\n.end\n`, loads }
}
