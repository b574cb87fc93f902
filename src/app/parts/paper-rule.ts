// The size of the sheet that the printer is asked for. Written through the style sheet's own interface: the page's policy allows no
// style in markup.

/** @returns takes it back. */
export function paperRule(paper: "A4" | "Letter"): () => void {
  const rule = new CSSStyleSheet();
  rule.replaceSync(`@page { size: ${paper === "A4" ? "A4" : "letter"}; margin: 0; }`);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, rule];
  return () => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== rule);
  };
}
