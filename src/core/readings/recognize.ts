/**
 * Which tool a text comes from, told by its shape, and what it says. A text of no known shape is refused with a
 * reason; nothing is ever taken from a text that is only half understood.
 */
import { looksLikeHwmon, readHwmon } from './hwmon.ts'
import { type Json, readJson } from './json-text.ts'
import { looksLikeKernelLog, readKernelLog } from './kernel-log.ts'
import type { ReadText } from './reading.ts'
import { looksLikeRedfish, readRedfish } from './redfish.ts'
import { looksLikeSensors, readSensors } from './sensors.ts'
import { looksLikeUsbList, looksLikeUsbTree, readUsbList, readUsbTree } from './usb.ts'

/** Signs; far more than any of these tools prints on a desktop machine. */
const LONGEST_READING = 4_000_000

/** A JSON text may begin with lines of the error stream, but has a brace or bracket at the start of some line. */
const mayBeJson = (text: string): boolean => /^\s*[{[]/m.test(text) && !/^Bus \d{3} Device/m.test(text)

/** What a text says, by the first shape that fits; else why nothing is taken from it. */
export function readText(text: string): ReadText {
  if (text.trim() === '') return { ok: false, why: 'empty' }
  if (text.length > LONGEST_READING) return { ok: false, why: 'too-long' }
  if (looksLikeUsbTree(text)) return readUsbTree(text)
  if (looksLikeUsbList(text)) return readUsbList(text)
  if (looksLikeHwmon(text)) return readHwmon(text)
  if (looksLikeKernelLog(text)) return readKernelLog(text)
  if (!mayBeJson(text)) return { ok: false, why: 'not-known' }
  const json = readJson(text)
  if (!json.ok) return { ok: false, why: 'broken', line: json.line, found: json.found }
  const documents: readonly Json[] = json.documents
  if (looksLikeRedfish(documents)) return readRedfish(documents)
  if (looksLikeSensors(documents)) return readSensors(json)
  return { ok: false, why: 'not-known' }
}
