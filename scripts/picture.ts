// One screen of the terminal as an SVG drawing: each run of cells that look the same is a text of its own, stretched to the
// columns that it takes, so that any monospaced font will do. Light and dark grounds follow the reader's page.

import type { Run } from '../tests/support/screen.ts'

const CELL = { wide: 8.4, high: 18 }
const EDGE = 14

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
const figure = (n: number): string => String(Math.round(n * 100) / 100)

/** Bold, faint and inverse are all that the screen uses; each readable on its ground. */
const STYLE = `
text{font:14px ui-monospace,Menlo,Consolas,"DejaVu Sans Mono",monospace;fill:#24292f;white-space:pre}
.ground{fill:#fbfbf9;stroke:#c9ccd1}.b{font-weight:700}.d{fill:#5d6670}
.box{fill:#24292f}.i{fill:#fbfbf9}
@media(prefers-color-scheme:dark){text{fill:#dfe3e8}.ground{fill:#16191d;stroke:#3a4047}.d{fill:#98a2ad}
.box{fill:#dfe3e8}.i{fill:#16191d}}`

/** Width of a text in cells, as the terminal counts them: letters of the east take two. */
const cells = (text: string): number =>
  [...text].reduce(
    (n, c) =>
      n +
      (/[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60]/u.test(c) ? 2 : 1),
    0,
  )

function drawn(run: Run, y: number): string {
  const text = run.text.replace(/\s+$/u, '')
  const x = EDGE + run.at * CELL.wide
  const box = run.inverse
    ? `<rect class="box" x="${figure(x)}" y="${figure(EDGE + y * CELL.high)}" width="${figure(cells(run.text) * CELL.wide)}" height="${CELL.high}"/>`
    : ''
  if (text.trim() === '') return box
  const lead = /^\s*/u.exec(text)?.[0].length ?? 0
  const shown = text.slice(lead)
  const look = [run.bold ? 'b' : '', run.dim ? 'd' : '', run.inverse ? 'i' : '']
    .filter((c) => c !== '')
    .join(' ')
  return `${box}<text${look ? ` class="${look}"` : ''} x="${figure(x + lead * CELL.wide)}" y="${figure(EDGE + y * CELL.high + 13.5)}" textLength="${figure(cells(shown) * CELL.wide)}" lengthAdjust="spacingAndGlyphs">${escaped(shown)}</text>`
}

/** @param rows runs of each row  @param title what is to be seen, for who cannot see it */
export function picture(rows: readonly (readonly Run[])[], columns: number, title: string): string {
  const width = figure(columns * CELL.wide + 2 * EDGE)
  const height = figure(rows.length * CELL.high + 2 * EDGE)
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${escaped(title)}">`,
    `<title>${escaped(title)}</title>`,
    `<style>${STYLE.trim()}</style>`,
    `<rect class="ground" x="0.5" y="0.5" width="${figure(Number(width) - 1)}" height="${figure(Number(height) - 1)}" rx="6"/>`,
    ...rows.map((runs, y) => runs.map((run) => drawn(run, y)).join('')).filter((row) => row !== ''),
    '</svg>',
    '',
  ].join('\n')
}
