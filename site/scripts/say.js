// Says a text of the interface: {} stands for the next of what is put in, {2} for the second. The first whole number
// among them decides between singular and plural. Fill in site/words does the same.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  trundle.say = (name, ...parts) => {
    const { words } = trundle;
    const number = `${parts.find((part) => /^\d+$/.test(part))}`;
    const isOne = words["#singular"]?.split(" ").includes(number);
    let next = 0;
    return ((isOne && words[name + "#one"]) || words[name]).replace(/{(\d?)}/g, (_, i) => parts[i ? i - 1 : next++]);
  };
})();
