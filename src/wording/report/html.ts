/**
 * A page as one HTML file: no script, nothing from the network, readable at any width, and made to be printed.
 * Everything that came from people is escaped; the drawings are our own.
 */
import type { Block, Cell, PageMatter } from './block.ts'
import { escapeXml, suspectsChart, timeline } from './svg.ts'

const STYLE = `
:root{color-scheme:light dark;--ink:#1b1f23;--dim:#57606a;--rule:#d0d7de;--soft:#f3f5f7;--paper:#fff;--c0:#0b4f9c;--c1:#a63d00;--c2:#2d6a2e;--c3:#7a1f6e;--c4:#57606a;--look:#dfe6ee;--gate:#e7e0f2;--repair:#ffd9a8;--proof:#cdeac8;--off:#1b1f23;--in:#a63d00}
@media screen and (prefers-color-scheme:dark){:root{--ink:#e6edf3;--dim:#9aa5b1;--rule:#3d444d;--soft:#21262d;--paper:#14181d;--c0:#79b8ff;--c1:#ffab70;--c2:#85e89d;--c3:#e2a8dc;--c4:#b0bac4;--look:#33414f;--gate:#4a3f63;--repair:#7a4a12;--proof:#22552c;--off:#e6edf3;--in:#ffab70}}
*{box-sizing:border-box}
body{margin:0 auto;max-width:52rem;padding:2rem 1.25rem 4rem;color:var(--ink);background:var(--paper);font:16px/1.5 system-ui,sans-serif}
h1{font-size:1.6rem;line-height:1.25;margin:0 0 1rem}
h2{font-size:1.15rem;margin:2rem 0 .5rem;padding-bottom:.2rem;border-bottom:1px solid var(--rule)}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.15rem 1rem;margin:0}
dt{color:var(--dim)}dd{margin:0;overflow-wrap:anywhere}
p,li{overflow-wrap:anywhere}
.strong{font-weight:600}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.93rem}
th,td{text-align:left;vertical-align:top;padding:.3rem .6rem;border-bottom:1px solid var(--rule);overflow-wrap:anywhere}
th{font-weight:600;border-bottom-width:2px}
.right{text-align:right;font-variant-numeric:tabular-nums;overflow-wrap:normal}
.fixed{white-space:pre;font-variant-numeric:tabular-nums}
del{color:var(--dim)}
pre{background:var(--soft);padding:.6rem .8rem;overflow-x:auto;white-space:pre-wrap;overflow-wrap:anywhere}
svg{display:block;width:100%;height:auto;margin:.75rem 0}
svg text{font:11px system-ui,sans-serif;fill:var(--ink)}
svg .tick{fill:var(--dim)}
svg .grid{stroke:var(--rule);stroke-width:1}
svg .lead{stroke:var(--dim);stroke-width:.6}
svg .line{fill:none;stroke-width:2}
.c0{stroke:var(--c0)}.end.c0{fill:var(--c0)}
.c1{stroke:var(--c1)}.end.c1{fill:var(--c1)}
.c2{stroke:var(--c2)}.end.c2{fill:var(--c2)}
.c3{stroke:var(--c3)}.end.c3{fill:var(--c3)}
.c4{stroke:var(--c4)}.end.c4{fill:var(--c4)}
.lines{margin:.25rem 0 1rem;padding-left:1.6rem;font-size:.93rem}
.swatch{display:inline-block;width:2.5rem;height:.5rem;margin:0 .3rem 0 0;vertical-align:middle}
figure{margin:0;break-inside:avoid}figcaption{color:var(--dim);font-size:.93rem}
figure .wide{background:#fff}figure svg{max-height:235mm;margin:0}
figure svg text{font:12px ui-monospace,monospace;fill:#111}
.step{stroke:var(--dim);stroke-width:.75;fill:var(--look)}
.step.repair{fill:var(--repair)}.step.proof{fill:var(--proof)}.step.gate{fill:var(--gate)}
.off{fill:var(--off)}.in{fill:var(--in)}
@media screen and (max-width:34rem){
dl{grid-template-columns:1fr}dt{margin-top:.4rem}
.wide>svg{min-width:34rem}figure .wide>svg{min-width:40rem;max-height:none}
thead{display:none}tr{display:flex;flex-wrap:wrap;gap:.1rem .8rem;padding:.5rem 0;border-bottom:1px solid var(--rule)}
td{border:0;padding:0}td.right,td.fixed{color:var(--dim);white-space:nowrap}td:not(.right):not(.fixed){flex:1 0 100%}
td[title]::before{content:attr(title) " "}
}
@page{margin:16mm 15mm}
@media print{html{font-size:10pt}body{max-width:none;padding:0;font-size:1rem;line-height:1.4}h2{margin-top:1.4rem;break-after:avoid}p:has(+ul),p:has(+ol){break-after:avoid}tr,li,svg,pre,dl{break-inside:avoid}thead{display:table-header-group}.wide{overflow:visible}main{display:flex;flex-direction:column}figure{order:1;break-before:page}figure svg{max-height:222mm}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
`

/** `head` names the column where the table's own head is not shown, on a narrow screen. */
function cell(tag: 'th' | 'td', { text, struck, after, right, fixed }: Cell, head?: string): string {
  const said = struck ? `<del>${escapeXml(text)}</del>` : escapeXml(text)
  const whole = after === undefined ? said : `${said} (${escapeXml(after)})`
  const kind = right ? ' class="right"' : fixed ? ' class="fixed"' : ''
  const title = right && head !== undefined ? ` title="${escapeXml(head)}"` : ''
  return `<${tag}${kind}${title}${tag === 'th' ? ' scope="col"' : ''}>${whole}</${tag}>`
}

const wide = (inside: string): string => (inside === '' ? '' : `<div class="wide">${inside}</div>`)

function block(b: Block, matter: PageMatter, wiring: string | undefined): string {
  const { report, language, words, scene } = matter
  switch (b.is) {
    case 'title':
      return `<h1>${escapeXml(b.text)}</h1>`
    case 'section':
      return `<h2 id="${b.id}">${escapeXml(b.text)}</h2>${b.id === 'path' ? wide(timeline(report.steps, words.timeline)) : ''}`
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
      const rows = b.rows
        .map((cells) => `<tr>${cells.map((c, i) => cell('td', c, b.head[i]?.text)).join('')}</tr>`)
        .join('')
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
        : `<figure><h2 id="wiring">${escapeXml(words.section.wiring)}</h2>${wide(wiring)}<figcaption>${escapeXml(words.wiring)}</figcaption></figure>`
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
