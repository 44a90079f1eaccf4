/**
 * Lines of the kernel's log on USB ports: what came, what went, what pulled its line up and never answered. A port
 * that is not in the log at all says nothing: its 5 V or its data line may never have arrived.
 */
import { NOTHING, type ReadText, type UsbPort } from './reading.ts'

const ABOUT = /\busb (\d+-\d+(?:\.\d+)*): (.+)$/
const HUB_PORT = /\busb usb(\d+)-port(\d+): (.+)$/
/** `hub 1-9:1.0` names ports below a hub: `1-9-port4`. */
const LOWER_PORT = /\busb (\d+-\d+(?:\.\d+)*)-port(\d+): (.+)$/

export const looksLikeKernelLog = (text: string): boolean =>
  text.split('\n').some((l) => ABOUT.test(l) || HUB_PORT.test(l) || LOWER_PORT.test(l))

type Event = 'new' | 'found' | 'error' | 'given-up' | 'gone' | 'other'

function eventIn(text: string): Event {
  if (/^new .*USB device number/.test(text)) return 'new'
  if (/^New USB device found/.test(text)) return 'found'
  if (/^USB disconnect/.test(text)) return 'gone'
  if (/unable to enumerate/.test(text)) return 'given-up'
  if (/error -\d+|not accepting address|not responding/i.test(text)) return 'error'
  return 'other'
}

/** How many times a device must have left for the port to be called unsteady. */
const TIMES = 2

function stateOf(events: readonly Event[]): UsbPort['state'] | undefined {
  const left = events.filter((e) => e === 'gone').length
  const last = events.findLast((e) => e !== 'other')
  if (last === undefined) return undefined
  const came = events.filter((e) => e === 'new').length
  const failed = events.findLastIndex((e) => e === 'error' || e === 'given-up')
  const works = events.lastIndexOf('found')
  if (left >= TIMES && came >= TIMES) return 'comes-and-goes'
  if (last === 'gone') return 'gone'
  if (failed >= 0 && failed > works) return 'never-answered'
  return 'there'
}

/** Ports by what became of them in the end; lines on anything else are passed over. */
export function readKernelLog(text: string): ReadText {
  const ports = new Map<string, Event[]>()
  const add = (path: string, said: string): void =>
    void ports.set(path, [...(ports.get(path) ?? []), eventIn(said)])
  for (const raw of text.split('\n')) {
    const line = raw.replace(/\r$/, '')
    const lower = LOWER_PORT.exec(line)
    const hub = HUB_PORT.exec(line)
    const about = ABOUT.exec(line)
    if (lower) add(`${lower[1]}.${Number(lower[2])}`, lower[3] ?? '')
    else if (hub) add(`${hub[1]}-${Number(hub[2])}`, hub[3] ?? '')
    else if (about) add(about[1] ?? '', about[2] ?? '')
  }
  return {
    ok: true,
    reading: {
      ...NOTHING,
      source: 'kernel-log',
      ports: [...ports].flatMap(([path, events]) => {
        const state = stateOf(events)
        return state === undefined ? [] : [{ path, state }]
      }),
    },
  }
}
