// The job's record as it may leave the workshop.

import type { Job } from "../../job/record/job.ts";
import { rowsOfOwner } from "../customer/customer-sheet.ts";

/** The record without the fields that the sheet does not show, in sheets given away before as well; free text is as it was given. */
export function openRecord(job: Job): Job {
  const { plate, vin, customer } = job.sheet?.ticks ?? { plate: false, vin: false, customer: false };
  const { vehicle } = job;
  const kept = (isShown: boolean, text: string) => (isShown ? text : "");
  const named = {
    plate: kept(plate, vehicle.plate),
    vin: kept(vin, vehicle.vin),
    customer: kept(customer, vehicle.customer),
  };
  const hidden = Object.entries(rowsOfOwner).flatMap(([row, field]) => (named[field] === "" ? [row] : []));
  const sheets = job.sheets?.map((one) => ({ ...one, about: one.about.filter(([row]) => !hidden.includes(row)) }));
  return { ...job, vehicle: { ...vehicle, ...named }, ...(sheets ? { sheets } : {}) };
}
