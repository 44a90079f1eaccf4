/** Readings of other tools that are kept for tests: their text, and what the parsers make of it. */
import { readFileSync } from 'node:fs'
import type { FanRecord, Reading } from '../../src/core/readings/reading.ts'
import { readText } from '../../src/core/readings/recognize.ts'

export const readingFile = (name: string): string =>
  readFileSync(new URL(`../fixtures/readings/${name}`, import.meta.url), 'utf8')

export function readingOf(text: string): Reading {
  const read = readText(text)
  if (!read.ok) throw new Error(`not read: ${read.why} ${read.found ?? ''}`)
  return read.reading
}

export const readingIn = (name: string): Reading => readingOf(readingFile(name))

export const fanIn = (reading: Reading, channel: string): FanRecord => {
  const fan = reading.fans.find((f) => f.channel === channel)
  if (!fan) throw new Error(`no ${channel}`)
  return fan
}
