// Asks for the typeface before the page is laid out, so that it is mostly there for the first picture. What comes later
// than that is left for the next page: nothing moves under somebody's hands.
document.fonts?.load("1em Sheet").catch(() => {});
document.fonts?.load("700 1em Sheet").catch(() => {});
