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
      units.map(([name, unit]) => [name, trundle.amount(entries["@kit_" + name] ?? "", unit).plain]),
    );
  };

  // What a measure of a fact of the kit is to hold after a change of the kit: the new
  // kit's fact, unless the team has measured for itself. undefined: leave it as it is.
  trundle.follow = ({ entries }, f, facts, before) => {
    const { x } = trundle.amount(entries[f.n] ?? "", f.u);
    const fact = entries["@kit"] ? facts[f.kit] : NaN;
    const last = trundle.amount(trundle.plain(before[f.kit] ?? NaN), f.u).x; // as the box would hold it
    if ((x === undefined || x === last) && fact === fact && fact !== x) return trundle.plain(fact);
  };

  // Says which kit's facts the page works with.
  trundle.facing = ({ page, entries, inputs }, facts) => {
    document.getElementById("_ours").hidden = entries["@kit"] !== "ours";
    const line = document.getElementById("_facts");
    if (!line || !entries["@kit"]) return;
    const parts = page.units.map(([name, unit]) => `${name} ${trundle.written(trundle.plain(facts[name]), unit)}`);
    line.textContent = [inputs["@kit"].selectedOptions[0]?.text ?? page.kits[page.kit].title, ...parts].join(" · ");
  };
})();
