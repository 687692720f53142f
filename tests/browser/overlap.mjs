// Texts that lie on one another, within the page and within its drawings, and lines of drawings that
// run through a text; runs in the page. Gives a few pairs in words; none is good.
export function overlaps() {
  const drawn = new Map();
  // Every line of a drawing as the page shows it, in straight pieces; what only wipes out is none.
  function linesOf(svg) {
    const all = [];
    for (const one of svg.querySelectorAll('path, line, circle, polyline, polygon, ellipse')) {
      if (getComputedStyle(one).stroke === 'rgb(255, 255, 255)') continue;
      const matrix = one.getScreenCTM();
      const shown = (x, y) => new DOMPoint(x, y).matrixTransform(matrix);
      const runs = one.matches('path') ? one.getAttribute('d').split(/(?=M)/) : [];
      for (const run of runs) {
        const points = (run.match(/-?[\d.]+[ ,]-?[\d.]+/g) ?? []).map((pair) => shown(...pair.split(/[ ,]/).map(Number)));
        if (run.trim().endsWith('Z')) points.push(points[0]);
        for (let at = 1; at < points.length; at++) all.push([points[at - 1], points[at]]);
      }
      if (runs.length) continue;
      const long = one.getTotalLength();
      for (let at = 0; at < 48; at++) {
        const [from, to] = [at, at + 1].map((part) => one.getPointAtLength((long * part) / 48));
        all.push([shown(from.x, from.y), shown(to.x, to.y)]);
      }
    }
    return all;
  }
  // Whether some of a line lies in a box: what of it is between the sides is not empty.
  function crosses([from, to], box) {
    let [begin, end] = [0, 1];
    for (const [at, step, low, high] of [
      [from.x, to.x - from.x, box.left, box.right], [from.y, to.y - from.y, box.top, box.bottom],
    ]) {
      if (Math.abs(step) < 1e-9) {
        if (at <= low || at >= high) return false;
        continue;
      }
      const ends = [(low - at) / step, (high - at) / step];
      begin = Math.max(begin, Math.min(...ends));
      end = Math.min(end, Math.max(...ends));
    }
    return begin < end;
  }
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
  for (const box of boxes) {
    const svg = box.node.parentElement.closest('svg');
    if (svg) found.push(...throughText(svg, box));
  }
  return [...new Set(found)].slice(0, 3);

  // The lines of a drawing that have a part within a box of the page.
  function throughText(svg, box) {
    if (!drawn.has(svg)) drawn.set(svg, linesOf(svg));
    const crossing = drawn.get(svg).filter((line) => crosses(line, box));
    return crossing.map(([from, to]) => {
      const place = [from, to].map((one) => `${one.x.toFixed(0)} ${one.y.toFixed(0)}`).join(' to ');
      return `a line from ${place} runs through “${box.text.slice(0, 40)}”`;
    });
  }
}
