// The customer's sheet as a page of its own in the folder: its picture, its words, choices and what was approved.

import { dateText, localInstant } from "../../signal/written/date-text.ts";
import type { CustomerSheet } from "../customer/customer-sheet.ts";
import { xmlText } from "../paper/svg.ts";
import type { HandOverFacts } from "./facts.ts";
import { openRecord } from "./open-record.ts";
import { about, list, page } from "./page.ts";
import { linkTo, photoPath, sheetPicturePath } from "./paths.ts";

/** Made now, or the one given away last. */
export function sheetOfFolder({ job, sheet }: Pick<HandOverFacts, "job" | "sheet">): CustomerSheet & { mark: string } {
  const given = job.sheets?.at(-1);
  if (!given) return { ...sheet, mark: "draft" };
  return { ...given, mark: `revision ${given.revision}, ${dateText(localInstant(new Date(given.madeAt)))}` };
}

export function sheetPage(facts: HandOverFacts): string {
  const sheet = sheetOfFolder({ ...facts, job: openRecord(facts.job) });
  return page(
    sheet.title,
    [
      `<p class="mark">${xmlText(sheet.mark)}</p><h1>${xmlText(sheet.title)}</h1>`,
      about(sheet.about),
      pictureOf(sheet),
      `<div class="columns">${sheetWords({ sheet })}${photosOf({ ...facts, sheet })}</div>`,
      '<p class="on-screen"><a href="index.html">All that was handed over</a></p>',
    ].join("\n"),
    sheet.paper,
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

const pictureOf = ({ picture, pictured }: CustomerSheet): string =>
  picture === null
    ? ""
    : `<figure><img src="${linkTo(sheetPicturePath(picture))}" alt="Front and rear sensor over time"><figcaption>${pictured ? `Recorded ${xmlText(pictured)}` : ""}</figcaption></figure>`;

function photosOf({ sheet, job }: Pick<HandOverFacts, "sheet" | "job">): string {
  const figures = (sheet.photos ?? []).map(
    ({ name, of }) =>
      `<figure><img src="${linkTo(photoPath(name, job.photos ?? []))}" alt="${xmlText(of)}"><figcaption>${xmlText(of)}</figcaption></figure>`,
  );
  return figures.length === 0 ? "" : `<div class="photos">${figures.join("")}</div>`;
}
