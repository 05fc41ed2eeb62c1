// The kit that a team has picked: one of the pack's, or "ours" with facts of its own.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // The facts of the kit that entries name, those of the pack's own one if they name none.
  trundle.facts = ({ kits, kit, units }, entries) => {
    if (!kits) return {};
    const picked = entries["@kit"];
    if (picked !== "ours") return kits[Object.hasOwn(kits, picked ?? "") ? picked : kit].facts;
    return Object.fromEntries(
      units.map(([name, unit]) => [name, trundle.amount(entries["@kit_" + name] ?? "", unit).x ?? NaN]),
    );
  };

  // How those facts were written, where that is not as the page would write them.
  trundle.factTexts = ({ kits, kit, units }, entries) => {
    if (!kits) return {};
    const picked = entries["@kit"];
    if (picked !== "ours") return kits[Object.hasOwn(kits, picked ?? "") ? picked : kit].texts ?? {};
    return Object.fromEntries(
      units.map(([name, unit]) => [name, trundle.numeral(trundle.amount(entries["@kit_" + name] ?? "", unit).plain)]),
    );
  };

  // What a measure of a fact of the kit is to hold after a change of the kit: the new
  // kit's fact, unless the team has measured for itself; nothing, if it held that of a kit and the new one has none.
  // undefined: leave it as it is.
  trundle.follow = ({ entries }, f, facts, before, hadKit) => {
    const { x } = trundle.amount(entries[f.n] ?? "", f.u);
    const fact = entries["@kit"] ? facts[f.kit] : NaN;
    const last = trundle.amount(trundle.plain(before[f.kit] ?? NaN), f.u).x; // as the box would hold it
    if (x !== undefined && !(hadKit && x === last)) return;
    if (fact !== x) return fact === fact ? trundle.plain(fact) : x && "";
  };

  // Says what is wrong with a team's own facts, each thing once.
  const told = {};
  const doubt = ({ page, inputs, entries, tell }) => {
    for (const [name, unit] of page.units) {
      const id = "@kit_" + name;
      const text = (entries["@kit"] === "ours" && entries[id]?.trim()) || "";
      const a = text ? trundle.amount(text, unit) : {};
      const wrong = a.fault ? trundle.complaint(a, unit) : a.x <= 0 && trundle.say("positive", text);
      inputs[id].toggleAttribute("aria-invalid", false);
      if (wrong) inputs[id].setAttribute("aria-invalid", "true");
      if ((told[id] ?? "") !== (wrong || "")) tell(id, (told[id] = wrong || ""));
    }
  };

  // Says which kit's facts the page works with.
  let first; // what the page said of the pack's own kit
  trundle.facing = (sheet, facts) => {
    const { page, entries, inputs } = sheet;
    doubt(sheet);
    document.getElementById("_ours").hidden = entries["@kit"] !== "ours";
    const line = document.getElementById("_facts");
    if (!line) return;
    first ??= line.textContent;
    if (!entries["@kit"]) return void (line.textContent = first);
    const parts = page.units.map(
      ([name, unit]) => `${name.replaceAll("_", " ")} ${trundle.written(trundle.plain(facts[name]), unit)}`,
    );
    line.textContent = [inputs["@kit"].selectedOptions[0]?.text ?? page.kits[page.kit].title, ...parts].join(" · ");
  };
})();
