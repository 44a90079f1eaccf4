/** The part of a report that a first boot has beside all others: each point with what was seen, and the signature. */
import { clean } from '../clean.ts'
import type { Block, Cell, PageMatter } from './block.ts'
import { replied } from './steps.ts'

export function bootBlocks(matter: PageMatter): Block[] {
  const { report, words, language, short } = matter
  const { boot } = report
  if (!boot) return []
  // Why it is looked at was for the bench.
  const scene = { ...matter.scene, folded: true }
  const rows = boot.points.map(({ step, at, expected, id }): Cell[] => {
    const taken = report.steps[step - 1]
    const point = expected ? language.note(expected, scene).join(' ') : clean(id)
    const said = taken ? replied(taken, matter) : ''
    const asExpected = taken && typeof taken.reply !== 'string' && taken.reply.length === 0
    return [
      { text: point },
      { text: asExpected ? words.boot.asExpected : said },
      { text: language.labels.moment(at) },
      ...(short ? [] : [{ text: String(step), right: true } as const]),
    ]
  })
  const { signed, summary } = boot
  const sign = signed ? words.boot.signed(signed.by, language.labels.moment(signed.at)) : words.boot.notSigned
  return [
    { is: 'section', id: 'boot', text: words.section.boot },
    { is: 'text', text: sign, strong: true },
    ...(summary
      ? language.note(summary, scene).map((text): Block => ({ is: 'text', text: text.trim() }))
      : []),
    {
      is: 'table',
      head: [
        { text: words.boot.point },
        { text: words.table.answer },
        { text: words.table.time },
        ...(short ? [] : [{ text: words.table.step, right: true } as const]),
      ],
      rows,
    },
  ]
}
