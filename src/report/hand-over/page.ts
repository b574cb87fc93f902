// A page that opens anywhere: no script, nothing from elsewhere, its few rules of style within it.

import { xmlText } from "../paper/svg.ts";

const style = `body{font:16px/1.4 sans-serif;max-width:62rem;margin:2rem auto;padding:0 1rem;color:#1d2329;background:#fff}
th,td{text-align:left;padding:.15rem 1rem .15rem 0;vertical-align:top;font-weight:400}thead th,dt,.about th{color:#4b5560}
img{max-width:100%;border:1px solid #a9a498}h2{margin-top:2rem}figure{margin:1rem 0}.photos{display:flex;flex-wrap:wrap;gap:1rem}
.photos img{max-height:14rem}.photos figure{margin:0}code{word-break:break-all}
.mark{float:right;margin:0}
@media print{body{font-size:10pt;margin:0;max-width:none}h2{margin-top:1rem}figure,tr{break-inside:avoid}}`;

/** The customer's sheet on one page, in type of 8.5 pt. */
const onePage = (paper: "A4" | "Letter") => `
@page{size:${paper};margin:10mm 14mm}.columns li{list-style:none}.columns ul{padding:0;margin:0}
@media print{body{font-size:8.5pt;line-height:1.25;padding:0}h1{font-size:14pt;margin:0}h3,p,figure{margin:.35em 0 0}
.columns{columns:2;column-gap:8mm}.columns>p,.columns li{break-inside:avoid}h3{break-after:avoid}figure img{max-height:84mm}
.about tr{display:inline-block;margin-right:4mm}.photos img{max-height:24mm}.on-screen{display:none}}`;

/** @param sheet  the paper, for one that is a single sheet. */
export const page = (title: string, body: string, sheet?: "A4" | "Letter"): string => `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${xmlText(title)}</title>
<style>${style}${sheet ? onePage(sheet) : ""}</style>
</head><body>
${body}
</body></html>
`;

export const list = (lines: readonly string[]): string =>
  lines.length === 0 ? "" : `<ul>${lines.map((line) => `<li>${line}</li>`).join("")}</ul>`;

/** Rows of a name and what stands for it; rows without are left out. */
export const about = (rows: readonly (readonly [string, string])[]): string =>
  `<table class="about">${rows
    .filter(([, value]) => value.trim() !== "")
    .map(([name, value]) => `<tr><th scope="row">${xmlText(name)}</th><td>${xmlText(value)}</td></tr>`)
    .join("")}</table>`;

export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const cells = (kind: "th" | "td", row: readonly string[]) =>
    row.map((one) => `<${kind}>${xmlText(one)}</${kind}>`).join("");
  return `<table><thead><tr>${cells("th", head)}</tr></thead><tbody>${rows
    .map((row) => `<tr>${cells("td", row)}</tr>`)
    .join("")}</tbody></table>`;
}
