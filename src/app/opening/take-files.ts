// Files from anywhere on the page: dropped, or pasted as a file or as text.

import { onCleanup } from "solid-js";
import type { Dropped } from "./in-turn.ts";
import type { Opening } from "./opening.ts";

/** @param setOver told whether a file hovers over the page. */
export function takeFiles(opening: Pick<Opening, "openAll">, setOver: (over: boolean) => void): void {
  const openAll = (files: readonly File[]) => opening.openAll(files.map((file) => ({ name: file.name, file })));
  const over = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    setOver(true);
  };
  const leave = (event: DragEvent) => {
    if (event.relatedTarget === null) setOver(false);
  };
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    if (!event.dataTransfer) return;
    void opening.openAll(droppedIn(event.dataTransfer));
  };
  const paste = (event: ClipboardEvent) => {
    if (event.target instanceof Element && event.target.closest("input, textarea")) return;
    const files = [...(event.clipboardData?.files ?? [])];
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (files.length > 0) void openAll(files);
    else if (text.trim() !== "") void openAll([new File([text], "pasted.csv", { type: "text/csv" })]);
  };
  document.addEventListener("dragover", over);
  document.addEventListener("dragleave", leave);
  document.addEventListener("drop", drop);
  document.addEventListener("paste", paste);
  onCleanup(() => {
    document.removeEventListener("dragover", over);
    document.removeEventListener("dragleave", leave);
    document.removeEventListener("drop", drop);
    document.removeEventListener("paste", paste);
  });
}

/** The browser tells which of them are folders only by these entries, and only while the drop is handled. */
function droppedIn(transfer: DataTransfer): readonly Dropped[] {
  const folders = [...transfer.items]
    .filter((item) => item.kind === "file")
    .map((item) => item.webkitGetAsEntry?.()?.isDirectory ?? false);
  return [...transfer.files].map((file, i) => ({ name: file.name, file: folders[i] ? null : file }));
}
