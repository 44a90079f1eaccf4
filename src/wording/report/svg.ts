/**
 * Two small drawings for a report's page, as inline SVG: the share of each suspect after each step, and the job's
 * steps along the minutes at the bench with power and hands. Lines differ in their dashes and ends as well as in
 * colour, and carry their names; the tables beside them say the same.
 */
import type { Suspect } from '../../core/checks/prompt.ts'
import { faultText } from '../../core/faults/fault.ts'
import type { Ranking, ReportStep } from '../../job/report/record.ts'

export const escapeXml = (text: string): string =>
  text
    // XML knows no control characters but these three.
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;')

const DRAWN = 5
const DASHES = ['', '8 4', '2 3', '10 3 2 3', '5 5'] as const

interface Line {
  readonly key: string
  readonly suspect: Suspect
  readonly shares: readonly number[]
}

const keyOf = (suspect: Suspect): string => suspect.faults.map(faultText).join(' ')

/** The suspects that ever stood highest, each with its share at every ranking; 0 where it was not in it. */
export function linesOf(rankings: readonly Ranking[]): Line[] {
  const best = new Map<string, { suspect: Suspect; top: number }>()
  for (const { suspects } of rankings) {
    for (const suspect of suspects) {
      const key = keyOf(suspect)
      const known = best.get(key)
      if (known === undefined || suspect.p > known.top) best.set(key, { suspect, top: suspect.p })
    }
  }
  return [...best]
    .sort(([a, x], [b, y]) => y.top - x.top || (a < b ? -1 : 1))
    .slice(0, DRAWN)
    .map(([key, { suspect }]) => ({
      key,
      suspect,
      shares: rankings.map(({ suspects }) => suspects.find((s) => keyOf(s) === key)?.p ?? 0),
    }))
}

const WIDTH = 720
const LEFT = 44
const RIGHT = 34
const TOP = 12
const HEIGHT = 180

const APART = 15

/** Labels at the right, kept a line apart and in the order of their lines: first down, then back up from the foot. */
function labelHeights(ends: readonly number[]): number[] {
  const order = ends.map((y, i) => ({ y, i })).sort((a, b) => a.y - b.y || a.i - b.i)
  let above = Number.NEGATIVE_INFINITY
  const down = order.map(({ y }) => {
    above = Math.max(y, above + APART)
    return above
  })
  let below = TOP + HEIGHT + 10 + APART
  const placed: number[] = []
  for (let at = order.length - 1; at >= 0; at--) {
    below = Math.min(down[at] as number, below - APART)
    placed[(order[at] as { i: number }).i] = below
  }
  return placed
}

const round = (n: number): string => (Math.round(n * 10) / 10).toString()

/**
 * Shares over steps, and under them the lines by number with their names in full: they are far too long for the drawing.
 * `name` and `percent` give the words for a suspect and its share, `title` what the drawing is; all are escaped here.
 * Empty for a job without rankings.
 */
export function suspectsChart(
  rankings: readonly Ranking[],
  name: (suspect: Suspect) => string,
  percent: (share: number) => string,
  title: string,
  start: string,
): string {
  if (rankings.length === 0) return ''
  const lines = linesOf(rankings)
  const plot = WIDTH - LEFT - RIGHT
  const x = (i: number): number => LEFT + (rankings.length === 1 ? plot : (plot * i) / (rankings.length - 1))
  const y = (share: number): number => TOP + HEIGHT * (1 - share)
  const grid = [0, 0.25, 0.5, 0.75, 1].map(
    (share) =>
      `<line class="grid" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${round(y(share))}" y2="${round(y(share))}"/>` +
      `<text class="tick" x="${LEFT - 6}" y="${round(y(share) + 4)}" text-anchor="end">${share * 100} %</text>`,
  )
  // As many step numbers as fit beside each other.
  const every = Math.ceil(rankings.length / Math.max(1, Math.floor(plot / 30)))
  const ticks = rankings.flatMap(({ step }, i) =>
    (i % every === 0 && i + every / 2 <= rankings.length - 1) || i === rankings.length - 1
      ? [
          `<text class="tick" x="${round(x(i))}" y="${TOP + HEIGHT + 16}" text-anchor="middle">${step === 0 ? escapeXml(start) : step}</text>`,
        ]
      : [],
  )
  const heights = labelHeights(lines.map((line) => y(line.shares.at(-1) ?? 0)))
  const drawn = lines.map(({ shares }, i) => {
    const points = shares.map((share, at) => `${round(x(at))},${round(y(share))}`)
    const end = shares.length - 1
    const [ex, ey] = [x(end), y(shares[end] ?? 0)]
    return (
      `<polyline class="line c${i}" stroke-dasharray="${DASHES[i]}" points="${points.join(' ')}"/>` +
      `<circle class="end c${i}" cx="${round(ex)}" cy="${round(ey)}" r="3"/>` +
      `<line class="lead" x1="${round(ex + 5)}" y1="${round(ey)}" x2="${round(ex + 14)}" y2="${round(heights[i] as number)}"/>` +
      `<text x="${round(ex + 17)}" y="${round((heights[i] as number) + 4)}">${i + 1}</text>`
    )
  })
  const named = lines.map(
    ({ suspect, shares }, i) =>
      `<li><svg class="swatch" viewBox="0 0 40 8" aria-hidden="true"><line class="line c${i}" stroke-dasharray="${DASHES[i]}" x1="0" x2="40" y1="4" y2="4"/></svg> ${escapeXml(`${percent(shares.at(-1) ?? 0)} ${name(suspect)}`)}</li>`,
  )
  return `<div class="wide">${svg(WIDTH, TOP + HEIGHT + 26, title, [...grid, ...ticks, ...drawn])}</div><ol class="lines">${named.join('')}</ol>`
}

const svg = (width: number, height: number, title: string, inside: readonly string[]): string =>
  `<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeXml(title)}"><title>${escapeXml(title)}</title>${inside.join('')}</svg>`

export interface TimelineWords {
  readonly title: string
  readonly powerOff: string
  readonly handsIn: string
  readonly minutes: string
  /** What the fillings of steps mean. */
  readonly kinds: Readonly<Record<'gate' | 'look' | 'repair' | 'proof', string>>
}

/** Wide enough for the words before the two bands. */
const BAND_LEFT = 70

type Kind = keyof TimelineWords['kinds']

function kindOf({ prompt }: ReportStep): Kind {
  if (prompt.show === 'ask') return prompt.stage === 'proof' ? 'proof' : 'look'
  const { purpose } = prompt
  return purpose === 'repair' || purpose === 'proof' || purpose === 'gate' ? purpose : 'look'
}

/** Steps along the minutes they are costed at; what a reading answered took none. Empty where nothing took any time. */
export function timeline(steps: readonly ReportStep[], words: TimelineWords): string {
  // An answer that was taken back was given all the same, and so took its time.
  const counted = steps.filter((step) => step.read === undefined && step.reply !== 'cannot')
  const total = counted.reduce((sum, step) => sum + step.prompt.minutes, 0)
  if (total <= 0) return ''
  const plot = WIDTH - BAND_LEFT - 20
  const x = (minutes: number): number => BAND_LEFT + (plot * minutes) / total
  const rows: string[] = []
  let at = 0
  let lastNumber = Number.NEGATIVE_INFINITY
  const kinds = new Set<Kind>()
  for (const one of counted) {
    const { step, prompt } = one
    const [from, to] = [x(at), x(at + prompt.minutes)]
    const width = round(Math.max(1, to - from))
    const kind = kindOf(one)
    kinds.add(kind)
    rows.push(`<rect class="step ${kind}" x="${round(from)}" y="20" width="${width}" height="18"/>`)
    if (prompt.power === 'off')
      rows.push(`<rect class="off" x="${round(from)}" y="42" width="${width}" height="7"/>`)
    if (prompt.hands === 'in')
      rows.push(`<rect class="in" x="${round(from)}" y="53" width="${width}" height="7"/>`)
    const middle = (from + to) / 2
    if (middle - lastNumber >= 16) {
      rows.push(`<text class="tick" x="${round(middle)}" y="14" text-anchor="middle">${step}</text>`)
      lastNumber = middle
    }
    at += prompt.minutes
  }
  const marks = [0, total / 2, total].map(
    (minutes, i) =>
      `<text class="tick" x="${round(x(minutes))}" y="76" text-anchor="${['start', 'middle', 'end'][i]}">${round(minutes)}${i === 2 ? ` ${escapeXml(words.minutes)}` : ''}</text>`,
  )
  const legend =
    `<text class="tick" x="${BAND_LEFT - 6}" y="49" text-anchor="end">${escapeXml(words.powerOff)}</text>` +
    `<text class="tick" x="${BAND_LEFT - 6}" y="61" text-anchor="end">${escapeXml(words.handsIn)}</text>`
  const keys = (['look', 'gate', 'repair', 'proof'] as const)
    .filter((kind) => kinds.has(kind))
    .map(
      (kind, i) =>
        `<rect class="step ${kind}" x="${BAND_LEFT + i * 150}" y="86" width="12" height="10"/>` +
        `<text class="tick" x="${BAND_LEFT + i * 150 + 17}" y="95">${escapeXml(words.kinds[kind])}</text>`,
    )
  return svg(WIDTH, 102, words.title, [...rows, ...marks, legend, ...keys])
}
