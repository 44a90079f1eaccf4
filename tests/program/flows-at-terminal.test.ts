/**
 * Every flow at a real pseudo-terminal, in each size in turn, on the example builds: worked by keys alone with the bench as the person.
 * No line is longer than the terminal, no frame taller, the question always in sight, and what is recorded is what was
 * chosen, keys one by one and in a single write; every control beside the answers is used once in each size. `WHICHLEAD_EVERY_SIZE=1` runs all sizes, with controls at
 * every question.
 */
import { fileURLToPath } from 'node:url'
import { afterEach, expect, test } from 'vitest'
import { flows } from '../../flows/all.ts'
import { parseFault } from '../../src/core/faults/fault.ts'
import { readPlanFile } from '../../src/io/read-plan.ts'
import { ownFolder } from '../support/own-folder.ts'
import type { Pty } from '../support/pty.ts'
import { CONTROLS, turnOfControls } from '../support/terminal-controls.ts'
import { runAtTerminal } from '../support/terminal-job.ts'

const example = (name: string): string =>
  fileURLToPath(new URL(`../../docs/examples/${name}.build.yaml`, import.meta.url))

const [TEN, THREE, PLAIN] = ['archive-ten-fans', 'small-three-fans', 'plain-no-lights'].map(example) as [
  string,
  string,
  string,
]

/** In this order the largest, where a frame costs most, has the shortest flows. */
const SIZES = [
  [60, 20],
  [200, 60],
  [100, 30],
  [80, 24],
] as const

/** A fault that somebody would come with this symptom for; one for each flow. */
const PLANTED: Readonly<Record<string, readonly [plan: string, fault: string]>> = {
  'lights-dark': [TEN, 'F3.light:unplugged'],
  'fan-still': [TEN, 'F4.motor:unplugged'],
  'zero-rpm': [TEN, 'F7.motor:open-TACH'],
  'lights-stuck': [THREE, 'host/program:not-running'],
  'lights-order': [THREE, 'F1.light:swapped-with-F2.light'],
  'wrong-colours': [THREE, 'channels/H1/colours:wrong'],
  'global-effect': [THREE, 'host/global_effect:left-on'],
  'not-listed': [TEN, 'H1.usb:unplugged'],
  'fans-full': [THREE, 'headers/SYS1/curve:flat-out'],
  'odd-reading': [PLAIN, 'headers/SYS3/pulses:wrong'],
  'fans-hunting': [THREE, 'headers/SYS1/drive:wrong-mode'],
  'lights-flicker': [THREE, 'F3.light:frayed-DATA'],
  alarm: [THREE, 'headers/CPU/alarm_below:too-high'],
  'all-dead': [THREE, 'H1.power:unplugged'],
  'works-then-stops': [PLAIN, 'F2.motor:loose'],
  survey: [THREE, 'F1:motor-dead'],
  'first-boot': [THREE, 'F2.light:unplugged'],
}

/** Where that is not the proof that it is mended. */
const ENDS: Readonly<Record<string, string>> = {}

const everySize = (process.env.WHICHLEAD_EVERY_SIZE ?? '') !== ''

const jobs = flows.flatMap(({ id }, i) =>
  SIZES.flatMap((size, s) => {
    const turn = s === i % SIZES.length
    if (!turn && !everySize) return []
    // Over the sizes each flow is worked both ways.
    const hands = (Math.floor(i / SIZES.length) + s) % 2 === 0 ? 'one by one' : 'in a burst'
    return [[id, ...size, hands] as const]
  }),
)

let worked = 0
const turns = new Map(SIZES.map((size) => [size.join(), turnOfControls(everySize)]))

const open = new Set<Pty>()
afterEach(async () => {
  for (const pty of open) {
    pty.kill()
    await pty.ended
    pty.screen.dispose()
  }
  open.clear()
})

test.each(jobs)('%s at %i by %i, keys %s', { timeout: 300_000 }, async (symptom, columns, rows, hands) => {
  const turn = turns.get(`${columns},${rows}`) ?? turnOfControls(everySize)
  const [planFile, planted] = PLANTED[symptom] ?? ['', '']
  const read = readPlanFile(planFile)
  const fault = parseFault(planted)
  if (!read.ok || !fault) throw new Error(`nothing to plant for ${symptom}`)
  const run = await runAtTerminal(
    {
      planFile,
      plan: read.value,
      symptom,
      faults: [fault],
      columns,
      rows,
      hands,
      folder: ownFolder(),
      turn,
    },
    (pty) => open.add(pty),
  )
  expect(run.flaws).toEqual([])
  expect(run.recorded).toEqual(run.meant)
  expect(run.outcome).toBe(ENDS[symptom] ?? 'fixed')
  expect(run.code).toBe(0)
  worked++
})

test.each(SIZES)('every control was used at %i by %i', (columns, rows) => {
  // Only the whole run has room for all of them.
  if (worked < jobs.length) return
  expect([...(turns.get(`${columns},${rows}`)?.used ?? [])].sort()).toEqual(Object.keys(CONTROLS).sort())
})
