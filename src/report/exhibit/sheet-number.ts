// Which sheet of how many: frozen as it was made, and told anew when it is printed, as the job has grown since.

export interface SheetNumber {
  readonly sheet: number;
  readonly sheets: number;
}

/** Marks the number in an exhibit's SVG. */
export const sheetMark = "sheet-number";

export const sheetText = ({ sheet, sheets }: SheetNumber): string => `${sheet} of ${sheets}`;

/** The same picture with the number it has now; as it was where it carries no mark. */
export const withSheetNumber = (svg: string, number: SheetNumber): string =>
  svg.replace(
    new RegExp(`(<g data-part="${sheetMark}"><text[^>]*>)[^<]*`),
    (_, head: string) => head + sheetText(number),
  );
