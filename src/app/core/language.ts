// A system set to the locale "C" hands WebKit that letter as its language, which none of Intl takes: uPlot asks for a number
// format in it while it is loaded, and the page would stay blank. Imported before all else.

try {
  Intl.getCanonicalLocales(navigator.language);
} catch {
  Object.defineProperty(navigator, "language", { value: "en", configurable: true });
}
