/** Listings of USB devices: forms as printed by usbutils (lsusb.c, lsusb-t.c) and by the kernel's log. */
import { describe, expect, test } from 'vitest'
import { readingFile, readingIn, readingOf } from '../../support/reading-file.ts'

const paths = (name: string) => readingIn(name).usb?.devices.map((d) => d.path)

describe('a list of USB devices', () => {
  test('of one line each gives the ids, devices without a name too', () => {
    const reading = readingIn('lsusb-01-public-flat.txt')
    expect(reading.source).toBe('usb-list')
    expect(reading.usb?.devices.map((d) => d.id)).toEqual([
      '1d6b:0002',
      '0e0f:0008',
      '0e0f:0002',
      '0e0f:0003',
      '1d6b:0001',
    ])
  })

  test('is whole when the root hubs are in it, and no proof of absence when they are not', () => {
    expect(readingIn('lsusb-03-controller-missing.txt').usb?.complete).toBe(true)
    const piece = readingFile('lsusb-03-controller-missing.txt').split('\n')[1] ?? ''
    expect(readingOf(piece).usb?.complete).toBe(false)
  })

  test('as a tree of the old style gives paths, one device for all its interfaces', () => {
    expect(paths('lsusb-t-01-public-tree.txt')).toEqual([
      '4-0',
      '3-0',
      '3-1',
      '3-1.2',
      '2-0',
      '2-1',
      '1-0',
      '1-1',
      '1-1.1',
      '1-1.2',
      '1-1.6',
      '1-1.6.1',
    ])
  })

  test('as a tree of the new style gives the same paths, numbers padded or not, lanes behind the speed or not', () => {
    expect(paths('lsusb-t-02-controller-behind-hub-new-format.txt')).toEqual([
      '1-0',
      '1-5',
      '1-9',
      '1-9.1',
      '2-0',
    ])
    expect(paths('lsusb-t-03-hub-up-controller-missing.txt')).toEqual(['1-0', '1-5', '1-9', '2-0'])
  })

  // USB 2.0, bus topology: seven tiers with the root hub, so five hubs in one path at most.
  test('follows a device behind five hubs, the deepest that may be', () => {
    expect(paths('lsusb-t-05-five-hubs-deep.txt')?.at(-1)).toBe('1-9.4.4.4.4.1')
  })

  test('tells a device that no driver took, in the words of new and of old versions', () => {
    expect(readingIn('lsusb-t-04-no-driver-bound.txt').remarks).toEqual([{ code: 'no-driver', at: '1-7' }])
    const old = readingFile('lsusb-t-04-no-driver-bound.txt').replace('Driver=[none]', 'Driver=')
    expect(readingOf(old).remarks).toEqual([{ code: 'no-driver', at: '1-7' }])
  })

  test('with ids under the lines of the tree gives both names of a device', () => {
    const text = [
      '/:  Bus 001.Port 001: Dev 001, Class=root_hub, Driver=xhci_hcd/12p, 480M',
      '    ID 1d6b:0002 Linux Foundation 2.0 root hub',
      '    |__ Port 009: Dev 003, If 0, Class=Hub, Driver=hub/4p, 480M',
      '        ID 1209:0002 Generic pid.codes Test PID',
    ].join('\n')
    expect(readingOf(text).usb?.devices.at(-1)).toMatchObject({ path: '1-9', id: '1209:0002' })
  })

  test('in full tells a hub that claims a supply of its own while its status says that it has none', () => {
    const reading = readingIn('lsusb-v-01-power-budget-trimmed.txt')
    expect(reading.source).toBe('usb-details')
    expect(reading.remarks).toEqual([{ code: 'hub-claims-self-powered', at: '1209:0002' }])
    expect(reading.usb?.devices.map((d) => d.id)).toEqual(['1209:0002', '1209:0001'])
    expect(reading.usb?.complete).toBe(false)
  })
})

describe('the log of the kernel', () => {
  test('shows a device that pulls its line up and never answers', () => {
    expect(readingIn('kernel-log-01-enumeration-fails.txt').ports).toEqual([
      { path: '1-9', state: 'never-answered' },
    ])
  })

  const line = (text: string) => `[    3.412117] ${text}`
  test('shows a device that was found, one that left, and one that comes and goes', () => {
    const text = [
      'usb 1-5: new full-speed USB device number 4 using xhci_hcd',
      'usb 1-5: New USB device found, idVendor=1209, idProduct=0003, bcdDevice= 1.00',
      'usb 1-6: new full-speed USB device number 5 using xhci_hcd',
      'usb 1-6: New USB device found, idVendor=1209, idProduct=0001, bcdDevice= 1.00',
      'usb 1-6: USB disconnect, device number 5',
      'usb 1-7.2: new full-speed USB device number 6 using xhci_hcd',
      'usb 1-7.2: USB disconnect, device number 6',
      'usb 1-7.2: new full-speed USB device number 7 using xhci_hcd',
      'usb 1-7.2: USB disconnect, device number 7',
    ]
    expect(readingOf(text.map(line).join('\n')).ports).toEqual([
      { path: '1-5', state: 'there' },
      { path: '1-6', state: 'gone' },
      { path: '1-7.2', state: 'comes-and-goes' },
    ])
  })
})
