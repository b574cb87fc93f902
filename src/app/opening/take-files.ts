// Files from anywhere on the page: dropped, or pasted as a file or as text.

import { onCleanup } from "solid-js";
import type { Notices } from "../core/notices.ts";
import type { Opening } from "./opening.ts";

/** @param setOver told whether a file hovers over the page. */
export function takeFiles(opening: Opening, notices: Notices, setOver: (over: boolean) => void): void {
  const openAll = async (files: readonly File[]) => {
    for (const file of files) await opening.open(file, file.name);
  };
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
    if (holdsFolder(event.dataTransfer)) return notices.show(folder);
    void openAll([...event.dataTransfer.files]);
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

const holdsFolder = (transfer: DataTransfer) =>
  [...transfer.items].some((item) => item.webkitGetAsEntry?.()?.isDirectory ?? false);

const folder = {
  code: "not-a-recording",
  what: "This is a folder, not a recording.",
  remedy: "Drop the files inside it, or a zip of them.",
} as const;
