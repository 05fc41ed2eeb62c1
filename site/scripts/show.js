// Writes numbers for people, by the rules of FormatStep, FormatPlain and digitsOf in
// generator/quantity, against which it is tested. What is not finite is written as "".
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // A number in the form of the pack's language: 20,4 where trundle.comma is set.
  const numeral = (trundle.numeral = (text) => (trundle.comma ? text?.replace(".", ",") : text));

  // x to n digits, as 1.23e+4. An exact half goes to the even digit, as it does in Go;
  // toExponential would take it up.
  const cut = (x, n) => (/[02468]50{30}e/.test(x.toExponential(n + 30)) ? x * (1 - 2 ** -52) : x).toExponential(n - 1);

  // Drops the digits that binary arithmetic cannot be trusted with, so that 2.675 rounds
  // as a class would round it. Those before the point stay.
  const snap = (trundle.snap = (x) => (Math.abs(x) < 1e15 ? +cut(x, Math.abs(x) < 1e13 ? 13 : 15) : x));

  const gcd = (a, b) => (b ? gcd(b, a % b) : a);

  // x with at most n significant digits, no exponent for sizes that a class meets.
  const significant = (trundle.significant = (x, n) => {
    if (!Number.isFinite(x)) return "";
    const size = Math.abs(x);
    const far = size > 1e15 || (size && size < 1e-9);
    const text = cut(far ? x : snap(x), n);
    const [digits, power] = text.split("e");
    return (far ? digits : (+text).toFixed(Math.max(0, n - 1 - power)))
      .replace(/\.0+$|(\..*?)0+$/, "$1")
      .concat(far ? "e" + power : "")
      .replace(/-/g, "−");
  });
  const count = (text) => text.replace(/e.*/, "").replace(/^[−0.]+|\./g, "").length;
  const whole = (x) => (Math.abs(x) < 1 || Math.abs(x) >= 1e15 ? 1 : `${Math.trunc(Math.abs(snap(x)))}`.length);
  const trusted = (x) => Math.min(15, Math.max(12, whole(x) + 1));

  // What stands for the unit, and the step, of an answer that is yes or no; 1 and 0 in programs.
  const truth = (trundle.truth = "yes or no");

  // x rounded to a step, halves away from zero: "20.4", "8 1/32", "−0.50".
  trundle.step = (x, step) => {
    const [first, second] = step.split(" or "); // in a program they are other words
    if (second) {
      const { yes = first, no = second } = step === truth ? (trundle.words ?? {}) : {};
      return Number.isFinite(x) ? (x ? yes : no) : "";
    }
    const [top, bottom = 1] = step.split("/");
    const [, places = ""] = top.split(".");
    const steps = snap(x / (top / bottom));
    if (!Number.isFinite(steps)) return "";
    const whole = BigInt(Math.round(Math.abs(steps))) * BigInt(top.replace(".", ""));
    const unit = BigInt(bottom) * 10n ** BigInt(places.length);
    const rest = whole % unit;
    const common = gcd(rest, unit);
    let text = `${whole / unit}`;
    if (places) text += "." + `${rest}`.padStart(places.length, "0");
    else if (rest) text = `${whole > unit ? text + " " : ""}${rest / common}/${unit / common}`;
    return (steps < 0 && whole ? "−" : "") + numeral(text);
  };

  // Every digit if those are seven or fewer, else four and all before the point: 2149.385
  // stays, 5.876474589 becomes 5.876.
  trundle.plain = (x) => {
    const full = significant(x, trusted(x));
    return numeral(count(full) <= 7 ? full : significant(x, Math.max(4, whole(x))));
  };

  // In parts, as in 6 ft 3 1/2: larger is how many of the unit make the larger one, and its name. Target.text in
  // generator/quantity does the same.
  trundle.parts = (x, to, larger) => {
    const plain = (y) => (to ? trundle.step(y, to) : trundle.plain(y));
    const [times, name] = larger?.split(" ") ?? [];
    if (!name || !(Math.abs(x) < 1e9)) return plain(x);
    const [top, bottom = 1] = to?.split("/") ?? [];
    const step = top / bottom;
    const size = to ? snap(Math.round(snap(Math.abs(x) / step)) * step) : Math.abs(x);
    let large = Math.floor(snap(size / times));
    let rest = plain(size - large * times);
    if (!to && rest === plain(+times)) [large, rest] = [large + 1, "0"];
    return `${x < 0 && (large || /[1-9]/.test(rest)) ? "−" : ""}${trundle.plain(large)} ${name} ${rest}`;
  };

  // The unit after a number: the singular after 1 and after a fraction of one. Only units
  // that are written out have one; symbols are shorter than four letters. As singular in generator/quantity does.
  const single = /^1$|^\d+\/\d+$/;
  trundle.after = (number, unit) => {
    const shown = unit.replace("Δ", ""); // the unit of a difference of temperatures, as people read it
    const one = (name) => trundle.ones?.[name] ?? name.replace(/^(.{2,}[^s])s$/, "$1");
    return single.test(number) ? shown.replace(/^[^/·]+/, one) : shown;
  };

  trundle.written = (number, unit) =>
    unit === truth ? number : number + (unit && unit !== "°" ? "\u00a0" : "") + trundle.after(number, unit);

  // Puts a text into its place, unless it is there: what is written anew has to be laid out anew. A text in place of a
  // text is no new part of the page, for which a browser would look at the styles of all.
  const put = (trundle.put = (place, text) => {
    const { firstChild: first, lastChild: last } = place;
    if (place.textContent === text) return;
    if (text && first === last && first?.nodeType === Node.TEXT_NODE) first.data = text;
    else place.textContent = text;
  });

  // Puts a number into its place on the page; data-u is the unit behind it, if that changes.
  trundle.fill = (place, number) => {
    put(place, number);
    const unit = place.nextElementSibling;
    if (unit?.dataset.u) put(unit, unit.textContent[0] + trundle.after(number, unit.dataset.u));
  };

  // A number that is not to be rounded yet: whole if it is short, else six digits, one after
  // the point at least, and dots.
  trundle.digits = (x) => {
    const full = significant(x, trusted(x));
    if (count(full) <= 8) return numeral(full);
    const [number, power] = full.split("e");
    let i = 0;
    while (i < number.length && (count(number.slice(0, i)) < 6 || !/\.\d/.test(number.slice(0, i)))) i++;
    return numeral(number.slice(0, i) + (i < number.length ? "…" : "") + (power ? "e" + power : ""));
  };
})();
