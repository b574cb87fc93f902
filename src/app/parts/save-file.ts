// Hands a file to the browser to be saved.

/** Starts a download under `name`; characters that file systems refuse become hyphens. */
export function saveFile(blob: Blob, name: string): void {
  const link = document.createElement("a");
  const address = URL.createObjectURL(blob);
  link.href = address;
  link.download = name.replace(/[\\/:*?"<>|]+/g, "-");
  link.click();
  // The download has its own hold on the bytes once the click was handled.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
