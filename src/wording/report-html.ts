/**
 * A page as one HTML file: no script, nothing from the network, readable at any width, and made to be printed.
 * Everything that came from people is escaped; the drawings are our own.
 */
import type { Block, Cell, PageMatter } from './report-page.ts'
import { escapeXml, suspectsChart, timeline } from './report-svg.ts'

const STYLE = `
:root{color-scheme:light;--ink:#1b1f23;--dim:#57606a;--rule:#d0d7de;--soft:#f3f5f7}
*{box-sizing:border-box}
body{margin:0 auto;max-width:52rem;padding:2rem 1.25rem 4rem;color:var(--ink);background:#fff;font:16px/1.5 system-ui,sans-serif}
h1{font-size:1.6rem;line-height:1.25;margin:0 0 1rem}
h2{font-size:1.15rem;margin:2rem 0 .5rem;padding-bottom:.2rem;border-bottom:1px solid var(--rule)}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.15rem 1rem;margin:0}
dt{color:var(--dim)}dd{margin:0;overflow-wrap:anywhere}
p,li{overflow-wrap:anywhere}
.strong{font-weight:600}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.93rem}
th,td{text-align:left;vertical-align:top;padding:.3rem .6rem;border-bottom:1px solid var(--rule)}
th{font-weight:600;border-bottom-width:2px}
.right{text-align:right;font-variant-numeric:tabular-nums}
del{color:var(--dim)}
pre{background:var(--soft);padding:.6rem .8rem;overflow-x:auto;white-space:pre-wrap;overflow-wrap:anywhere}
svg{display:block;width:100%;height:auto;margin:.75rem 0}
svg text{font:11px system-ui,sans-serif;fill:var(--ink)}
svg .tick{fill:var(--dim)}
svg .grid{stroke:var(--rule);stroke-width:1}
svg .lead{stroke:var(--dim);stroke-width:.6}
svg .line{fill:none;stroke-width:2}
.line.c0,.end.c0{stroke:#0b4f9c}.end.c0{fill:#0b4f9c}
.line.c1,.end.c1{stroke:#a63d00}.end.c1{fill:#a63d00}
.line.c2,.end.c2{stroke:#2d6a2e}.end.c2{fill:#2d6a2e}
.line.c3,.end.c3{stroke:#7a1f6e}.end.c3{fill:#7a1f6e}
.line.c4,.end.c4{stroke:#57606a}.end.c4{fill:#57606a}
figure{margin:0}figure svg{max-height:235mm}figcaption{color:var(--dim);font-size:.93rem}
figure svg text{font:12px ui-monospace,monospace}
.step{fill:#dfe6ee;stroke:#57606a;stroke-width:.75}
.step.repair{fill:#ffd9a8}.step.proof{fill:#cdeac8}.step.gate{fill:#e7e0f2}
.off{fill:#1b1f23}.in{fill:#a63d00}
@media(max-width:34rem){dl{grid-template-columns:1fr}dt{margin-top:.4rem}}
@page{margin:18mm 16mm}
@media print{body{max-width:none;padding:0;font-size:10.5pt}h2{break-after:avoid}tr,li,svg,pre{break-inside:avoid}thead{display:table-header-group}.wide{overflow:visible}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
`

function cell(tag: 'th' | 'td', { text, struck, after, right }: Cell): string {
  const said = struck ? `<del>${escapeXml(text)}</del>` : escapeXml(text)
  const whole = after === undefined ? said : `${said} (${escapeXml(after)})`
  return `<${tag}${right ? ' class="right"' : ''}${tag === 'th' ? ' scope="col"' : ''}>${whole}</${tag}>`
}

function block(b: Block, matter: PageMatter, wiring: string | undefined): string {
  const { report, language, words, scene } = matter
  switch (b.is) {
    case 'title':
      return `<h1>${escapeXml(b.text)}</h1>`
    case 'section':
      return `<h2 id="${b.id}">${escapeXml(b.text)}</h2>${b.id === 'path' ? timeline(report.steps, words.timeline) : ''}`
    case 'facts':
      return `<dl>${b.facts.map(([label, value]) => `<dt>${escapeXml(label)}</dt><dd>${escapeXml(value)}</dd>`).join('')}</dl>`
    case 'text':
      return `<p${b.strong ? ' class="strong"' : ''}>${escapeXml(b.text)}</p>`
    case 'list': {
      const tag = b.numbered ? 'ol' : 'ul'
      return `<${tag}>${b.items.map((item) => `<li>${escapeXml(item)}</li>`).join('')}</${tag}>`
    }
    case 'table': {
      const head = b.head.map((c) => cell('th', c)).join('')
      const rows = b.rows.map((cells) => `<tr>${cells.map((c) => cell('td', c)).join('')}</tr>`).join('')
      return `<div class="wide"><table><thead><tr>${head}</tr></thead><tbody>${rows}</tbody></table></div>`
    }
    case 'command':
      return `<pre><code>${escapeXml(b.text)}</code></pre>`
    case 'chart':
      return suspectsChart(
        b.rankings,
        (suspect) => language.list(suspect.faults.map((fault) => language.fault(fault, scene).name)),
        language.labels.percent,
        words.chart(b.rankings.length),
        words.start,
      )
    case 'wiring':
      return wiring === undefined
        ? ''
        : `<h2 id="wiring">${escapeXml(words.section.wiring)}</h2><figure>${wiring}<figcaption>${escapeXml(words.wiring)}</figcaption></figure>`
  }
}

/** The whole file. `wiring` is a drawing as SVG, made by this program, with the faulty path marked. */
export function htmlReport(page: readonly Block[], matter: PageMatter, wiring?: string): string {
  const title = page.find((b) => b.is === 'title')
  return `<!doctype html>
<html lang="${escapeXml(matter.language.code)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeXml(title?.is === 'title' ? title.text : '')}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
${page
  .map((b) => block(b, matter, wiring))
  .filter((text) => text !== '')
  .join('\n')}
</main>
</body>
</html>
`
}
