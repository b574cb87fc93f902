// Text as it was before `xmlText` made it safe.

export const plainText = (xml: string): string =>
  xml
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&amp;", "&");
