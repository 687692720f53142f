//! `check --watch`: the verdict comes anew when a file changes, whole or half written.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;

use util::Folder;
use util::watching::{Watching, is_time, started};

const PROCEDURE: &str = "procedures/first-procedure.yaml";

#[test]
fn each_change_gets_its_verdict_with_the_time() {
    let folder = started();
    let watching = Watching::begin(&folder, &["check", "--watch"]);
    let first = watching.next();
    assert!(is_time(&first) && first.ends_with("in order"), "{first}");
    let whole = folder.read(PROCEDURE);
    let path = folder.path().join(PROCEDURE);

    // Half of the file, as an editor leaves it for a moment; cut within a quoted text.
    let half = whole.find("Measure a third time").unwrap();
    fs::write(&path, &whole[..half]).unwrap();
    watching.comes("errors above");

    // Another file under its name, as most editors save.
    let beside = folder.path().join("procedures/.first-procedure.yaml.new");
    fs::write(&beside, &whole).unwrap();
    fs::rename(&beside, &path).unwrap();
    watching.comes("in order");

    // A folder that was not there when the watch began.
    fs::create_dir(folder.path().join("notes")).unwrap();
    watching.comes("in order");
    fs::write(folder.path().join("notes/varnish.md"), "# Varnish\n").unwrap();
    watching.comes("errors above");
}

#[test]
fn what_is_not_read_wakes_nobody() {
    let folder = started();
    let watching = Watching::begin(&folder, &["check", "--watch"]);
    watching.next();
    fs::create_dir(folder.path().join("out")).unwrap();
    fs::write(folder.path().join("out/page.html"), "pages").unwrap();
    fs::write(folder.path().join("plan.txt"), "a plan").unwrap();
    fs::write(folder.path().join("jobs/.first-job.yaml.swp"), "draft").unwrap();
    folder.run(&["search", "groove"]).code(0);
    watching.is_silent();
}

#[test]
fn a_file_that_is_named_is_watched_and_json_comes_a_line_each_time() {
    let folder = started();
    let watching = Watching::begin(&folder, &["check", "--watch", PROCEDURE, "--json"]);
    let verdict = |line: String| -> serde_json::Value { serde_json::from_str(&line).unwrap() };
    let first = verdict(watching.next());
    assert_eq!(first["faults"], serde_json::json!([]));
    assert!(is_time(first["time"].as_str().unwrap()));
    let wrong = folder.read(PROCEDURE).replace("title:", "titel:");
    fs::write(folder.path().join(PROCEDURE), wrong).unwrap();
    let second = verdict(watching.next());
    assert_eq!(second["faults"][0]["code"], "unknown-key");
}

#[test]
fn without_a_shop_there_is_nothing_to_watch() {
    let run = Folder::empty().run(&["check", "--watch"]);
    run.code(2).complains("the built-in library never changes");
    let run = Folder::empty().run(&["check", "--watch", "nowhere.yaml"]);
    run.code(1).complains("nowhere.yaml` cannot be watched");
}

#[cfg(target_os = "linux")]
#[test]
fn the_interrupt_of_ctrl_c_ends_it() {
    let folder = started();
    let mut watching = Watching::at_a_terminal(&folder, &["check", "--watch"]);
    watching.next();
    let ended = watching.interrupt();
    assert!(!ended.success(), "ended by the signal: {ended}");
}
