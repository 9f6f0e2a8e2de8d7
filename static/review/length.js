// Lengths as people type them, and how far off they are: what the server does, for pages without signal.
"use strict";
window.wallseat ??= {};

wallseat.length = (() => {
  const SIGNS = { "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3" };
  const NUMBER = String.raw`(?:\d{1,9}(?:\s+|-)\d{1,4}/\d{1,4}|\d{1,4}/\d{1,4}|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d{1,12}(?:\.\d*)?|\.\d+)`;
  const INCH = String.raw`(?:"|''|″|”|in\.?|inch(?:es)?)`;
  const FEET = new RegExp(String.raw`^(\d{1,6})\s*(?:'|′|’|ft\.?|feet|foot)\s*-?\s*(${NUMBER})\s*${INCH}?$`, "i");
  const DASH = new RegExp(String.raw`^(\d{1,6})\s*-\s*(\d{1,2}(?:\.\d+)?(?:\s+\d{1,3}/\d{1,3})?)\s*${INCH}?$`, "i");
  const PLAIN = new RegExp(String.raw`^(${NUMBER})\s*(\D.{0,20})?$`);
  const UNITS = [[new RegExp(`^${INCH}$`, "i"), 1], [/^mm$/i, 1 / 25.4], [/^cm$/i, 1 / 2.54], [/^m$/i, 1 / 0.0254], [/^(?:'|′|’|ft\.?|feet|foot)$/i, 12]];
  const HAIR = 1e-6;

  function number(text) {
    let total = 0;
    for (const part of text.replaceAll(",", "").split(/\s+|(?<=\d)-(?=\d+\/)/)) {
      const [top, bottom] = part.split("/").map(Number);
      if (bottom === 0) return NaN;
      total += bottom === undefined ? top : top / bottom;
    }
    return total;
  }

  // Inches, or null for what can't be read. units: those of a bare number, "ft in" (inches) or "mm".
  function parse(text, units) {
    let typed = text.replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (sign) => ` ${SIGNS[sign]}`).replace(/\s+/g, " ").trim().replace("−", "-");
    const sign = typed.startsWith("-") ? -1 : 1;
    if (sign < 0) typed = typed.slice(1).trim();
    const feet = FEET.exec(typed) || DASH.exec(typed);
    const plain = feet ? null : PLAIN.exec(typed);
    let found = NaN;
    if (feet) found = number(feet[2]) < 12 ? Number(feet[1]) * 12 + number(feet[2]) : NaN;
    else if (plain) found = number(plain[1]) * factor((plain[2] || "").trim(), units);
    return Number.isFinite(found) ? sign * found : null;
  }

  function factor(unit, units) {
    if (!unit) return units === "mm" ? 1 / 25.4 : 1;
    const known = UNITS.find(([pattern]) => pattern.test(unit));
    return known ? known[1] : NaN;
  }

  function fraction(inches) {
    const parts = Math.round(Math.abs(inches) * 16);
    let rest = parts % 16, bottom = 16;
    const whole = (parts - rest) / 16, sign = inches < 0 && parts ? "-" : "";
    if (!rest) return `${sign}${whole}`;
    while (rest % 2 === 0) [rest, bottom] = [rest / 2, bottom / 2];
    return whole ? `${sign}${whole} ${rest}/${bottom}` : `${sign}${rest}/${bottom}`;
  }

  const words = (inches, units) => (units === "mm" ? `${Math.round(inches * 25.4)} mm` : `${fraction(inches)} in`);
  const FARTHER = "Farther off than was looked at; bring it to the designer.";

  // What a length means, from what the engine found beforehand: {verdict, bold, words}.
  function judge(inches, asked, units) {
    if (asked.holds !== "yes") return { verdict: "refer", bold: "Flagged as drawn.", words: "Nothing is accepted here by itself; write down what is there." };
    const low = Number(asked.low), high = Number(asked.high);
    if (inches < low - HAIR) return { verdict: "flag", bold: `Short by ${words(low - inches, units)}.`, words: asked.lowSays || FARTHER };
    if (inches > high + HAIR) return { verdict: "flag", bold: `Over by ${words(inches - high, units)}.`, words: asked.highSays || FARTHER };
    return { verdict: "pass", bold: "Within.", words: "" };
  }

  return { parse, words, judge };
})();
