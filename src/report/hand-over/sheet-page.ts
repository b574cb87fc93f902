// The customer's sheet as a page of its own in the folder: its picture, its words, choices and what was approved.

import { xmlText } from "../paper/svg.ts";
import type { HandOverFacts } from "./facts.ts";
import { about, list, page } from "./page.ts";
import { exhibitPath, linkTo, photoPath } from "./paths.ts";

export function sheetPage(facts: HandOverFacts): string {
  const { sheet } = facts;
  return page(
    sheet.title,
    [
      `<h1>${xmlText(sheet.title)}</h1>`,
      about(sheet.about),
      pictureOf(facts),
      sheetWords(facts),
      photosOf(facts),
      '<p><a href="index.html">All that was handed over</a></p>',
    ].join("\n"),
  );
}

/** Answer, sections, choices with their prices, and the approval. */
export function sheetWords({ sheet }: Pick<HandOverFacts, "sheet">): string {
  const choices = sheet.choices.map(({ what, price }) => xmlText(price.trim() === "" ? what : `${what}: ${price}`));
  const parts = [
    ...sheet.sections.map(({ heading, lines }) => ({ heading, lines: lines.map(xmlText) })),
    { heading: "Choices", lines: choices },
    { heading: "Approval", lines: sheet.approval === "" ? [] : [xmlText(sheet.approval)] },
  ].filter(({ lines }) => lines.length > 0);
  return `<p><b>${xmlText(sheet.answer)}</b></p><p>${xmlText(sheet.sure)}</p>
${parts.map(({ heading, lines }) => `<h3>${xmlText(heading)}</h3>${list(lines)}`).join("\n")}`;
}

/** The exhibit whose drawing the sheet shows. */
function pictureOf({ sheet, exhibits }: HandOverFacts): string {
  const at = exhibits.findIndex(({ svg, png }) => sheet.picture !== null && [svg, png].includes(sheet.picture));
  return at < 0
    ? ""
    : `<figure><img src="${linkTo(exhibitPath(at + 1, "png"))}" alt="${xmlText(exhibits[at]!.headline)}"></figure>`;
}

function photosOf({ sheet, job }: HandOverFacts): string {
  const figures = (sheet.photos ?? []).map(
    ({ name, of }) =>
      `<figure><img src="${linkTo(photoPath(name, job.photos ?? []))}" alt="${xmlText(of)}"><figcaption>${xmlText(of)}</figcaption></figure>`,
  );
  return figures.length === 0 ? "" : `<div class="photos">${figures.join("")}</div>`;
}
