/**
 * Whole jobs of the built program over the line protocol, with a planted fault and a driver written from the page on
 * the protocol. The driver asks nothing of the program but what the page promises.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import * as z from 'zod/mini'
import { toolLine } from '../../src/plain/protocol.ts'
import { type Driven, driveJob } from '../support/line-driver.ts'
import { ownFolder } from '../support/own-folder.ts'
import { envIn, PROGRAM, TEN } from '../support/program.ts'

let folder: string
beforeEach(() => {
  folder = ownFolder()
})

const drive = (symptom: string, ...faults: string[]): Promise<Driven> =>
  driveJob(PROGRAM, { plan: TEN, symptom, faults, log: join(folder, 'job.ndjson') }, envIn(folder))

/** Every fault that the last verdict, or the end, names first or cannot tell from the first. */
function named({ lines }: Driven): string[] {
  const last = lines.findLast(
    (l) => (l.type === 'verdict' || l.type === 'end') && (l.suspects?.length ?? 0) > 0,
  )
  const [first] = last?.suspects ?? []
  return [first?.faults ?? [], ...(first?.alike ?? []).map((a) => a.faults)].map((f) =>
    f.map(({ at, mode }) => `${at}:${mode}`).join(' + '),
  )
}

describe('a job over the line protocol', () => {
  it.each([
    ['lights-dark', 'F3.light:unplugged'],
    ['fan-still', 'F4.motor:unplugged'],
    ['zero-rpm', 'F7.motor:open-TACH'],
    ['lights-stuck', 'host/program:not-running'],
  ])('%s: finds %s and proves it fixed', async (symptom, fault) => {
    const driven = await drive(symptom, fault)
    expect(driven.stderr).toBe('')
    expect(driven.lines.filter((l) => l.type === 'problem')).toEqual([])
    expect(driven.unsafe).toEqual([])
    for (const line of driven.lines)
      z.strictObject(toolLine[line.type as keyof typeof toolLine].shape).parse(line)
    expect(driven.end?.outcome).toBe('fixed')
    expect(named(driven)).toContain(fault)
    expect(driven.code).toBe(0)
    expect(existsSync(join(folder, 'job.ndjson'))).toBe(true)
    expect(readFileSync(join(folder, 'job.ndjson'), 'utf8')).toMatch(/\n$/u)
  })
})
