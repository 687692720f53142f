//! The built site in a browser and before the HTML checker: no page scrolls sideways, complains,
//! asks for anything outside its folder, shuts anybody out (axe-core, WCAG 2.2 AA) or breaks the
//! rules of HTML.
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

use std::path::PathBuf;
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
    let html = |folder: &str| {
        let files = std::fs::read_dir(site.join(folder)).unwrap();
        let names = files.map(|file| file.unwrap().file_name().into_string().unwrap());
        let pages = names.filter(|name| name.ends_with(".html"));
        let prefix = folder.to_owned();
        pages.map(move |name| [prefix.as_str(), &name].concat())
    };
    let mut all: Vec<String> = [
        "",
        "calculators/",
        "cautions/",
        "notes/",
        "procedures/",
        "woods/",
    ]
    .into_iter()
    .flat_map(html)
    .collect();
    all.sort();
    all
}

/// Every page of the top folder, and of each other folder the shortest and the longest.
fn sample() -> Vec<String> {
    let long = |name: &String| std::fs::metadata(site().join(name)).unwrap().len();
    let (inner, mut chosen): (Vec<String>, Vec<String>) =
        pages().into_iter().partition(|name| name.contains('/'));
    for folder in [
        "calculators/",
        "cautions/",
        "notes/",
        "procedures/",
        "woods/",
    ] {
        let of = || inner.iter().filter(|name| name.starts_with(folder));
        chosen.extend(of().min_by_key(|name| long(name)).cloned());
        chosen.extend(of().max_by_key(|name| long(name)).cloned());
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

#[test]
fn pages_open_from_a_folder_at_every_width_and_shut_nobody_out() {
    let chosen = sample();
    assert!(chosen.len() >= 18, "{chosen:?}");
    let mut node = Command::new("node");
    node.arg(here().join("tests/site_pages/browse.mjs"));
    node.arg(packages()).arg(site()).args(&chosen);
    let told: Json = serde_json::from_str(&said(&mut node, "node with Chromium")).unwrap();
    let wrong: Vec<&str> = told["wrong"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(Json::as_str)
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // Each page at three widths.
    assert_eq!(told["seen"], chosen.len() * 3);
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
