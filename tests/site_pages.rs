//! The built site in a browser and before the HTML checker: no page scrolls sideways, has a text on
//! another or a line of a drawing through one, complains, asks for anything outside its folder, shuts anybody out (axe-core, WCAG 2.2
//! AA; Tab alone reaches everything) or breaks the rules of HTML.
//!
//! The printed sheets are looked at too, on both papers.
//!
//! Every page is looked at 1280 px wide; at 320 and 820 px, in the dark, on A4 and Letter and with
//! axe-core a sample: every page of the top folder, of each other folder the shortest and longest.
//!
//! Chromium is driven by the npm package `playwright-core`; `axe-core` and `vnu-jar` (the Nu HTML
//! checker, which wants Java 17) come from npm too. `.ci/run` puts them into a folder outside the
//! tree; `FACESIDE_NODE` names another one.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use serde_json::Value as Json;
use util::{Folder, here, packages};

/// The site of the demo shop, built once.
fn site() -> PathBuf {
    static SITE: OnceLock<Folder> = OnceLock::new();
    let folder = SITE.get_or_init(|| {
        let folder = Folder::empty();
        folder.run(&["site", "--out", "site"]).code(0);
        folder
    });
    folder.path().join("site")
}

/// The names of all pages, in order.
fn pages() -> Vec<String> {
    let site = site();
    let mut folders = vec![site.clone()];
    let mut all = Vec::new();
    while let Some(folder) = folders.pop() {
        for file in std::fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|suffix| suffix == "html") {
                let name = path.strip_prefix(&site).unwrap();
                all.push(name.to_str().unwrap().to_owned());
            }
        }
    }
    all.sort();
    all
}

/// Every page of the top folder, and of each other folder the shortest and the longest.
fn sample() -> Vec<String> {
    let long = |name: &String| std::fs::metadata(site().join(name)).unwrap().len();
    let (mut inner, mut chosen): (Vec<String>, Vec<String>) =
        pages().into_iter().partition(|name| name.contains('/'));
    let folder = |name: &String| name.rsplit_once('/').unwrap().0.to_owned();
    inner.sort_by_key(|name| (folder(name), long(name)));
    for of in inner.chunk_by(|one, other| folder(one) == folder(other)) {
        chosen.extend(of.first().cloned());
        chosen.extend(of.last().cloned());
    }
    chosen
}

/// What a program printed; fails with its complaints when it printed nothing.
#[track_caller]
fn said(command: &mut Command, needed: &str) -> String {
    let out = command
        .output()
        .unwrap_or_else(|error| panic!("{needed}: {error}"));
    let text = String::from_utf8(out.stdout).unwrap();
    let complaint = String::from_utf8_lossy(&out.stderr);
    assert!(!text.trim().is_empty(), "{needed}: {complaint}");
    text
}

/// Looks at pages of a folder in the browser; gives what that told.
#[track_caller]
fn told(folder: &Path, wanted: &str, names: &[String]) -> Json {
    let mut node = Command::new("node");
    node.arg(here().join("tests/site_pages/browse.mjs"));
    node.arg(packages()).arg(folder).arg(wanted).args(names);
    serde_json::from_str(&said(&mut node, "node with Chromium")).unwrap()
}

/// What was wrong.
fn wrong(told: &Json) -> Vec<&str> {
    let wrong = told["wrong"].as_array().unwrap();
    wrong.iter().filter_map(Json::as_str).collect()
}

/// Looks at pages of the site; gives how many looks and how many keys that took.
#[track_caller]
fn looked(wanted: &str, names: &[String]) -> (usize, usize) {
    let told = told(&site(), wanted, names);
    assert!(wrong(&told).is_empty(), "{}", wrong(&told).join("\n"));
    let count = |key: &str| usize::try_from(told[key].as_u64().unwrap()).unwrap();
    (count("seen"), count("tabs"))
}

#[test]
fn pages_open_from_a_folder_at_every_width_and_shut_nobody_out() {
    let chosen = sample();
    assert!(chosen.len() >= 20, "{chosen:?}");
    // Three widths of a screen, two papers.
    assert_eq!(looked("looks", &chosen).0, chosen.len() * 5);
}

#[test]
fn no_page_has_a_text_on_another() {
    let all = pages();
    assert_eq!(looked("overlaps", &all).0, all.len());
}

/// The demo's sheets, and those of a shop that works in inches.
#[test]
fn no_sheet_has_a_text_on_another_or_a_line_through_one() {
    for (paper, units) in [("A4", "mm"), ("Letter", "in")] {
        let folder = Folder::empty();
        let print = [
            "print", "--paper", paper, "--units", units, "--out", "sheets",
        ];
        folder.run(&print).code(0);
        let sheets = folder.path().join("sheets");
        let told = told(&sheets, paper, &["all.html".to_owned()]);
        assert_eq!(told["seen"], 1);
        assert!(
            wrong(&told).is_empty(),
            "{paper}: {}",
            wrong(&told).join("\n")
        );
    }
}

/// A page with a text on another and a line through a third, and one with neither.
#[test]
fn an_overlap_is_noticed() {
    let page = |more: &str| {
        format!(
            "<!doctype html><title>x</title><svg viewBox='0 0 300 200' width='300' height='200' \
             stroke='#000'><text x='20' y='40'>one word</text><text x='20' y='120'>another</text>\
             <path d='M20 160L280 160'/>{more}</svg>"
        )
    };
    for (more, wanted) in [
        ("", Vec::new()),
        ("<text x='24' y='42'>upon it</text>", vec!["lies on"]),
        ("<path d='M40 60L40 150'/>", vec!["runs through “another”"]),
        (
            "<circle cx='40' cy='200' r='84' fill='none'/>",
            vec!["runs through “another”"],
        ),
        ("<path stroke='#fff' d='M40 60L40 150'/>", Vec::new()),
    ] {
        let folder = Folder::empty().file("all.html", page(more));
        let told = told(folder.path(), "A4", &["all.html".to_owned()]);
        let found = wrong(&told);
        assert_eq!(found.is_empty(), wanted.is_empty(), "{more}: {found:?}");
        for words in wanted {
            assert!(
                found.iter().any(|one| one.contains(words)),
                "{more}: {found:?}"
            );
        }
    }
}

#[test]
fn tab_alone_reaches_everything_in_order() {
    let chosen = sample();
    let (_, tabs) = looked("keys", &chosen);
    // Each page has the link to its text, the parts of the manual and the search.
    assert!(tabs > chosen.len() * 11, "{tabs}");
}

/// A page's words without its markup, its scripts and what it quotes as typed or as code.
fn words_of(page: &str) -> String {
    let mut text = page.split_once("<main").unwrap().1.to_owned();
    for (open, close) in [
        ("<script", "</script>"),
        ("<code", "</code>"),
        ("<select", "</select>"),
    ] {
        while let Some((before, rest)) = text.split_once(open) {
            text = [before, rest.split_once(close).unwrap().1].concat();
        }
    }
    let outside = text
        .split('<')
        .map(|part| part.split_once('>').map_or(part, |(_, after)| after));
    outside.collect::<Vec<_>>().join(" ")
}

/// A name such as `fence_first` is for those who type it: the pages of the calculators tell them, and
/// how a procedure is written; every other page is for people at a machine. A letter with its mark,
/// such as `S_T` in a book, is none.
#[test]
fn pages_speak_in_words_and_not_in_names() {
    let mut seen = 0;
    for name in pages() {
        if name.starts_with("calculators/") || name == "writing.html" {
            continue;
        }
        let text = words_of(&std::fs::read_to_string(site().join(&name)).unwrap());
        let is_name = |word: &&str| {
            let parts = word.trim_matches(|c: char| !c.is_alphanumeric()).split('_');
            let parts: Vec<&str> = parts.collect();
            parts.len() > 1 && parts.iter().all(|part| part.len() > 1)
        };
        let found: Vec<&str> = text.split_whitespace().filter(is_name).collect();
        assert!(found.is_empty(), "{name}: {found:?}");
        seen += 1;
    }
    assert!(seen > 150, "{seen} pages");
}

#[test]
fn every_page_is_sound_html() {
    let jar = packages().join("node_modules/vnu-jar/build/dist/vnu.jar");
    let mut vnu = Command::new("java");
    vnu.arg("-jar").arg(jar);
    vnu.args(["--stdout", "--exit-zero-always", "--format", "json"]);
    let site = site();
    let all = pages();
    assert!(all.len() > 200, "{} pages", all.len());
    vnu.args(all.iter().map(|name| site.join(name)));
    let told: Json =
        serde_json::from_str(&said(&mut vnu, "java 17 with the HTML checker")).unwrap();
    let faults = told["messages"].as_array().unwrap().iter();
    let faults: Vec<String> = faults
        .map(|one| {
            format!(
                "{} line {}: {}",
                one["url"], one["lastLine"], one["message"]
            )
        })
        .collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
