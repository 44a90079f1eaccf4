/**
 * Jobs of the built program killed with SIGKILL, as a power cut would, and taken up again from the log alone. Here at
 * points spread over a job; `npm run bench` does it at every point of several.
 */
import { expect, test } from 'vitest'
import { killAndResume, killPoints, wholeJob } from '../support/kill-job.ts'
import { ownFolder } from '../support/own-folder.ts'
import { PROGRAM, SMALL } from '../support/program.ts'

// On each further Node fewer: what is tried there is the Node, not the log.
const AT_MOST = process.env.WHICHLEAD_NODE ? 8 : 12

test.each([
  ['lights-dark', 'F2.light:unplugged'],
  ['fan-still', 'F2.motor:unplugged'],
])(
  '%s with %s: killed anywhere, no answer is lost, the same question stands, the end is the same',
  async (symptom, fault) => {
    const job = await wholeJob({ program: PROGRAM, plan: SMALL, symptom, fault, folder: ownFolder() })
    expect(job.end).toMatchObject({ outcome: 'fixed' })
    const points = killPoints(job)
    const stride = Math.ceil(points.length / (AT_MOST / 2))
    const chosen = points.filter((_, i) => i % stride === 0)
    const flaws: string[] = []
    let struck = 0
    // Two at a time: the program waits for the disk most of the time.
    for (let i = 0; i < chosen.length; i += 2)
      for (const killed of await Promise.all(chosen.slice(i, i + 2).map((at) => killAndResume(job, at)))) {
        flaws.push(...killed.flaws)
        if (killed.struck) struck++
      }
    expect(flaws).toEqual([])
    expect(struck).toBeGreaterThan(chosen.length * 0.7)
  },
  300_000,
)
