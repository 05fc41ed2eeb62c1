// Reads what a student typed into a box: 20.4, 20,4, 1 000,5, 204 mm, 8 1/32 in, ½, 3 ft 1 in, in the digits
// of any script. By the rules of ReadAnswer in generator/quantity, against which it is tested.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // Look-alikes of the signs that numbers and units are written with, and those signs.
  const typed = "−–‐‑－﹣＋．٫，٬⁄∕／％٪º˚\"”'’";
  const meant = "------+..,,///%%°°″″′′";

  const number = /\d+(?:\.\d+)?(?::\d+(?:\.\d+)?)+|\d*\.\d+|(?:\d+ +)?\d+\/\d+|\d+/.source;
  const start = new RegExp(`^ *([-+]?) *(${number})`);
  // What joins it to the unit before, a name or (at the start alone) a mark, its power.
  const name = /Δ?°[CF](?![\p{L}\p{Nd}_])|π|\p{Sc}|(?:[^\P{L}π](?:[\d_]|\.(?=\p{L}))*)+/u.source;
  const factor = new RegExp(`(^(?:1[/÷])?|(?!^)[/÷*×·])(${name}|^[%°″′])(?:\\^(${number})|([²³]))?`, "guy");

  // Ways of writing that people take for another one, and that one: 65 mm. · 65. · 5 per cent ·
  // 15 cm per s · 15 cm / s · 37-3/8 · €12.50
  const spoken = [
    [/([\p{L}%°″′²³])\.( |$)/gu, "$1$2"],
    [/(\d)\.( *)$/g, "$1$2"],
    [/(\d|\d +)per +cent( |$)/gi, "$1percent$2"],
    [/(\p{L}) +per +(\p{L})/giu, "$1/$2"],
    [/(\p{L}) *\/ *(\p{L})/gu, "$1/$2"],
    [/(\d)-(\d+\/\d)/g, "$1 $2"],
    [/^( *[-+]? *)(\p{Sc}) *([\d.,]+)( *)$/u, "$1$3 $2$4"],
  ];
  // The smaller part of two: 3 ft 1 3/8 in.
  const mark = "[%°″′]";
  const word = name.replace("π|", "");
  const pair = new RegExp(`^ *([-+]?) *(\\d+) *(?:(${word}) +|(${mark}) *)(${number}) *(${word}|${mark}) *$`, "u");

  let anyCase; // the sizes of units by their names in small letters
  const sizeOf = (name) => {
    anyCase ??= Object.fromEntries(Object.entries(trundle.units).map(([name, size]) => [name.toLowerCase(), size]));
    const size = trundle.units[name] ?? (/^[a-z]+$/i.test(name) ? anyCase[name.toLowerCase()] : undefined);
    return size?.[2] ? size : undefined; // "constructor" is no unit
  };

  const gcd = (a, b) => (b ? gcd(b, a % b) : a);

  // Unicode keeps each script's ten digits in a row from zero.
  const digit = (c) => {
    let n = 0;
    while (/\p{Nd}/u.test(String.fromCodePoint(c.codePointAt() - n - 1))) n++;
    return n % 10;
  };

  // The number that a text stands for; NaN where it is too long or divides by zero.
  const value = (text) => {
    const [a, b = 1, c] = text.split(/[ /:]+/);
    if (text.length > 30) return NaN;
    return c ? +a + b / (+c || NaN) : a / (+b || NaN);
  };

  // unit = ( name [power] | "1" "/" name [power] ) { ("/" | "·") name [power] }, without blanks
  const parse = (text) => {
    const powers = {}; // by size, since one unit may have two names
    let end = 0;
    for (const [all, join, word, exponent, raised] of text.matchAll(factor)) {
      const size = sizeOf(word);
      if (!size) {
        if (/^([1*×·]|(to|π)$)/.test(join + word)) break;
        return { fault: "unknown-unit", part: word };
      }
      const power = exponent?.includes(":") ? 0.5 : value(exponent ?? raised?.normalize("NFKC") ?? "1");
      if (power < 1 || power > 9 || power % 1) return { fault: "unit-power" };
      powers[size] = (powers[size] ?? 0) + (/[/÷]/.test(join) ? -1 : 1) * (power || 1);
      if (!power) break; // the ^ is left over
      end += all.length;
    }
    const unit = { dim: Object.values(trundle.units)[0][0].split(",").map(() => 0), num: 1, den: 1, rot: true };
    for (const key in powers) {
      const dims = key.split(","); // and num and den; multiplying makes them numbers
      const size = dims.splice(-2);
      let power = powers[key];
      if (power > 9 || power < -9) return { fault: "unit-power" };
      if (power * dims[1] && size[0] !== size[1] && !+dims[2]) unit.rot = false;
      for (const sign = Math.sign(power); power; power -= sign) {
        unit.dim = unit.dim.map((d, i) => d + sign * dims[i]);
        unit.num *= size[sign > 0 ? 0 : 1];
        unit.den *= size[sign > 0 ? 1 : 0];
      }
    }
    if (/^°[CF]$/.test(text)) unit.warmth = text; // not how much warmer
    return end < text.length ? { fault: "answer-left-over" } : unit;
  };

  // {dim, num, den, rot} of "cm/s", null where it is no unit: num / den base units, rot
  // unless its angles are degrees or radians. Each is read once; a page has few.
  const units = {};
  trundle.unit = (text) => {
    if (Object.hasOwn(units, text)) return units[text];
    const unit = parse(text);
    return unit.fault ? null : (units[text] = unit);
  };

  // x from one unit to another, NaN if they are not alike. A plain number may be called
  // rotations. Common factors go first, so that 20 in is 50.8 cm to the last bit.
  trundle.convert = (x, from, to) => {
    if (!from.dim.every((d, i) => d === to.dim[i] || (i === 1 && from.rot && to.rot))) return NaN;
    // As In and warmthShift in Go.
    const isShifted = from.warmth && to.warmth && from.warmth !== to.warmth;
    if (isShifted) return from.warmth === "°F" ? ((x - 32) * 5) / 9 : (x * 9) / 5 + 32;
    const num = from.num * to.den;
    const den = from.den * to.num;
    const common = gcd(num, den);
    return (x * (num / common)) / (den / common);
  };

  // The answer of two parts in the unit of the smaller one, undefined for anything else.
  const sum = (clean) => {
    const [, sign, a, large, isMark, b, small] = pair.exec(clean) ?? [];
    const [from, to] = [large ?? isMark, small].map((name) => name && sizeOf(name) && parse(name));
    if (!from || !to) return;
    const times = trundle.convert(1, from, to);
    const rest = b.includes(":") ? NaN : value(b);
    const isAlike = from.dim.join() === to.dim.join() && Number.isInteger(from.den) && Number.isInteger(to.den);
    if (isAlike && !(from.warmth && to.warmth) && times > 1 && a.length <= 30 && rest < times)
      return { x: (sign === "-" ? -1 : 1) * (a * times + rest), unit: small };
  };

  // What 2:30 or 3:5 comes to: a ratio, or a time where the unit of one follows. NaN for what is neither.
  const colons = (text, { dim, num, den }, isBare) => {
    const parts = text.split(":");
    if (isBare) return parts.length === 2 && +parts[1] ? parts[0] / parts[1] : NaN;
    const isTime = /^0,0,1(,0)+$/.test(dim) && den === 1 && (num === 3600 || (num === 60 && parts.length === 2));
    const isPart = (part, i) => (i + 1 === parts.length || !part.includes(".")) && (!i || /^[0-5]\d(\.|$)/.test(part));
    const isClock = parts.every(isPart);
    return isTime && isClock ? parts.reduce((sum, part, i) => sum + part / 60 ** i, 0) : NaN;
  };

  // A number at the start of a text in which marks are between thousands and can be nothing else: both marks are there,
  // or one more than once, or blanks are. By the rules of Ungrouped in Go.
  const blank = "[ \\u00a0\\u2009\\u202f]";
  const marked = String.raw`(?:,\d{3})+\.\d+|(?:\.\d{3})+,\d+|(?:,\d{3}){2,}|(?:\.\d{3}){2,}`;
  const clear = String.raw`${marked}|(?:${blank}\d{3})+(?:[.,]\d+)?`;
  const grouped = new RegExp(String.raw`^([ +−-]*)([1-9]\d{0,2}(?:${clear}))(?=[^\d.,/:]|$)`);
  trundle.ungrouped = (text) =>
    text.replace(grouped, (_, before, number) => {
      const mark = /[.,](?=\d+$)/.exec(number);
      const end = mark && number.indexOf(mark[0]) === mark.index ? mark.index : number.length;
      return before + number.slice(0, end).replace(/\D/g, "") + number.slice(end);
    });

  // What may be thousands, by the mark: only that which the pack's language does not have before decimals.
  const group = (mark) => new RegExp(`^[ +-]*([1-9]\\d{0,2}${mark}\\d{3})(?!\\d)`);
  const [points, commas] = ["\\.", ","].map(group);

  // {x, unit, plain}, or {fault} with the part that is at fault. other tells whether the class writes decimals with the
  // mark that the pack's language does not have there, so that 1,030 is a little more than one.
  trundle.read = (text, other) => {
    // A character is at most two long: megabytes are refused without a walk over them.
    if (text.length > 120 || [...text].length > 60) return { fault: "answer-too-long" };
    if (/\p{Cs}/u.test(text)) return { fault: "answer-no-number" };
    const plain = text
      .replace(/[¼-¾⅓-⅞]/g, (c) => ` ${c.normalize("NFKC")} `) // 8½ is 8 1/2, and ½3 no 1/23
      .replace(/\p{White_Space}/gu, " ")
      .replace(/\p{Cf}/gu, "") // marks of writing direction
      .replace(/\p{Nd}/gu, digit)
      .replace(/./gu, (c) => meant[typed.indexOf(c)] ?? c);
    if (!plain.trim()) return { fault: "answer-empty" };
    let said = plain;
    for (const [form, other] of spoken) said = said.replace(form, other);
    said = trundle.ungrouped(said);
    // Two marks, or one that may stand for thousands.
    const marks = said.match(/[.,]/g)?.length ?? 0;
    const thousands = (marks === 1 && (trundle.comma ? points : commas).exec(said)?.[1]) || "";
    if (marks > 1 || (thousands && !other)) return { fault: "answer-unclear", part: thousands };
    const clean = said.replace(",", ".");
    const both = sum(clean);
    if (both) return both;
    const [all, sign, written] = start.exec(clean) ?? [];
    if (!all) return { fault: "answer-no-number" };
    const isColon = written.includes(":");
    let x = isColon && written.length <= 30 ? 0 : value(written);
    if (isNaN(x)) return { fault: written.length > 30 ? "number-too-long" : "division-by-zero" };
    const rest = clean.slice(all.length);
    const { fault, part, ...unit } = parse(rest.trim());
    if (isColon && !fault) {
      x = colons(written, unit, !rest.trim());
      if (isNaN(x)) return { fault: "answer-left-over" };
    }
    if (fault) return /^e\d*$/i.test(part) && rest.startsWith(part) ? { fault: "answer-exponent" } : { fault, part };
    return { x: sign === "-" ? -x : x, unit: rest.trim(), plain: sign.replace("+", "") + written };
  };
})();
