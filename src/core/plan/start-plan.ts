/**
 * A first plan from a few answers: a commented text that reads without problems, wired as far as sockets reach.
 * What found no socket is left as a comment for the person to settle; what is not known is written as unknown.
 */
import { type StartAnswers, type StartAnswersGiven, startAnswers } from './start-questions.ts'
import { drafted, litIds, numbers, orUnknown } from './start-wiring.ts'

/** What the comments in the file say, in the language of whoever will go on with it. */
export interface StartRemarks {
  readonly top: readonly string[]
  readonly fans: string
  readonly unplaced: string
  readonly settings: string
}

/** Free text between quotes that every YAML reader understands. */
const quoted = (text: string): string => {
  const line = text
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]+/gu, ' ')
    .trim()
    .slice(0, 100)
  return JSON.stringify(line.replace(/[\ud800-\udfff]$/, '') || 'unnamed build')
}

function boardLines(so: StartAnswers): string[] {
  const amps = orUnknown(so.headerAmps, ' A')
  const volts = so.lights === '12 V' ? '12 V' : '5 V'
  const pump = so.pumpHeader === 'yes'
  const usb = so.usbHeaders > 0
  return [
    'board:',
    '  fan_headers:',
    `    CPU: { amps: ${amps}, drive: auto }`,
    ...numbers(so.fanHeaders).map((n) => `    SYS${n}: { amps: ${amps}, drive: auto }`),
    ...(pump ? ['  pump_headers:', '    PUMP: { amps: unknown, drive: auto }'] : []),
    ...(so.lightHeaders > 0 ? ['  light_headers:'] : []),
    ...numbers(so.lightHeaders).map((n) => `    L${n}: { volts: ${volts}, amps: unknown }`),
    ...(usb ? ['  usb_headers:'] : []),
    ...numbers(so.usbHeaders).map((n) => `    U${n}: { kind: usb2, ports: 2 }`),
  ]
}

const driveOf = (so: StartAnswers, place: string): string =>
  so.fanPins === '3' && place !== 'PUMP' ? 'dc' : 'pwm'

/**
 * The text of a plan for these answers.
 * @throws where an answer is outside what its question allows (a mistake of the asking program)
 */
export function startPlan(given: StartAnswersGiven, remarks: StartRemarks): string {
  const so = startAnswers.parse(given)
  const d = drafted(so)
  const supply = [
    'supply:',
    '  leads:',
    ...numbers(so.sataLeads).map((n) => `    S${n}: { kind: sata, plugs: 3 }`),
  ]
  const lit = litIds(d)
  const lines = [
    ...remarks.top.map((line) => `# ${line}`),
    `build: ${quoted(so.build)}`,
    '',
    ...(so.sataLeads > 0 ? [...supply, ''] : []),
    ...boardLines(so),
    '',
    'parts:',
    `  # ${remarks.fans}`,
    ...d.parts.map((line) => `  ${line}`),
    '',
    'leads:',
    ...d.leads.map((line) => `  - ${line}`),
    ...(d.unplaced.length > 0
      ? [`  # ${remarks.unplaced}`, ...d.unplaced.map((plug) => `  # - ${plug} ->`)]
      : []),
    '',
    `# ${remarks.settings}`,
    'settings:',
    ...(d.driven.length > 0 ? ['  headers:'] : []),
    ...d.driven.map((place) => `    ${place}: { drive: ${driveOf(so, place)} }`),
    ...(d.channels.length > 0 ? ['  channels:', ...d.channels.map((line) => `    ${line}`)] : []),
    '  host: { program: running, global_effect: off }',
    ...(lit.length > 0 ? ['', `light_order: [${lit.join(', ')}]`] : []),
  ]
  return `${lines.join('\n')}\n`
}
