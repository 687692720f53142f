//! A shop whose every free text is hostile: markup, an address that acts, quotes, writing turned
//! round, a character of four bytes. It comes out inert and whole in each medium.
//!
//! The texts of the shop that `start` writes are made hostile one by one as the files are read, so
//! that a new key is tried with the others; a terms file, cautions, a routine and a note are added.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::Value as Json;
use serde_yaml::Value as Yaml;
use util::Folder;

/// Behind each text.
const HOSTILE: &str = " <script>alert(1)</script>\"'><b onx=1>\u{202e} \u{2028} 𝔽 &amp; </style>";

/// What stands in it when a writer has made what acts visible.
const WHOLE: &str = "𝔽";

/// Keys whose texts are free: all others hold ids, figures, formulas and words of a list.
const FREE: [&str; 31] = [
    "shop",
    "title",
    "also_called",
    "purpose",
    "use_when",
    "not_for",
    "done_when",
    "sources",
    "ask",
    "say",
    "instead",
    "people",
    "tools",
    "guards",
    "aids",
    "supplies",
    "pieces",
    "set_up",
    "do",
    "why",
    "key",
    "label",
    "if_low",
    "if_high",
    "hold",
    "see",
    "cause",
    "cure",
    "name",
    "place",
    "part",
];

/// Makes the free texts of a file hostile; gives how many there were.
fn spoil(value: &mut Yaml, free: bool) -> usize {
    match value {
        Yaml::String(text) if free && text != "none" => {
            text.push_str(HOSTILE);
            1
        }
        Yaml::Sequence(items) => items.iter_mut().map(|item| spoil(item, free)).sum(),
        Yaml::Mapping(entries) => entries
            .iter_mut()
            .map(|(key, value)| {
                let key = key.as_str().unwrap_or_default();
                // In a check the words of what is measured; at the top the measures themselves.
                let is_words = key == "measure" && value.is_string();
                spoil(value, FREE.contains(&key) || is_words)
            })
            .sum(),
        _ => 0,
    }
}

fn spoil_file(path: &Path) -> usize {
    let mut file: Yaml = serde_yaml::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    // The tools of a shop are named in its procedures; a name is no free text.
    let tools = file.get("tools").cloned();
    let count = spoil(&mut file, false);
    if let Some(tools) = tools {
        file["tools"] = tools;
    }
    fs::write(path, serde_yaml::to_string(&file).unwrap()).unwrap();
    count
}

fn quoted(text: &str) -> String {
    serde_json::to_string(&format!("{text}{HOSTILE}")).unwrap()
}

/// The hostile shop.
fn shop() -> Folder {
    let folder = Folder::empty();
    folder.run(&["start"]).code(0);
    let mut count = 0;
    for name in [
        "shop.yaml",
        "machines.yaml",
        "cutters.yaml",
        "procedures/first-procedure.yaml",
        "jobs/first-job.yaml",
    ] {
        count += spoil_file(&folder.path().join(name));
    }
    assert!(count > 80, "{count} texts");
    let text = quoted("Words");
    let note = format!(
        "---\nnote: hostile\ntitle: {text}\nabout: [first-procedure]\n---\n\nA note{HOSTILE} with \
         [a link](javascript:alert(2)) and [another](data:text/html,x).\n\n![p](http://x.invalid/p)\n"
    );
    folder
        .file("notes/hostile.md", note)
        .file(
            "terms.yaml",
            format!("terms:\n  - {{term: {text}, also: [{}], means: {text}, source: {text}}}\n", quoted("Other")),
        )
        .file(
            "routines.yaml",
            format!("- routine: fit-cutter\n  what: {text}\n  steps:\n    - do: Unplug the router table.\n      does: adjust\n    - do: {text}\n      does: adjust\n      key: {text}\n      why: {text}\n    - do: \"Set the cutter {{set.height}} above the table.\"\n      does: adjust\n"),
        )
        .file(
            "cautions/own.yaml",
            format!("machine: router-table\ncautions:\n  - caution: own-rule\n    kind: hand-distance\n    operations: every\n    stands: cut\n    signal: warning\n    hazard: {text}\n    harm: {text}\n    avoid: {text}\n    sources:\n      - {{cite: {text}, fact: RT-05, status: practice}}\n"),
        )
}

/// A run and a near miss in the record, every free text of theirs hostile: the run of a set-up as it
/// is titled, and one of another title.
fn record(folder: &Folder) {
    let job = folder.run(&["print", "--json", "--plain"]).json();
    let title = job["checklists"][0]["title"].as_str().unwrap();
    let run = |set_up: &str, at: u32| {
        let text = |what: &str| quoted(&format!("Record of {what}"));
        let set_up = serde_json::to_string(set_up).unwrap();
        let event = format!(
            "\"kind\":\"run\",\"by\":\"BK\",\"work\":{{\"job\":null,\"sheets\":null,\"procedure\":\"first-procedure\",\
             \"revision\":1,\"set_up\":{set_up},\"machine\":null,\"cutter\":{},\"wood\":{},\"stock\":{{}},\"settings\":\
             [{{\"name\":{},\"shown\":{}}}]}},\"pieces\":4,\"test_cuts\":2,\"note\":{}",
            text("a cutter"),
            text("oak"),
            text("a name"),
            text("a setting"),
            text("a note"),
        );
        line(at, &event)
    };
    let miss = format!(
        "\"kind\":\"near-miss\",\"by\":\"BK\",\"machine\":null,\"procedure\":\"first-procedure\",\"text\":{},\
         \"changed\":null",
        quoted("Record of a near miss")
    );
    let other = format!("Record of a set-up{HOSTILE}");
    let text = [run(&other, 1), run(title, 2), line(3, &miss)].concat();
    std::fs::create_dir_all(folder.path().join("record")).unwrap();
    std::fs::write(folder.path().join("record/2026.jsonl"), text).unwrap();
    let list = folder.run(&["record", "list"]);
    list.code(0).says("near miss");
    is_inert("list", &list.out());
}

/// A line of the record as its head tells: the check sum is over what stands before it.
fn line(number: u32, event: &str) -> String {
    let body = format!("{{\"v\":1,\"n\":{number},\"at\":\"2026-11-25T09:10:00Z\",{event}");
    let sum = crc32fast::hash(body.as_bytes());
    format!("{body},\"crc\":\"{sum:08x}\"}}\n")
}

/// Fails where a text can act, or where the last character of it was lost.
#[track_caller]
fn is_inert(name: &str, text: &str) {
    let acts = |c: char| matches!(c, '\u{202e}' | '\u{2028}' | '\u{1b}');
    assert!(!text.contains(acts), "{name}: writing is turned or cut");
    assert!(
        text.contains(WHOLE),
        "{name}: a character of four bytes is lost"
    );
}

/// The page without the scripts and the style that our own templates name; nothing may act in it.
#[track_caller]
fn is_inert_page(name: &str, page: &str) {
    for acting in [
        "<script>alert",
        "<b onx",
        "href=\"javascript",
        "href=\"data",
        "<img",
        "alert(1)</style",
    ] {
        assert!(!page.contains(acting), "{name}: `{acting}` came through");
    }
    let turned = |c: char| matches!(c, '\u{202e}' | '\u{2028}');
    assert!(!page.contains(turned), "{name}: writing is turned");
}

fn files(folder: &Path) -> Vec<(String, String)> {
    let mut open = vec![folder.to_owned()];
    let mut all = Vec::new();
    while let Some(inner) = open.pop() {
        for entry in fs::read_dir(inner).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_str().unwrap();
                all.push((name.to_owned(), fs::read_to_string(&path).unwrap()));
            }
        }
    }
    all
}

#[test]
fn hostile_texts_of_a_shop_come_out_inert_and_whole_in_each_medium() {
    let folder = shop();
    let check = folder.run(&["check"]);
    assert!(check.exit() == 0, "{}{}", check.out(), check.err());

    record(&folder);
    let sheets = folder.run(&["print", "--out", "sheets"]);
    is_inert("terminal", sheets.code(0).out().as_str());
    let search = folder.run(&["search", "alert"]);
    is_inert("search", search.code(0).out().as_str());
    for asked in [&["print", "--json"][..], &["search", "alert", "--json"]] {
        let run = folder.run(asked);
        is_inert("JSON", run.code(0).out().as_str());
        // It is read back as it was written.
        assert!(
            strings(&run.json())
                .iter()
                .any(|text| text.contains(HOSTILE.trim())),
            "{asked:?}"
        );
    }

    for (name, page) in files(&folder.path().join("sheets")) {
        is_inert_page(&name, &page);
    }
    assert!(
        folder
            .read("sheets/all.html")
            .contains("Record of oak &lt;script&gt;")
    );
    let site = ["site", "--out", "site", "--with-record", "--with-people"];
    folder.run(&site).code(0);
    let site = files(&folder.path().join("site"));
    let find = |wanted: &str| &site.iter().find(|(name, _)| name == wanted).unwrap().1;
    for (name, page) in site.iter().filter(|(name, _)| name.ends_with(".html")) {
        is_inert_page(name, page);
    }
    let kept = &find("procedures/first-procedure.html");
    for text in ["oak", "a set-up", "a note", "a near miss"] {
        assert!(
            kept.contains(&format!("Record of {text} &lt;script&gt;")),
            "{text}"
        );
    }
    for own in [
        "procedures/first-procedure.html",
        "notes/hostile.html",
        "words.html",
        "index.html",
        "cautions/router-table.html",
        "jobs/first-job/overview.html",
    ] {
        assert!(find(own).contains(WHOLE), "{own}");
    }
    for script in ["search-part-1.js", "live-shop.js"] {
        let text = find(script);
        assert!(
            !text.contains("</script") && text.contains(WHOLE),
            "{script}"
        );
    }
    on_paper(&folder.path().join("sheets/overview.html"));
}

/// All texts of a JSON value.
fn strings(json: &Json) -> Vec<String> {
    match json {
        Json::String(text) => vec![text.clone()],
        Json::Array(items) => items.iter().flat_map(strings).collect(),
        Json::Object(entries) => entries.values().flat_map(strings).collect(),
        _ => Vec::new(),
    }
}

/// The PDF that a browser makes holds the text as text.
fn on_paper(page: &Path) {
    let profile = tempfile::tempdir().unwrap();
    let pdf = profile.path().join("page.pdf");
    let status = Command::new("chromium")
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-pdf-header-footer",
        ])
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .arg(format!("--print-to-pdf={}", pdf.display()))
        .arg(format!("file://{}", page.display()))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .expect("chromium is needed: `apt-get install chromium poppler-utils`");
    assert!(status.success());
    let out = Command::new("pdftotext")
        .arg(&pdf)
        .arg("-")
        .output()
        .unwrap();
    let text = String::from_utf8(out.stdout).unwrap();
    assert!(text.contains("<script>alert(1)</script>"), "{text}");
    assert!(!text.contains('\u{202e}'));
}
