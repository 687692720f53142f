// Texts that lie on one another, within the page and within its drawings; runs in the page. Gives a
// few pairs in words; none is good.
export function overlaps() {
  // A box that scrolls by itself shows no more than its own size.
  const shownWithin = (element) => {
    let box = { left: -Infinity, top: -Infinity, right: Infinity, bottom: Infinity };
    for (let one = element; one; one = one.parentElement) {
      const style = getComputedStyle(one);
      if (style.clipPath !== 'none') return null;
      if (one === document.body || style.overflowX === 'visible' || style.display === 'inline') continue;
      if (one instanceof SVGElement) continue;
      const own = one.getBoundingClientRect();
      box = {
        left: Math.max(box.left, own.left), top: Math.max(box.top, own.top),
        right: Math.min(box.right, own.right), bottom: Math.min(box.bottom, own.bottom),
      };
    }
    return box;
  };
  const known = new Map();
  const within = (element) => {
    if (!known.has(element)) known.set(element, shownWithin(element));
    return known.get(element);
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const boxes = [];
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const text = node.textContent.trim();
    const parent = node.parentElement;
    if (!text || parent.closest('script, style, noscript, title, desc, option, datalist')) continue;
    if (!parent.checkVisibility({ visibilityProperty: true })) continue;
    const shown = within(parent);
    if (!shown) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const rect of range.getClientRects()) {
      // Lines are set closer than a font is high; letters take up the middle of it.
      const slack = rect.height * 0.25;
      const box = {
        text, node,
        left: Math.max(rect.left + 0.5, shown.left), right: Math.min(rect.right - 0.5, shown.right),
        top: Math.max(rect.top + slack, shown.top), bottom: Math.min(rect.bottom - slack, shown.bottom),
      };
      if (box.right > box.left && box.bottom > box.top) boxes.push(box);
    }
  }
  boxes.sort((one, other) => one.top - other.top);
  const found = [];
  for (let at = 0; at < boxes.length; at++) {
    const one = boxes[at];
    for (let next = at + 1; next < boxes.length && boxes[next].top < one.bottom; next++) {
      const other = boxes[next];
      if (other.node === one.node || other.left >= one.right || one.left >= other.right) continue;
      found.push(`“${one.text.slice(0, 40)}” lies on “${other.text.slice(0, 40)}”`);
    }
  }
  return [...new Set(found)].slice(0, 3);
}
