import { escaped } from '../../core/picture/escaped.ts'
import type { Block, Report } from '../../core/picture/report/blocks.ts'
import { svgOf } from '../../core/picture/svg-of.ts'
import { fontFace } from './fonts.ts'

/** A report as one HTML file. It asks for nothing from anywhere, and its policy lets no script run. */
export function htmlOf({ title, subtitle, day, blocks }: Report): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="date" content="${escaped(day)}">
<title>${escaped(title)}</title>
<style>${reportStyle()}</style>
</head>
<body>
<main>
<h1>${escaped(title)}</h1>
<p class="quiet">${escaped(subtitle)}</p>
${blocks.map(blockHtml).join('\n')}
</main>
</body>
</html>
`
}

function blockHtml(block: Block, index: number): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${escaped(block.text)}</h2>`
    case 'paragraph':
      return `<p${block.quiet ? ' class="quiet"' : ''}>${escaped(block.text)}</p>`
    case 'list':
      return `<ul>${block.items.map(item => `<li>${escaped(item)}</li>`).join('')}</ul>`
    case 'facts':
      return `<dl>${block.rows.map(([name, value]) => `<div><dt>${escaped(name)}</dt><dd>${escaped(value)}</dd></div>`).join('')}</dl>`
    case 'table':
      return tableHtml(block)
    case 'picture':
      return `<figure>${svgOf(block.scene, { idsBegin: `p${index}` }).trim()}</figure>`
  }
}

function tableHtml({ says, head, rows, right }: Block & { kind: 'table' }): string {
  const side = (column: number) => (right.includes(column) ? ' class="right"' : '')
  const cells = (row: readonly string[]) =>
    row.map((cell, i) => `<td${side(i)}><bdi>${escaped(cell)}</bdi></td>`).join('')
  return (
    `<div class="table" role="region" aria-label="${escaped(says)}" tabindex="0"><table>` +
    `<thead><tr>${head.map((name, i) => `<th scope="col"${side(i)}>${escaped(name)}</th>`).join('')}</tr></thead>` +
    `<tbody>${rows.map(row => `<tr>${cells(row)}</tr>`).join('')}</tbody></table></div>`
  )
}

/** What stands in the one style element of every report. */
export const reportStyle = (): string => fontFace() + style

const style = `
body{margin:0;background:#fff;color:#1b2328;font:400 16px/1.5 'Atkinson Hyperlegible Next',system-ui,sans-serif}
main{max-width:760px;margin:0 auto;padding:40px 20px 64px}
h1{margin:0;font-size:28px;line-height:1.25;font-weight:600;overflow-wrap:anywhere}
h2{margin:36px 0 8px;font-size:20px;font-weight:600;overflow-wrap:anywhere}
p,li{margin:8px 0;overflow-wrap:anywhere}
ul{padding-left:20px}
.quiet{color:#5a6268;font-size:14px}
figure{margin:20px 0}
figure svg{display:block;width:100%;height:auto}
dl{margin:16px 0;border-top:1px solid #d5dadc}
dl div{display:flex;gap:16px;padding:5px 0;border-bottom:1px solid #d5dadc}
dt{flex:0 0 30%;color:#5a6268}
dd{flex:1;min-width:0;margin:0;overflow-wrap:anywhere}
.table{overflow-x:auto;margin:12px 0}
table{width:100%;border-collapse:collapse;font-size:14px;font-variant-numeric:tabular-nums}
th,td{padding:5px 10px 5px 0;text-align:left;vertical-align:top;border-bottom:1px solid #d5dadc;overflow-wrap:anywhere}
th{color:#5a6268;font-weight:400}
.right{text-align:right}
@page{size:A4;margin:18mm}
@media print{main{max-width:none;padding:0}h2{break-after:avoid}figure,tr,dl div{break-inside:avoid}.table{overflow:visible}}
`
