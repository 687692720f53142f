//! Search in the built site, opened from its folder in headless Chromium.
//!
//! What the command answers is what the page must answer. The page is driven through its own form
//! by a script that this test adds to a copy of the home page; what it saw stands in the dumped
//! page. The questions are ours; the pairs of words behind them are cited in `search_found.rs`.
#![cfg(feature = "program")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::process::{Command, Stdio};

use faceside::search::Index;
use faceside::store::{Workshop, entries};
use serde_json::{Value as Json, json};
use util::{Folder, here};

/// Most bytes that the index of the built-in library may take.
const MOST_BYTES: usize = 1_200_000;

/// Most answers of page and command.
const MOST_HITS: usize = 8;

const QUESTIONS: [&str; 24] = [
    "stopped housing",
    "dado",
    "stopped dado",
    "blind dado",
    "rabbet",
    "mortice",
    "gap at shoulder",
    "stopped hou",
    "slid dov",
    "stoped housing",
    "sliding dovetale",
    "routertable",
    "push-block",
    "pushblocks",
    "rebating",
    "3/4 in",
    "0.75 in",
    "1½\"",
    "19,5 mm",
    "1 in 8",
    "18000 rpm",
    "how do I cut a housing",
    "tear-out",
    "zzzzqq",
];

/// Asks every question through the form; `seen` is what came of it.
const ASK: &str = r##"
const form = document.querySelector("form.find");
const field = form.querySelector("input");
const links = () => [...form.querySelectorAll("ol a")];
const ask = (words) => {
  field.value = words;
  field.dispatchEvent(new Event("input"));
  return links().map((a) => ({
    kind: a.querySelector(".kind").textContent,
    id: a.dataset.id,
    href: a.href,
    text: a.textContent,
  }));
};
const press = (key) =>
  document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
const focused = () => (document.activeElement === field ? "field" : links().indexOf(document.activeElement));
"##;

const KEYS: &str = r##"
  press("/");
  seen.keys.push(focused());
  field.focus();
  ask("housing");
  for (const key of ["ArrowDown", "ArrowDown", "ArrowUp", "ArrowUp", "ArrowUp", "ArrowDown"]) {
    press(key);
    seen.keys.push(focused());
  }
  press("Escape");
  seen.keys.push(focused(), links().length, field.value);
  ask("stopped housing");
  form.addEventListener("click", (event) => {
    event.preventDefault();
    seen.opened = event.target.closest("a").href;
  });
  form.requestSubmit();
"##;

/// The page after its scripts have run.
fn dumped(address: &str) -> String {
    let profile = tempfile::tempdir().unwrap();
    let output = Command::new("chromium")
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--virtual-time-budget=10000",
            "--dump-dom",
        ])
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .arg(address)
        .stderr(Stdio::null())
        .output()
        .expect("chromium is needed: `apt-get install chromium`");
    assert!(output.status.success(), "chromium on {address}");
    String::from_utf8(output.stdout).unwrap()
}

fn address(folder: &Folder, page: &str) -> String {
    format!("file://{}/out/site/{page}", folder.path().display())
}

/// The home page with a script of ours behind it, once the index is loaded; gives what it saw.
fn driven(folder: &Folder, questions: &[&str], more: &str) -> Json {
    let page = folder.read("out/site/index.html");
    let script = format!(
        "<script>addEventListener('load', () => {{ {ASK}
         const seen = {{ answers: [], keys: [], errors: [] }};
         addEventListener('error', (event) => seen.errors.push(event.message));
         field.focus();
         field.blur();
         const isThere = () =>
           window.facesideSearch && window.facesideParts.length === window.facesideSearch.parts.length;
         let opened = 0;
         const end = () => {{
           opened += isThere() ? 1 : 0;
           if (opened < 2) return setTimeout(end, 50);
           seen.answers = {}.map(ask);
           {more}
           seen.loaded = performance.getEntriesByType('resource').map((one) => one.name);
           seen.html = form.innerHTML;
           const pre = document.createElement('pre');
           pre.id = 'seen';
           pre.textContent = JSON.stringify(seen);
           document.body.append(pre);
         }};
         end(); }});</script></body>",
        json!(questions)
    );
    let path = folder.path().join("out/site/driven.html");
    fs::write(path, page.replace("</body>", &script)).unwrap();
    let dom = dumped(&address(folder, "driven.html"));
    let from = "<pre id=\"seen\">";
    let start = dom.rfind(from).expect("the script came to its end") + from.len();
    let text = &dom[start..start + dom[start..].find("</pre>").unwrap()];
    let text = text.replace("&lt;", "<").replace("&gt;", ">");
    serde_json::from_str(&text.replace("&nbsp;", "\u{a0}").replace("&amp;", "&")).unwrap()
}

/// Kind and id of each hit, best first.
fn named(hits: &Json) -> Vec<(String, String)> {
    let text = |hit: &Json, key: &str| hit[key].as_str().unwrap().to_owned();
    let hits = hits.as_array().unwrap().iter();
    hits.map(|hit| (text(hit, "kind"), text(hit, "id")))
        .collect()
}

/// The page gave the command's answers in its order, and each leads to a page.
#[track_caller]
fn alike(workshop: &Workshop, questions: &[&str], answers: &[Json]) {
    let index = Index::build(&entries(workshop), &workshop.terms).unwrap();
    assert_eq!(answers.len(), questions.len());
    for (question, hits) in questions.iter().zip(answers) {
        let found = index.find(question, MOST_HITS).unwrap();
        let found = found
            .into_iter()
            .map(|hit| (hit.kind.word().to_owned(), hit.id));
        assert_eq!(named(hits), found.collect::<Vec<_>>(), "`{question}`");
        for hit in hits.as_array().unwrap() {
            let (file, _) = hit["href"].as_str().unwrap().split_once(".html").unwrap();
            let file = file.strip_prefix("file://").unwrap();
            assert!(fs::exists(format!("{file}.html")).unwrap(), "{file}");
        }
    }
}

/// The index of a great library is in parts; answers are weighed over all of them.
#[test]
fn an_index_in_parts_answers_as_the_command_does() {
    const WORDS: [&str; 7] = [
        "housing", "slipway", "dado", "3/4 in", "tear-out", "gudgeon", "rail",
    ];
    let mut folder = Folder::empty().file(
        "shop.yaml",
        fs::read(here().join("procedures/shop/shop.yaml")).unwrap(),
    );
    for name in ["machines", "cutters"] {
        let file = format!("{name}.yaml");
        let text = fs::read(here().join("procedures/shop").join(&file)).unwrap();
        folder = folder.file(&file, text);
    }
    for at in 0..1200 {
        // Words of other counts in each note, so that rarity and length matter.
        let words = |step: usize| WORDS[(at * step + at / 7) % WORDS.len()];
        let text = format!(
            "{} {}.\n",
            words(3),
            [words(5), words(1)].join(" ").repeat(at % 5)
        );
        let note = format!("---\nnote: n-{at}\ntitle: {} {at}\n---\n{text}", words(2));
        folder = folder.file(&format!("notes/n{at}.md"), note);
    }
    folder.run(&["site"]).code(0);
    assert!(folder.path().join("out/site/search-part-3.js").is_file());
    let (workshop, _) = Workshop::open(Some(folder.path()), None).unwrap();
    let questions: Vec<&str> = QUESTIONS.into_iter().chain(WORDS).collect();
    let seen = driven(&folder, &questions, "");
    assert_eq!(seen["errors"], json!([]));
    alike(&workshop, &questions, seen["answers"].as_array().unwrap());
}

#[test]
fn page_and_command_answer_alike_and_the_keys_do() {
    let folder = Folder::empty();
    folder.run(&["site"]).code(0);
    let (workshop, _) = Workshop::open(None, None).unwrap();
    let titles = workshop.procedures.values().map(|one| one.title.as_str());
    let unfinished = titles.clone().map(|title| &title[..title.len() * 2 / 3]);
    let questions: Vec<&str> = QUESTIONS
        .into_iter()
        .chain(titles)
        .chain(unfinished)
        .collect();

    let seen = driven(&folder, &questions, KEYS);
    let answers = seen["answers"].as_array().unwrap();
    alike(&workshop, &questions, answers);
    for (question, hits) in QUESTIONS.iter().zip(answers).step_by(8) {
        let command = folder.run(&["search", question, "--json"]).json();
        assert_eq!(named(hits), named(&command["hits"]), "`{question}`");
    }

    // A letter alone does nothing (WCAG 2.2, 2.1.4).
    let keys = json!([-1, 0, 1, 0, "field", "field", 0, "field", 0, ""]);
    assert_eq!(seen["keys"], keys);
    let opened = seen["opened"].as_str().unwrap();
    assert!(
        opened.ends_with("/procedures/stopped-housing.html"),
        "{opened}"
    );

    assert_eq!(seen["errors"], json!([]));
    let own = address(&folder, "");
    for one in seen["loaded"].as_array().unwrap() {
        assert!(one.as_str().unwrap().starts_with(&own), "{one}");
    }
    let index = util::killing::built(&folder.path().join("out/site"));
    let scripts = index.iter().filter(|(name, _)| name.starts_with("search-"));
    let bytes: usize = scripts.map(|(_, bytes)| bytes.len()).sum();
    println!("the index takes {bytes} bytes");
    assert!(bytes <= MOST_BYTES, "the index takes {bytes} bytes");
}

#[test]
fn an_address_asks_and_nothing_is_hidden_from_who_has_no_script() {
    let folder = Folder::empty();
    folder.run(&["site"]).code(0);
    let page = address(&folder, "procedures/rebate.html#find=stopped+housing");
    let dom = dumped(&page);
    let list = &dom[dom
        .find("<ol><li class=\"procedure\"><a href")
        .expect("a list of answers")..];
    let first = list.split("</li>").next().unwrap();
    assert!(
        first.contains("/procedures/stopped-housing.html"),
        "{first}"
    );
    assert!(first.contains("data-id=\"stopped-housing\""), "{first}");

    let plain = folder.read("out/site/procedures/rebate.html");
    assert!(plain.contains("<form class=\"find\" role=\"search\" hidden>"));
    let told = plain.split_once("<noscript>").unwrap().1;
    let told = told.split_once("</noscript>").unwrap().0;
    assert!(told.contains("faceside search"), "{told}");
}

#[test]
fn a_title_that_would_act_is_only_read() {
    let title = "Trap <script>struck=1</script><img src=x onerror=struck=2> \u{1d53d}";
    let note = format!(
        "---\nnote: trap\ntitle: {}\n---\nA snare for gudgeons </script><b onclick=x>bold</b>.\n",
        json!(title)
    );
    let folder = Folder::empty().file("shop/notes/trap.md", note).file(
        "shop/shop.yaml",
        fs::read(here().join("procedures/shop/shop.yaml")).unwrap(),
    );
    folder.run(&["site", "--shop", "shop"]).code(0);

    let index = folder.read("out/site/search-part-1.js");
    assert!(!index.contains('<'), "the index holds markup");

    let seen = driven(&folder, &["gudgeons"], "seen.struck = typeof struck;");
    let text = seen["answers"][0][0]["text"].as_str().unwrap();
    assert!(text.contains(title), "{text}");
    assert!(text.contains("</script><b onclick=x>bold</b>"), "{text}");
    assert_eq!(seen["struck"], "undefined");
    assert_eq!(seen["errors"], json!([]));
    let html = seen["html"].as_str().unwrap();
    for acting in ["<script", "<img", "<b"] {
        assert!(!html.contains(acting), "{html}");
    }
}

/// What would send something out, or read a text as markup or as a script.
#[test]
fn the_script_has_no_means_to_ask_or_to_write_markup() {
    let script = fs::read_to_string(here().join("site/static/search.js")).unwrap();
    for means in [
        "fetch(",
        "XMLHttp",
        "WebSocket",
        "Beacon",
        "import(",
        "eval",
        "Function(",
        "innerHTML",
        "outerHTML",
        "insertAdjacent",
        "document.write",
        "http:",
        "https:",
    ] {
        assert!(!script.contains(means), "`{means}`");
    }
}
