// Two tabs wrote into one box: which text shall stay?
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // trundle.offer asks, beside the box of an entry.
  trundle.offer = ({ entries, write }, id, other) => {
    const place = document.getElementById("told_" + id.replace(/-\d+$/, "")) ?? document.getElementById("_kept");
    place.textContent = trundle.say("other", other || "–") + " ";
    place.dataset.state = "look";
    place.dataset.asks = ""; // and says nothing else until that is answered
    for (const name of ["take-other", "keep-mine"]) {
      const button = document.createElement("button");
      button.textContent = trundle.say(name);
      button.onclick = () => {
        place.textContent = "";
        delete place.dataset.asks;
        write(id, name === "take-other" ? other : entries[id], true);
      };
      place.append(button, " ");
    }
  };
})();
