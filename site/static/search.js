/* Search in the page. The index (search-index.js) is made by the same program that answers
   `faceside search`; here a question is cut, folded and weighed by its data, so that both answer
   alike (src/search tells why each rule is as it is). Nothing is fetched: the index is a script.
   Words of the shop are put in as text only. Without this script the form stays hidden. */
(function () {
  "use strict";

  /* As many answers as the command gives; K1 and B are those of its ranking (BM25). */
  const MOST_HITS = 8;
  const MOST_TYPED = 1000;
  const LONGEST_WORD = 60;
  const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const CODES = new Uint8Array(128);
  [...LETTERS].forEach((letter, code) => (CODES[letter.charCodeAt(0)] = code));
  const K1 = 1.2;
  const B = 0.75;
  const MOST_OFF = 1;
  const SORTS = { group: 0, spelling: 1, about: 1, plain: 2 };

  /* ---- The index ---- */

  /** Reads packed numbers one by one. */
  function reader(text) {
    let at = 0;
    const next = () => {
      let number = 0;
      for (let scale = 1; ; scale *= 32) {
        const low = CODES[text.charCodeAt(at++)];
        number += (low % 32) * scale;
        if (low < 32) return number;
      }
    };
    const list = () => Array.from({ length: next() }, next);
    return { next, list, more: () => at < text.length };
  }

  function numbers(text) {
    const from = reader(text);
    const all = [];
    while (from.more()) all.push(from.next());
    return all;
  }

  /** The data of all parts as tables that a question is put to. */
  function open(data, parts) {
    const groups = new Map();
    for (const [name, marks] of data.groups) {
      if (!groups.has(name[0])) groups.set(name[0], []);
      groups.get(name[0]).push({ name, marks });
    }
    const index = {
      data,
      groups,
      entries: [],
      names: [],
      numberOf: new Map(),
      fold: new Map(),
      pagesOf: new Map(),
      ignored: new Set(data.ignored.split("\n")),
      lengths: new Map(data.lengths),
      fields: data.fields.map((weight) => ({ weight, tokens: 0, lengths: [], parts: [], read: new Map() })),
    };
    for (const part of parts) add(index, part);
    for (const field of index.fields) field.average = Math.fround(field.tokens / (index.entries.length || 1));
    return index;
  }

  /** Adds a part: its terms get numbers over all parts, its entries follow those before. */
  function add(index, { index: part, entries }) {
    const terms = part.terms.split("\n");
    const own = new Map(terms.map((term, at) => [term, at]));
    const numbered = terms.map((term) => {
      if (!index.numberOf.has(term)) index.numberOf.set(term, index.numberOf.size);
      return index.numberOf.get(term);
    });
    const folded = numbers(part.folded);
    const pages = numbers(part.pages);
    part.written.split("\n").forEach((word, at) => {
      index.fold.set(word, terms[folded[at]]);
      index.pagesOf.set(word, (index.pagesOf.get(word) || 0) + pages[at]);
    });
    index.fields.forEach((field, at) => {
      const { tokens, lengths, postings } = part.fields[at];
      field.tokens += tokens;
      field.lengths.push(...numbers(lengths));
      field.parts.push({ first: index.entries.length, own, lines: postings.split("\n") });
    });
    for (const line of part.names.split("\n")) {
      const from = reader(line);
      const list = () => from.list().map((term) => numbered[term]);
      const name = () => Array.from({ length: from.next() }, list);
      const whole = Array.from({ length: from.next() }, name);
      index.names.push({ whole, words: new Set(list()) });
    }
    for (const entry of entries) index.entries.push(entry);
  }

  /** Entries that have a term in a field, each with its places. */
  function postings(index, field, text) {
    if (!index.numberOf.has(text)) return [];
    if (!field.read.has(text)) {
      const found = [];
      for (const { first, own, lines } of field.parts) {
        if (!own.has(text)) continue;
        const from = reader(lines[own.get(text)]);
        for (let entry = first; from.more(); entry++) {
          entry += from.next();
          let place = 0;
          found.push({ entry, places: from.list().map((gap) => (place += gap)) });
        }
      }
      field.read.set(text, found);
    }
    return field.read.get(text);
  }

  const knows = (index, text) =>
    index.fields.some((field) => postings(index, field, text).length > 0);

  /* ---- Words ---- */

  /** The word that a written one is folded to; its endings are tried when no page has it. */
  function fold(index, word) {
    if (index.fold.has(word)) return index.fold.get(word);
    for (const [ending, instead] of index.data.endings) {
      if (!word.endsWith(ending)) continue;
      const stem = word.slice(0, -ending.length);
      const isDouble = stem.length > 3 && stem.at(-1) === stem.at(-2);
      if (instead === "=" && !isDouble) continue;
      const tried = instead === "=" ? stem.slice(0, -1) : stem + instead;
      if (tried.length > 2 && index.fold.has(tried)) return index.fold.get(tried);
    }
    return word;
  }

  const standsAlone = (rest) => !/^[\p{Alphabetic}\p{N}/]/u.test(rest);

  function lengthUnit(index, text) {
    const unit = /^\p{Alphabetic}+|^./u.exec(text);
    const isUnit = unit && index.lengths.has(unit[0].toLowerCase());
    return isUnit && standsAlone(text.slice(unit[0].length)) ? unit[0] : "";
  }

  /** Over and under of a number as it is written; none when it can be read in two ways. */
  function ratio(index, bare) {
    const mixed = new RegExp(`^(?:(\\d+)[ -]?)?([${index.data.signs}])$|^(?:(\\d+)[ -])?(\\d+/\\d+)$`, "u").exec(bare);
    if (mixed) {
      const whole = mixed[1] || mixed[3];
      const part = mixed[4] || mixed[2].normalize("NFKC");
      const [over, under] = part.split(/[/\u2044]/).map(Number);
      const isOfRule = under > 1 && under <= 128 && Number.isInteger(Math.log2(under));
      return isOfRule && (!whole || over < under) ? [Number(whole || 0) * under + over, under] : null;
    }
    if (/,\d{3}$/.test(bare) || !/^\d*([.,]\d+)?$/.test(bare)) return null;
    const places = (bare.split(/[.,]/)[1] || "").length;
    return [Number(bare.replace(/[.,]/, "")), 10 ** places];
  }

  /** Half a millimetre goes to the even one. */
  function wholeMillimetres(nm) {
    const mm = nm / 1e6;
    const low = Math.floor(mm);
    if (mm - low === 0.5) return low % 2 ? low + 1 : low;
    return Math.round(mm);
  }

  /** The number that a text begins with: what it is searched as, and how long it is. */
  function number(index, text) {
    const signs = index.data.signs;
    const decimal = /^\d*(?:[.,]\d+)*/.exec(text)[0];
    const rest = text.slice(decimal.length);
    const part = decimal
      ? rest[0] === "/"
        ? /^(?:\/\d+)?/.exec(rest)
        : new RegExp(`^(?:[ -]?[${signs}]|[ -]\\d+/\\d+)?`, "u").exec(rest)
      : new RegExp(`^[${signs}]?`, "u").exec(rest);
    const bare = decimal + part[0];
    const tail = text.slice(bare.length);
    const after = tail[0] === "-" ? tail.slice(1) : tail.replace(/^ +/, "");
    const blanks = tail.length - after.length;
    const slope = /^(?: in |:)(\d*(?:[.,]\d+)*)/.exec(tail);
    if (slope && slope[1] && !lengthUnit(index, tail.slice(slope[0].length).trimStart())) {
      return { size: bare.length + slope[0].length, exact: `${bare}:${slope[1]}`, bare };
    }
    for (const [as, kept] of index.data.units) {
      if (after.startsWith(as) && standsAlone(after.slice(as.length))) {
        const size = bare.length + blanks + as.length;
        return { size, exact: bare.replaceAll(",", "") + kept, bare };
      }
    }
    const unit = lengthUnit(index, after);
    const size = unit ? bare.length + blanks + unit.length : bare.length;
    const isLength = unit || bare.includes("/") || signs.includes(bare.at(-1));
    const parts = isLength ? ratio(index, bare) : null;
    const scale = index.lengths.get(unit.toLowerCase() || "in");
    const nm = parts ? Math.round((parts[0] * scale) / parts[1]) : Infinity;
    if (nm > 1e11) return { size, exact: bare, bare };
    const about = nm >= 3e6 ? `about ${wholeMillimetres(nm)} mm` : null;
    return { size, exact: `${nm}nm`, about, bare };
  }

  /** Words and numbers of a text in order, ignored words left out. */
  function cut(index, text) {
    const cuts = [];
    let at = 0;
    while (at < text.length) {
      const rest = text.slice(at);
      const letters = /^\p{Alphabetic}[\p{Alphabetic}\p{N}]*/u.exec(rest);
      if (/^\.?[0-9]/.test(rest) || index.data.signs.includes(rest[0])) {
        const found = number(index, rest);
        if (found.size <= LONGEST_WORD) cuts.push({ start: at, end: at + found.size, number: found });
        at += found.size;
      } else if (letters) {
        const lower = letters[0].toLowerCase();
        const end = at + letters[0].length;
        const hyphened = at > 0 && "-\u2010\u2011".includes(text[at - 1]);
        if (lower.length <= LONGEST_WORD && !index.ignored.has(lower)) {
          cuts.push({ start: at, end, lower, hyphened });
        }
        at = end + (/^['’]s/.test(text.slice(end)) ? 2 : 0);
      } else {
        at += String.fromCodePoint(text.codePointAt(at)).length;
      }
    }
    return cuts;
  }

  /** All words that a text is searched by; several may stand at one place. */
  function words(index, text) {
    const cuts = cut(index, text);
    const plain = cuts.map((one, place) => ({
      text: one.number ? one.number.exact : fold(index, one.lower),
      start: one.start,
      end: one.end,
      place,
      sort: "plain",
    }));
    const all = [...plain];
    for (let at = 0; at < plain.length; ) {
      const found = group(index, plain, at);
      for (const mark of found ? found.marks : []) {
        all.push({ ...plain[at], text: mark, sort: "group", covers: found.name.length });
      }
      at += found ? found.name.length : 1;
    }
    for (let at = 0; at < cuts.length; ) {
      let end = at + 1;
      while (end < cuts.length && cuts[end].hyphened) end++;
      const chain = cuts.slice(at, end);
      if (chain.length > 1 && chain.every((one) => one.lower)) {
        const joined = chain.map((one) => one.lower).join("");
        all.push({ ...plain[at], text: fold(index, joined), sort: "spelling" });
      }
      const { exact, about, bare } = cuts[at].number || {};
      if (about) all.push({ ...plain[at], text: about, sort: "about" });
      if (bare !== exact) all.push({ ...plain[at], text: bare, sort: "spelling" });
      at = end;
    }
    return all.sort((one, other) => one.place - other.place || SORTS[one.sort] - SORTS[other.sort]);
  }

  function group(index, plain, at) {
    const groups = index.groups.get(plain[at].text) || [];
    return groups.find(({ name }) => name.every((word, off) => plain[at + off]?.text === word));
  }

  /* ---- Slips of the hand ---- */

  /** Letters put in, left out, exchanged or swapped, if no more than `most`. */
  function distance(one, other, most) {
    let before = [];
    let row = Array.from({ length: other.length + 1 }, (_, at) => at);
    for (let i = 1; i <= one.length; i++) {
      const next = [i];
      let least = i;
      for (let j = 1; j <= other.length; j++) {
        const off = one[i - 1] === other[j - 1] ? 0 : 1;
        const isSwap = i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1];
        next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + off);
        if (isSwap) next[j] = Math.min(next[j], before[j - 2] + 1);
        least = Math.min(least, next[j]);
      }
      if (least > most) return most + 1;
      [before, row] = [row, next];
    }
    return row[other.length];
  }

  const byLetters = (one, other) => (one < other ? -1 : one > other ? 1 : 0);

  /** Written words that begin so. */
  function longer(index, typed) {
    const pages = (word) => index.pagesOf.get(word);
    return [...index.pagesOf.keys()]
      .filter((word) => word !== typed && word.startsWith(typed) && pages(word))
      .sort((one, other) => pages(other) - pages(one) || one.length - other.length || byLetters(one, other))
      .slice(0, index.data.weights.most_longer);
  }

  /** Written words that differ by a few letters. */
  function near(index, typed, most) {
    const isAsLong = (word) => Math.abs(word.length - typed.length) <= most;
    const found = [];
    for (const word of [...index.pagesOf.keys()].filter(isAsLong)) {
      const pages = index.pagesOf.get(word);
      const off = pages ? distance(typed, word, most) : most + 1;
      if (off <= most) found.push({ word, pages, off, first: word[0] === typed[0] ? 0 : 1 });
    }
    found.sort(
      (one, other) =>
        one.off - other.off ||
        one.first - other.first ||
        other.pages - one.pages ||
        byLetters(one.word, other.word),
    );
    return found.map(({ word }) => word).slice(0, index.data.weights.most_near);
  }

  /** Two words written as one. */
  function parted(index, typed) {
    const isWritten = (word) => index.pagesOf.get(word) > 0;
    for (let at = 3; at <= typed.length - 3; at++) {
      const [one, other] = [typed.slice(0, at), typed.slice(at)];
      if (isWritten(one) && isWritten(other)) return [`${one} ${other}`];
    }
    return [];
  }

  function spellings(index, typed, text, isLast) {
    if (!/^\p{Alphabetic}+$/u.test(typed)) return [];
    const letters = typed.length;
    let found = isLast && letters >= index.data.weights.least_prefix ? longer(index, typed) : [];
    if (!knows(index, text)) {
      const distances = letters < 4 ? [] : letters < 6 ? [1] : letters < 8 ? [1, 2] : [2];
      for (const most of distances) if (!found.length) found = near(index, typed, most);
      if (!found.length) found = parted(index, typed);
    }
    return found;
  }

  /* ---- The question ---- */

  function question(index, typed) {
    const most = index.data.weights.most_words;
    const firstWords = (text) => words(index, text).filter((word) => word.place < most);
    const texts = (text) => words(index, text).map((word) => word.text);
    const plain = firstWords(typed).filter((word) => word.sort === "plain");
    const guesses = [];
    const joined = [];
    let mended = "";
    let at = 0;
    plain.forEach((word, place) => {
      const surface = typed.slice(word.start, word.end).toLowerCase();
      const other = spellings(index, surface, word.text, place + 1 === plain.length);
      const isMended = other.length > 0 && !knows(index, word.text);
      mended += typed.slice(at, word.start);
      mended += isMended ? other.shift() : typed.slice(word.start, word.end);
      at = word.end;
      guesses.push(other.flatMap(texts));
      const next = plain[place + 1];
      if (next) joined.push(...texts(surface + typed.slice(next.start, next.end).toLowerCase()));
    });
    return { words: firstWords(mended + typed.slice(at)), guesses: [...guesses, joined] };
  }

  /** A question as a name: marks in place of the words that they cover. */
  function nameOf(index, list) {
    const name = [];
    let next = 0;
    for (const word of list.filter((one) => one.sort === "plain")) {
      if (word.place < next) continue;
      next = word.place + 1;
      const marks = list.filter((one) => one.sort === "group" && one.place === word.place);
      for (const mark of marks) next = Math.max(next, word.place + mark.covers);
      const choices = marks.map((mark) => mark.text);
      if (next === word.place + 1) choices.push(word.text);
      name.push(choices.map((text) => index.numberOf.get(text)));
    }
    return name;
  }

  const same = (one, other) =>
    one.length > 0 &&
    one.length === other.length &&
    one.every((choices, at) => choices.some((term) => other[at].includes(term)));

  /* ---- Weighing ---- */

  const rarity = (index, pages) => Math.log(1 + (index.entries.length - pages + 0.5) / (pages + 0.5));

  function weigh(field, entry, times, rare) {
    const length = field.lengths.length ? field.lengths[entry] : 1;
    const norm = K1 * (1 - B + (B * length) / field.average);
    return (rare * (K1 + 1) * times) / (times + norm);
  }

  /** How often terms stand one after another, one place more or less allowed in all. */
  function inARow(rows) {
    let left = rows[0].map((place) => ({ place, off: 0 }));
    for (const right of rows.slice(1, -1)) {
      const least = new Map();
      for (const { place, off } of left) {
        for (const other of right) {
          const sum = off + Math.abs(place - other);
          if (sum > MOST_OFF) continue;
          for (const met of [place, other]) least.set(met, Math.min(sum, least.get(met) ?? sum));
        }
      }
      left = [...least].map(([place, off]) => ({ place, off })).sort((one, other) => one.place - other.place);
    }
    const right = rows.at(-1);
    let count = 0;
    for (let i = 0, j = 0; i < left.length && j < right.length; ) {
      if (left[i].off + Math.abs(left[i].place - right[j]) <= MOST_OFF) {
        while (rows.length === 2 && left[i + 1]?.place <= right[j]) i++;
        count++;
        i++;
        j++;
      } else if (left[i].place < right[j]) i++;
      else j++;
    }
    return count;
  }

  /** Adds the best of several scores of each entry, and a little of the others. */
  function clause(index, total, alternatives) {
    const best = new Map();
    const put = (entry, score) => {
      const held = best.get(entry) || { most: 0, sum: 0 };
      best.set(entry, { most: Math.max(held.most, score), sum: held.sum + score });
    };
    alternatives(put);
    const tie = index.data.weights.tie;
    for (const [entry, { most, sum }] of best) {
      total.set(entry, (total.get(entry) || 0) + most + tie * (sum - most));
    }
  }

  function anyOf(index, total, list) {
    clause(index, total, (put) => {
      for (const [text, boost] of list) {
        for (const field of index.fields) {
          const found = postings(index, field, text);
          const rare = rarity(index, found.length) * boost * field.weight;
          for (const { entry, places } of found) put(entry, weigh(field, entry, places.length, rare));
        }
      }
    });
  }

  function phrase(index, total, texts) {
    clause(index, total, (put) => {
      for (const field of index.fields) {
        const lists = texts.map((text, off) => ({ off, found: postings(index, field, text) }));
        const rare = lists.reduce((sum, { found }) => sum + rarity(index, found.length), 0);
        const boost = rare * index.data.weights.phrase * field.weight;
        lists.sort((one, other) => one.found.length - other.found.length);
        const shifted = ({ places }, off) => places.map((place) => place - off);
        const rows = lists.map(({ off, found }) => new Map(found.map((one) => [one.entry, shifted(one, off)])));
        for (const { entry } of lists[0].found) {
          if (!rows.every((row) => row.has(entry))) continue;
          const times = inARow(rows.map((row) => row.get(entry)));
          if (times) put(entry, weigh(field, entry, times, boost));
        }
      }
    });
  }

  /** Entries that answer, best first. */
  function find(index, typed) {
    const weights = index.data.weights;
    const asked = question(index, typed.slice(0, MOST_TYPED));
    const total = new Map();
    const places = new Map();
    for (const word of asked.words) {
      const isMark = word.sort === "group" && word.text.startsWith("=");
      if (isMark) anyOf(index, total, [[word.text, weights.group]]);
      if (isMark) continue;
      const boost = { plain: 1, group: 1, spelling: weights.spelling, about: weights.about }[word.sort];
      places.set(word.place, [...(places.get(word.place) || []), [word.text, boost]]);
    }
    for (const list of places.values()) anyOf(index, total, list);
    for (const list of asked.guesses) anyOf(index, total, list.map((text) => [text, weights.guess]));
    const plain = asked.words.filter((word) => word.sort === "plain").map((word) => word.text);
    if (plain.length >= 2 && plain.length <= weights.most_phrase) phrase(index, total, plain);
    return ranked(index, total, nameOf(index, asked.words), plain);
  }

  function ranked(index, total, name, plain) {
    const weights = index.data.weights;
    const single = plain.map((text) => index.numberOf.get(text));
    const order = (kind) => index.data.kinds.indexOf(kind);
    const hits = [...total].map(([at, score]) => {
      const [kind, id, title, summary, address] = index.entries[at];
      const names = index.names[at];
      const isNamed = names.whole.some((whole) => same(whole, name));
      const holdsAll = kind === "procedure" && single.every((word) => names.words.has(word));
      const factor = isNamed ? weights.named : holdsAll ? weights.holds_all : 1;
      return { kind, id, title, summary, address, score: score * factor, isFirst: isNamed && kind === "procedure" };
    });
    hits.sort(
      (one, other) =>
        other.isFirst - one.isFirst ||
        other.score - one.score ||
        byLetters(one.id, other.id) ||
        order(one.kind) - order(other.kind),
    );
    return hits.slice(0, MOST_HITS);
  }

  /* ---- The page ---- */

  const root = new URL(".", document.currentScript.src);
  const form = document.querySelector("form.find");
  if (!form) return;
  const field = form.querySelector("input");
  const said = form.querySelector("[role=status]");
  const list = form.querySelector("ol");
  let index = null;
  let isAsked = false;

  /** Loads the index when it is first wanted. */
  function load() {
    if (isAsked) return;
    isAsked = true;
    window.facesideParts = [];
    const fail = () => {
      said.textContent = "The search index is not there. Build the site again.";
    };
    const add = (name, then) => {
      const script = document.createElement("script");
      script.src = new URL(name, root).href;
      script.onload = then;
      script.onerror = fail;
      document.head.append(script);
    };
    add("search-index.js", () => {
      const { index: data, parts } = window.facesideSearch;
      let missing = parts.length;
      const one = () => {
        missing--;
        if (missing) return;
        index = open(data, window.facesideParts);
        answer();
      };
      parts.forEach((name) => add(name, one));
    });
  }

  function part(kind, text) {
    const element = document.createElement("span");
    element.className = kind;
    element.textContent = text;
    return element;
  }

  function item(hit) {
    const link = document.createElement("a");
    link.href = new URL(hit.address, root).href;
    link.dataset.id = hit.id;
    link.append(part("kind", hit.kind), " ", part("title", hit.title), " ", part("summary", hit.summary));
    const row = document.createElement("li");
    row.className = hit.kind;
    row.append(link);
    return row;
  }

  function answer() {
    const typed = field.value.trim();
    if (!typed) return close();
    load();
    if (!index) return;
    const hits = find(index, typed);
    list.replaceChildren(...hits.map(item));
    const count = hits.length === 1 ? "1 answer" : `${hits.length} answers`;
    said.textContent = hits.length ? `${count}: arrow keys, Enter opens, Esc closes` : `Nothing is known of “${typed}”.`;
  }

  function close() {
    list.replaceChildren();
    said.textContent = "";
  }

  /** The field and the links, in order. */
  const stops = () => [field, ...list.querySelectorAll("a")];

  function move(by) {
    const all = stops();
    const at = all.indexOf(document.activeElement);
    all[Math.min(Math.max(at + by, 0), all.length - 1)].focus();
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    list.querySelector("a")?.click();
  });
  form.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown") move(1);
    else if (event.key === "ArrowUp") move(-1);
    else if (event.key === "Escape") {
      field.value = "";
      close();
      field.focus();
    } else return;
    event.preventDefault();
  });
  field.addEventListener("focus", load);
  field.addEventListener("input", answer);

  /** `#find=stopped+housing` in the address asks at once. */
  function fromAddress() {
    if (!location.hash.startsWith("#find=")) return;
    field.value = new URLSearchParams(location.hash.slice(1)).get("find");
    answer();
  }
  window.addEventListener("hashchange", fromAddress);
  list.addEventListener("click", () => {
    history.replaceState(null, "", `#${new URLSearchParams({ find: field.value })}`);
  });

  form.hidden = false;
  fromAddress();
})();
