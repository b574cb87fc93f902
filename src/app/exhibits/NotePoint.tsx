// The point of a note's leader on the picture: dragged, or moved by arrow keys.

import type { Component } from "solid-js";
import type { Page } from "../../report/exhibit/page.ts";
import type { Place } from "../../report/exhibit/sheet.ts";
import type { Maker } from "./maker.ts";
import { type Pointed, shareOf } from "./on-picture.ts";

const steps: Readonly<Record<string, readonly [time: number, level: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
/** Of the view, or of the lane's scale. */
const step = 1 / 100;

export const NotePoint: Component<{
  readonly id: string;
  readonly point: readonly [x: number, y: number];
  readonly page: Page;
  readonly maker: Maker;
  readonly under: (pointer: Pointed) => { readonly laneId: string; readonly at: Place } | null;
}> = (props) => {
  let isHeld = false;
  const note = () => props.maker.edits().notes.find(({ id }) => id === props.id);
  const number = () => props.maker.edits().notes.findIndex(({ id }) => id === props.id) + 1;
  const drag = (event: PointerEvent) => {
    const found = isHeld ? props.under(event) : null;
    if (found) props.maker.changeNote(props.id, { laneId: found.laneId, at: found.at });
  };
  const key = (event: KeyboardEvent) => {
    const [by, one] = [steps[event.key], note()];
    const lane = props.maker.sheet().lanes.find(({ id }) => id === one?.laneId);
    if (!by || !one || !lane) return;
    event.preventDefault();
    const { from, to } = props.maker.sheet().view;
    const time = one.at.time + by[0] * step * (to - from);
    const level = one.at.level + by[1] * step * (lane.scale[1] - lane.scale[0]);
    props.maker.changeNote(props.id, { at: { time: Math.min(to, Math.max(from, time)), level } });
  };
  return (
    <button
      type="button"
      class="picture-point"
      style={{ left: shareOf(props.point[0], props.page.width), top: shareOf(props.point[1], props.page.height) }}
      aria-label={`Point of note ${number()}: drag it, or use the arrow keys`}
      onPointerDown={(event) => {
        isHeld = true;
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={drag}
      onPointerUp={() => {
        isHeld = false;
      }}
      onPointerCancel={() => {
        isHeld = false;
      }}
      onKeyDown={key}
    />
  );
};
