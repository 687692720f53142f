/* A page worked out anew from what is typed into its form. The figures, drawings and refusals come
   from the program itself as WebAssembly (src/live; live-module.js holds it, packed): nothing is read
   as a number here, and the HTML that is put into the page is the program's. Nothing is fetched:
   module and shop are scripts, taken when the form is first used. Without this script, or where a
   browser cannot run it, the form stays hidden and the page keeps its worked example. */
(function () {
  "use strict";

  /* Milliseconds without a key before a page is worked out. */
  const PAUSE = 150;

  const form = document.querySelector("form.live");
  if (!form || !window.WebAssembly || !window.DecompressionStream) return;

  const folder = new URL(".", document.currentScript.src).href;
  const about = JSON.parse(form.querySelector("script").textContent);
  const said = form.querySelector("[role='status']");
  const fields = [...form.querySelectorAll("input, select")];
  const parts = [...document.querySelectorAll(".now")];
  const example = parts.map((part) => part.innerHTML);
  let door = null;
  let opening = null;
  let units = "";
  let later = 0;

  /* ---- The module ---- */

  function script(name) {
    return new Promise((done, failed) => {
      const element = document.createElement("script");
      element.src = folder + name;
      element.onload = done;
      element.onerror = () => failed(new Error(`${name} is missing`));
      document.head.append(element);
    });
  }

  async function open() {
    await Promise.all([script("live-module.js"), script("live-shop.js")]);
    const packed = Uint8Array.from(atob(window.facesideModule), (letter) => letter.charCodeAt(0));
    const plain = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    const bytes = await new Response(plain).arrayBuffer();
    const { instance } = await WebAssembly.instantiate(bytes, {});
    door = instance.exports;
  }

  function ask(question) {
    const bytes = new TextEncoder().encode(JSON.stringify(question));
    const room = door.faceside_room(bytes.length) >>> 0;
    new Uint8Array(door.memory.buffer, room, bytes.length).set(bytes);
    const length = door.faceside_answer() >>> 0;
    const text = door.faceside_text() >>> 0;
    const answer = JSON.parse(new TextDecoder().decode(new Uint8Array(door.memory.buffer, text, length)));
    if (answer.broken) throw new Error(answer.broken);
    return answer;
  }

  /* ---- The page ---- */

  function show(answer) {
    for (const [id, html] of answer.parts) document.getElementById(id).innerHTML = html;
    tell(answer.said, answer.faults);
  }

  function tell(words, faults) {
    said.textContent = words;
    for (const field of fields) {
      const place = document.getElementById(`${field.id}-fault`);
      if (!place) continue;
      place.textContent = faults[field.name] || "";
      if (faults[field.name]) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
  }

  function backToExample() {
    parts.forEach((part, at) => (part.innerHTML = example[at]));
    tell("The worked example.", {});
  }

  /* What cannot be worked out must not stand beside the figures of something else. */
  function giveUp(error) {
    form.reset();
    backToExample();
    for (const field of fields) field.disabled = true;
    said.textContent = `This page cannot work out other values (${error.message}); it shows the worked example.`;
  }

  function workNow() {
    clearTimeout(later);
    later = 0;
    const { units: wanted, ...texts } = Object.fromEntries(new FormData(form));
    try {
      if (units !== wanted) ask({ open: { files: window.facesideShop, about, units: wanted } });
      units = wanted;
      show(ask({ work: texts }));
    } catch (error) {
      giveUp(error);
    }
  }

  function work() {
    opening = opening || open();
    opening.then(workNow, giveUp);
  }

  form.addEventListener("input", () => {
    clearTimeout(later);
    later = setTimeout(work, PAUSE);
  });
  form.addEventListener("focusin", () => {
    opening = opening || open();
    opening.catch(giveUp);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    work();
  });
  form.addEventListener("reset", () => {
    clearTimeout(later);
    later = 0;
    backToExample();
  });
  /* What is printed is what was typed last. */
  window.addEventListener("beforeprint", () => {
    if (later && door) workNow();
  });

  form.reset();
  said.textContent = "";
  form.hidden = false;
})();
