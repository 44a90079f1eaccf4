/**
 * The first boots that docs/examples keeps: each log is played back line by line by this very program, and whatever was
 * answered in it is what the bench shows there and then with the faults that are said to be planted.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { compile } from '../../src/core/bench/build.ts'
import { bootWalk } from '../../src/core/checks/boot/walk.ts'
import { begin } from '../../src/job/drive/job.ts'
import { decodeLog } from '../../src/job/log/decode.ts'
import type { LogEvent } from '../../src/job/log/event.ts'
import { planOf } from '../../src/job/log/plan-copy.ts'
import { playBack } from '../../src/job/play-back.ts'
import { assembleReport } from '../../src/job/report/assemble.ts'
import type { Reply } from '../../src/job/view.ts'
import { english } from '../../src/wording/en/english.ts'
import { logWords } from '../../src/wording/en/log.ts'
import { reportWords } from '../../src/wording/en/report.ts'
import { markdownReport } from '../../src/wording/report/markdown.ts'
import { reportPage } from '../../src/wording/report/page.ts'
import { sceneOf } from '../../src/wording/report/scene.ts'
import { personAt } from '../support/bench-person.ts'
import { EXAMPLE_BOOTS, type ExampleBoot, WHERE, WHO } from '../support/example-boots.ts'
import { groundFor } from '../support/run-job.ts'

const logOf = ({ name }: ExampleBoot) =>
  decodeLog(readFileSync(new URL(`../../docs/examples/${name}.ndjson`, import.meta.url)))

function planIn(events: readonly LogEvent[]) {
  const [opened] = events
  if (opened?.e !== 'opened') throw new Error('no job')
  const plan = planOf(opened.plan)
  if (!plan.ok) throw new Error('the plan does not read')
  return { plan: plan.value, opened }
}

describe.each(EXAMPLE_BOOTS.map((boot) => [boot.name, boot] as const))('%s', (_, boot) => {
  const log = logOf(boot)
  const { plan, opened } = planIn(log.events)

  test('is of the demo build as it is now, whole, and plays back to its end', () => {
    const demo = readFileSync(
      new URL('../../docs/examples/archive-ten-fans.build.yaml', import.meta.url),
      'utf8',
    )
    expect(opened.plan.text).toBe(demo)
    expect([log.problems, log.restBytes]).toEqual([[], 0])
    const played = playBack(begin(groundFor(plan, 'first-boot')), log.events)
    expect(played.ok && played.job.end?.outcome).toBe(boot.faults.length > 0 ? 'fixed' : 'nothing-wrong')
  })

  test('says what the bench shows with its faults planted', () => {
    const person = personAt(plan, boot.faults)
    const shown = new Map(log.events.flatMap((e) => (e.e === 'shown' ? [[e.seq, e.prompt] as const] : [])))
    for (const e of log.events) {
      if (e.e !== 'replied') continue
      const prompt = shown.get(e.to)
      if (prompt?.show === 'do') person.did(prompt.edits)
      if (prompt?.show !== 'ask') continue
      const said: Reply = boot.unsure.includes(prompt.id) ? { say: 'unsure' } : person.answer(prompt)
      expect([prompt.id, e.reply]).toEqual([prompt.id, said.say === 'answer' ? said.ids : said.say])
    }
  })

  test('is walked point by point and signed by who walked it, and its report says so', () => {
    const report = assembleReport(log)
    const ids = report?.boot?.points.map((p) => p.id) ?? []
    expect([...new Set(ids)]).toEqual(bootWalk(compile(plan)).map((p) => p.ask.id))
    expect(report?.boot?.signed?.by).toBe(WHO)
    expect([report?.who, report?.where]).toEqual([WHO, WHERE])
    if (report === undefined) throw new Error('no report')
    const short = reportPage({
      report,
      log: '',
      language: english,
      words: reportWords,
      logWords,
      scene: sceneOf(plan, report.build),
      short: true,
    })
    const page = readFileSync(new URL(`../../docs/examples/${boot.name}.md`, import.meta.url), 'utf8')
    expect(page).toContain(`Signed off by ${WHO}`)
    expect(page).toBe(markdownReport(short))
  })
})
