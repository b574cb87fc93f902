// Reads the words off a picture, in Node: an outside judge of what people can read. Works from node_modules alone.

import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import Tesseract from "tesseract.js";

const require = createRequire(import.meta.url);
const folderOf = (name: string): string => dirname(require.resolve(`${name}/package.json`));

/**
 * The words on each of some pictures.
 *
 * @param pngs base64
 * @param layout "block": one block of text; "sheet": words anywhere, in no order.
 */
export async function readWords(pngs: readonly string[], layout: "block" | "sheet" = "block"): Promise<string[]> {
  const worker = await Tesseract.createWorker("eng", Tesseract.OEM.LSTM_ONLY, {
    langPath: join(folderOf("@tesseract.js-data/eng"), "4.0.0_best_int"),
    corePath: folderOf("tesseract.js-core"),
    cacheMethod: "none",
  });
  try {
    await worker.setParameters({
      tessedit_pageseg_mode: layout === "block" ? Tesseract.PSM.SINGLE_BLOCK : Tesseract.PSM.SPARSE_TEXT,
    });
    const texts: string[] = [];
    for (const png of pngs) texts.push((await worker.recognize(Buffer.from(png, "base64"))).data.text);
    return texts;
  } finally {
    await worker.terminate();
  }
}
