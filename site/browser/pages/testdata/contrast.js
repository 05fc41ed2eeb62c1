// Holds the colour of every visible text against the solid colours behind it, as
// WCAG 2 counts contrast (1.4.3): 4.5, or 3 for large text. Lines drawn as background
// pictures do not count.
(() => {
  "use strict";
  const parse = (colour) => {
    const [r, g, b, a = 1] = colour.match(/[\d.]+/g).map(Number);
    return { r, g, b, a };
  };
  const over = (top, below) => {
    const mix = (channel) => top[channel] * top.a + below[channel] * (1 - top.a);
    return { r: mix("r"), g: mix("g"), b: mix("b"), a: 1 };
  };
  const luminance = ({ r, g, b }) => {
    const linear = (c) => (c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  };
  const contrast = (one, other) => {
    const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
    return (light + 0.05) / (dark + 0.05);
  };
  const behind = (element) => {
    const layers = [];
    for (let e = element; e; e = e.parentElement) {
      const layer = parse(getComputedStyle(e).backgroundColor);
      layers.unshift(layer);
      if (layer.a === 1) break;
    }
    return layers.reduce((below, top) => over(top, below), { r: 255, g: 255, b: 255, a: 1 });
  };
  const seen = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !e.closest(".unseen, .skip");
  const large = (style) => {
    const size = parseFloat(style.fontSize);
    return size >= 24 || (size >= 56 / 3 && Number(style.fontWeight) >= 700);
  };

  const elements = new Set(document.body.querySelectorAll("input"));
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    if (texts.currentNode.data.trim()) elements.add(texts.currentNode.parentElement);
  }
  const faint = [];
  let count = 0;
  for (const e of elements) {
    if (!seen(e)) continue;
    count++;
    const style = getComputedStyle(e);
    const ground = behind(e);
    const ratio = contrast(over(parse(style.color), ground), ground);
    if (ratio < (large(style) ? 3 : 4.5)) {
      faint.push(`${ratio.toFixed(2)} for “${e.textContent.trim().slice(0, 40)}” in ${style.color} on ${JSON.stringify(ground)}: ${e.outerHTML.slice(0, 80)}`);
    }
  }
  return { texts: count, faint };
})()
