/**
 * The pages of a report: everything of the job is on them, in words, and nothing that a person wrote can break a page
 * out of its form. HTML is read by a parser here, so a page that a browser would have to mend fails.
 */

import { describe, expect, test } from 'vitest'
import { decodeLog } from '../../src/job/log/decode.ts'
import type { LogBody } from '../../src/job/log/event.ts'
import { planOf } from '../../src/job/log/plan-copy.ts'
import { assembleReport } from '../../src/job/report/assemble.ts'
import { english } from '../../src/wording/en/english.ts'
import { logWords } from '../../src/wording/en/log.ts'
import { reportWords } from '../../src/wording/en/report.ts'
import type { PageMatter } from '../../src/wording/report/block.ts'
import { htmlReport } from '../../src/wording/report/html.ts'
import { escapeMarkdown, markdownReport } from '../../src/wording/report/markdown.ts'
import { reportPage } from '../../src/wording/report/page.ts'
import { sceneOf } from '../../src/wording/report/scene.ts'
import { shellWord } from '../../src/wording/shell-word.ts'
import fc from '../support/fast-check.ts'
import { jobBodies, planCopy, writtenJob } from '../support/job-log.ts'

const plan = planOf(planCopy)

function matterOf(bodies: readonly LogBody[], more: Partial<PageMatter> = {}): PageMatter {
  const report = assembleReport(decodeLog(writtenJob(bodies).text))
  if (report === undefined || !plan.ok) throw new Error('no report')
  return {
    report,
    log: '/jobs/reading room.ndjson',
    language: english,
    words: reportWords,
    logWords,
    scene: sceneOf(plan.value, report.build),
    ...more,
  }
}

const markdown = (bodies: readonly LogBody[], more: Partial<PageMatter> = {}): string =>
  markdownReport(reportPage(matterOf(bodies, more)))

const html = (bodies: readonly LogBody[], wiring?: string): string => {
  const matter = matterOf(bodies)
  return htmlReport(reportPage(matter), matter, wiring)
}

const VOID = new Set(['meta', 'br', 'hr', 'img', 'link'])

/** Checks that tags nest, attributes are quoted and no bare < or & is left; gives the text. */
function parseHtml(page: string): string {
  const stack: string[] = []
  let text = ''
  const token =
    /<!doctype html>|<\/([a-z0-9]+)>|<([a-z][a-z0-9]*)((?:\s[a-zA-Z0-9-]+="[^"<]*")*)(\/?)>|([^<]+)/gy
  const body = page.replace(/<style>[^<]*<\/style>/, '')
  while (token.lastIndex < body.length) {
    const at = token.lastIndex
    const match = token.exec(body)
    if (match === null) throw new Error(`not HTML at: ${body.slice(at, at + 80)}`)
    const [, close, open, , empty, words] = match
    if (close !== undefined && stack.pop() !== close) throw new Error(`</${close}> closes nothing`)
    if (open !== undefined && empty === '' && !VOID.has(open)) stack.push(open)
    if (words !== undefined) {
      if (/&(?!amp;|lt;|gt;|quot;|#39;)/.test(words)) throw new Error(`bare & in: ${words}`)
      text += words
    }
  }
  expect(stack).toEqual([])
  return text
}

describe('the Markdown page', () => {
  const page = markdown(jobBodies)

  test('tells the whole job in words', () => {
    for (const said of [
      '# Reading room workstation: lights dead on some fans',
      '**Outcome:** fixed and proven',
      'Which fans are dark?',
      '~~F1, front bottom, F2, front middle and F3, rear~~ (taken back)',
      'since something was changed',
      'Push the light lead of F1 home.',
      'both are lit',
      'The front panel was off last week',
      'interrupted, taken up again 2026-03-03 09:36',
      'never open the supply',
    ])
      expect(page.toLowerCase()).toContain(said.toLowerCase())
  })

  test('has tables whose rows all have as many cells as their heads', () => {
    const tables = page.split('\n\n').filter((block) => block.startsWith('|'))
    expect(tables.length).toBe(2)
    for (const table of tables) {
      const widths = table
        .trim()
        .split('\n')
        .map((line) => line.split(/(?<!\\)\|/).length)
      expect(new Set(widths).size).toBe(1)
    }
  })

  test('is the same wherever and in whatever zone it is made', () => {
    const zone = process.env.TZ
    try {
      process.env.TZ = 'Pacific/Kiritimati'
      expect(markdown(jobBodies)).toBe(page)
    } finally {
      if (zone === undefined) delete process.env.TZ
      else process.env.TZ = zone
    }
  })

  test('of an unfinished job says what waits, what is suspected, and how to go on', () => {
    const open = markdown(jobBodies.slice(0, 15))
    expect(open).toContain('**Outcome:** not finished')
    expect(open).toContain('The job waits at: Shut down and switch the supply off.')
    expect(open).toContain("whichlead resume '/jobs/reading room.ndjson'")
    expect(open).toMatch(/1\. 35 %: The light plug of fan F1/)
  })

  test('for a customer has result, sightings, repair and proof, and nothing of how it was found', () => {
    const short = markdown(jobBodies, { short: true })
    expect(short).toContain('Push the light lead of F1 home.')
    for (const inner of ['%', 'SHA-256', '.ndjson', 'Suspects', 'Path of the diagnosis', 'whichlead'])
      expect(short).not.toContain(inner)
    expect(short).not.toMatch(/\bsteps? \d/)
  })

  test('of a job that was handed over says what has to be got where it says what is left to do, also to a customer', () => {
    const to: LogBody = {
      e: 'told',
      record: {
        show: 'note',
        kind: 'cross-check',
        facts: { what: 'to-get', at: 'board.SYS1', parts: ['F1.motor'] },
      },
      text: 'To get: a fan splitter.',
    }
    const bodies = jobBodies.flatMap((body): LogBody[] => {
      if (body.e !== 'ended') return [body]
      const { suspects } = body.end
      const verdict: LogBody = {
        e: 'told',
        record: { show: 'verdict', suspects, repair: null },
        text: 'Dead.',
      }
      return [to, verdict, { ...body, end: { ...body.end, outcome: 'handed-over' } }]
    })
    for (const short of [true, false]) {
      const [before = '', after = ''] = markdown(bodies, { short }).split('## What is left to do')
      expect(after).toMatch(/Nothing more can be mended at this bench\.\n\nTo get: a fan splitter\./)
      expect(before + after.replace('To get:', '')).not.toContain('To get:')
    }
  })

  test('names what could not be told from the cause as far as it was believed at all', () => {
    const bodies = jobBodies.map((body): LogBody => {
      if (body.e !== 'ended') return body
      const [first] = body.end.suspects
      const alike = [
        { faults: [{ at: 'F1.light', mode: 'unplugged' }], p: 0.3 },
        { faults: [{ at: 'build', mode: 'nothing-wrong' }], p: 0.001 },
      ]
      return { ...body, end: { ...body.end, suspects: first ? [{ ...first, alike }] : [] } }
    })
    const page = markdown(bodies)
    expect(page).toContain('- The light plug of fan F1 (front-bottom) not plugged in')
    expect(page).not.toContain('Nothing is wrong')
  })

  test('can be made without the plan, from the log alone', () => {
    const bare = markdown(jobBodies, { scene: sceneOf(undefined, 'Reading room workstation') })
    expect(bare).toContain('Push the light lead of F1 home.')
    expect(bare).toContain('F1')
  })

  test('tells things together that looked alike, where the log has no words of its own', () => {
    const wordless = jobBodies.map((body): LogBody => {
      if (body.e !== 'shown') return body
      const { text: _, answers: __, ...rest } = body
      return rest
    })
    const page = markdown(wordless)
    expect(page).toContain('- Dark: fans F1 (front-bottom) and F2 (front-middle) (step 2)')
    expect(page).toContain('Dark: fans F1 (front-bottom) and F2 (front-middle) |')
  })

  test('can be made without any text kept in the log, from the records alone', () => {
    const wordless = jobBodies.map((body): LogBody => {
      if (body.e === 'shown') {
        const { text: _, answers: __, ...rest } = body
        return rest
      }
      return body
    })
    const page = markdown(wordless)
    expect(page).not.toContain('undefined')
    expect(page).toContain('F1 (front-bottom)')
  })
})

describe('the HTML page', () => {
  test('is well formed, takes nothing from outside, and says what the Markdown page says', () => {
    const page = html(jobBodies)
    const text = parseHtml(page)
    expect(page).not.toMatch(/<script|https?:|src=|@import|url\(/)
    for (const said of ['Push the light lead of F1 home.', 'both are lit', 'taken back', 'fixed and proven'])
      expect(text).toContain(said)
    expect(page.match(/<svg [^>]*role="img"/g)?.length).toBe(2)
    expect(page).toContain('@media print')
  })

  test('draws a line for each suspect that goes where its share goes', () => {
    const page = html(jobBodies)
    const lines = [...page.matchAll(/<polyline class="line c(\d)"[^>]*points="([^"]*)"/g)]
    expect(lines.length).toBe(3)
    // Worked by hand: 0.93 of 180 above the foot at 192 is 24.6; 0 stands on the foot.
    const first = (lines[0]?.[2] ?? '').split(' ').map((point) => Number(point.split(',')[1]))
    expect(first).toEqual([192, 129, 24.6])
  })

  test('takes a wiring drawing where one is made', () => {
    const page = html(jobBodies, '<svg id="wiring-drawing"></svg>')
    expect(page).toContain('<figure><h2 id="wiring">Wiring</h2><div class="wide"><svg id="wiring-drawing">')
    expect(html(jobBodies)).not.toContain('id="wiring"')
  })

  test('can be made after every line of the job', () => {
    for (let lines = 1; lines <= jobBodies.length; lines++) parseHtml(html(jobBodies.slice(0, lines)))
  })
})

describe('text that people wrote', () => {
  const nasty = fc.oneof(
    fc.constantFrom(
      '<script>alert(1)</script>',
      '| a | b |',
      '# head',
      '***',
      '`',
      '&lt;',
      '</td>',
      '![](http://x)',
      '\u001b[2J',
    ),
    fc.string({ unit: 'binary', maxLength: 30 }),
  )

  test('cannot break out of the HTML page', () => {
    fc.assert(
      fc.property(nasty, nasty, (note, answer) => {
        const page = html(withText(note, answer))
        parseHtml(page)
        expect(page).not.toMatch(/<script|<img|http:\/\/x"/)
        expect(page).not.toContain('\u001b')
      }),
      { numRuns: 60 },
    )
  })

  test('cannot break out of the Markdown tables', () => {
    fc.assert(
      fc.property(nasty, nasty, (note, answer) => {
        const page = markdown(withText(note, answer))
        expect(page).not.toContain('\u001b')
        const sections = page.split('\n').filter((line) => line.startsWith('## '))
        expect(sections).toEqual(
          markdown(jobBodies)
            .split('\n')
            .filter((line) => line.startsWith('## ')),
        )
        for (const line of page.split('\n').filter((l) => l.startsWith('| '))) {
          const cells = line.replace(/\\\\/g, '').split(/(?<!\\)\|/).length - 2
          expect([3, 5]).toContain(cells)
        }
      }),
      { numRuns: 60 },
    )
  })

  test('keeps its figures and names plain where they mean nothing to Markdown', () => {
    expect(escapeMarkdown('0.5 A at F1.light, 3-pin')).toBe('0.5 A at F1.light, 3-pin')
    expect(escapeMarkdown('1. one')).toBe('1\\. one')
    expect(escapeMarkdown('- one')).toBe('\\- one')
    expect(escapeMarkdown('*_x_*')).toBe('\\*\\_x\\_\\*')
  })
})

function withText(note: string, answer: string): LogBody[] {
  return jobBodies.map((body): LogBody => {
    if (body.e === 'noted') return { ...body, text: note }
    if (body.e === 'opened') return { ...body, build: note === '' ? 'x' : note, who: answer }
    if (body.e === 'shown' && body.answers !== undefined)
      return { ...body, text: answer, answers: { ...body.answers, no: answer } }
    return body
  })
}

test('a path is quoted for a shell where it has to be', () => {
  expect(shellWord('/jobs/a-1.ndjson')).toBe('/jobs/a-1.ndjson')
  expect(shellWord("/shift's jobs/a.ndjson")).toBe("'/shift'\\''s jobs/a.ndjson'")
  expect(shellWord('-x')).toBe("'-x'")
  expect(shellWord('$(rm)')).toBe("'$(rm)'")
})
