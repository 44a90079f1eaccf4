/**
 * `lsusb` in its three forms: one line a device, the tree (old style and the one with padded numbers), and the
 * details. A list names all devices only if the root hubs are in it; a cut-off piece is no proof of absence.
 */
import { NOTHING, type ReadText, type Remark, type UsbDevice } from './reading.ts'

const FLAT = /^Bus (\d{3}) Device (\d{3}): ID ([0-9a-f]{4}:[0-9a-f]{4})/i
const ROOT = /^\/:\s+Bus (\d+)\.Port (\d+): Dev (\d+), Class=root_hub/
const CHILD =
  /^(\s*)\|__ Port (\d+): Dev (\d+), (?:If \d+, )?Class=(.*?), Driver=(.*?)(?:, ([\d.]+M)(?:\/x\d+)?)?\s*$/
const ID_LINE = /^\s*(?:\|\s*)?ID ([0-9a-f]{4}:[0-9a-f]{4})/i

const linesOf = (text: string): string[] => text.split('\n').map((l) => l.replace(/\r$/, ''))

export const looksLikeUsbList = (text: string): boolean => linesOf(text).some((l) => FLAT.test(l))
export const looksLikeUsbTree = (text: string): boolean => linesOf(text).some((l) => ROOT.test(l))

/** Root hubs have the ids that the kernel gives them. */
const isRootId = (id: string): boolean => id.toLowerCase().startsWith('1d6b:000')

/** The list with one line a device, or with the details under each. */
export function readUsbList(text: string): ReadText {
  const lines = linesOf(text)
  const devices: UsbDevice[] = []
  const remarks: { code: Remark; at: string }[] = []
  let details = false
  let claims = false
  let id = ''
  for (const line of lines) {
    const head = FLAT.exec(line)
    if (head) {
      id = (head[3] ?? '').toLowerCase()
      claims = false
      devices.push({ id, isRoot: isRootId(id) })
      continue
    }
    if (/^\s+bDeviceClass|^Device Descriptor:/.test(line)) details = true
    if (/^\s{4,}Self Powered\s*$/.test(line)) claims = true
    // The descriptor says what the maker wrote in, the status what is so.
    if (claims && /^\s*\(Bus Powered\)\s*$/.test(line)) {
      remarks.push({ code: 'hub-claims-self-powered', at: id })
      claims = false
    }
  }
  return {
    ok: true,
    reading: {
      ...NOTHING,
      source: details ? 'usb-details' : 'usb-list',
      usb: { complete: devices.some((d) => d.isRoot), devices },
      remarks,
    },
  }
}

/** The tree, each device with the ports on the way to it. */
export function readUsbTree(text: string): ReadText {
  const devices: (UsbDevice & { path: string; dev: string })[] = []
  const remarks: { code: Remark; at: string }[] = []
  let bus = 0
  let above: string[] = []
  let last: number | undefined
  for (const [i, line] of linesOf(text).entries()) {
    if (line.trim() === '') continue
    const root = ROOT.exec(line)
    if (root) {
      bus = Number(root[1])
      above = []
      last = undefined
      devices.push({ path: `${bus}-0`, dev: '1', isRoot: true })
      continue
    }
    const id = ID_LINE.exec(line)?.[1]?.toLowerCase()
    if (id !== undefined) {
      if (last !== undefined) devices[last] = { ...(devices[last] as (typeof devices)[number]), id }
      continue
    }
    // With -v twice the tree also has paths of devices.
    if (/^\s*\/sys\//.test(line) || /^\s*\/dev\//.test(line)) continue
    const child = CHILD.exec(line)
    if (!child) return { ok: false, why: 'broken', line: i + 1, found: line.trim().slice(0, 60) }
    const [, indent = '', port = '', dev = '', , driver = ''] = child
    // Four blanks a level, the first child standing at four.
    const level = Math.max(1, Math.round(indent.length / 4))
    above = [...above.slice(0, level - 1), String(Number(port))]
    const path = `${bus}-${above.join('.')}`
    const known = devices.findIndex((d) => d.path === path && d.dev === dev)
    if (known >= 0) {
      // One device fills a line for each of its interfaces.
      last = known
      continue
    }
    const driverless = driver === '' || driver === '[none]'
    if (driverless) remarks.push({ code: 'no-driver', at: path })
    last =
      devices.push({ path, dev, isRoot: false, ...(driverless ? { driverless: true as const } : {}) }) - 1
  }
  return {
    ok: true,
    reading: {
      ...NOTHING,
      source: 'usb-tree',
      usb: { complete: true, devices: devices.map(({ dev: _, ...device }) => device) },
      remarks,
    },
  }
}
