//! Each command as a new user types it: alone, in an empty folder, with a slip, as JSON.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;

use util::{Folder, demo_shop, program};

#[test]
fn usage_is_told_and_ends_with_2() {
    let folder = Folder::empty();
    folder.run(&[]).code(2).complains("Commands:");
    folder
        .run(&["serch", "x"])
        .code(2)
        .complains("similar subcommand exists: 'search'");
    folder.run(&["search"]).code(2);
    folder
        .run(&["train", "stoped-housing"])
        .code(2)
        .complains("did you mean `stopped-housing`?");
    folder
        .run(&["train", "stopped-housing"])
        .code(2)
        .complains("--person");
    folder
        .run(&["print", "boathouse-lokers"])
        .code(2)
        .complains("`boathouse-lockers`");
    folder
        .run(&["figure", "housng"])
        .code(2)
        .complains("did you mean `housing`?");
    folder
        .run(&["figure", "housing", "widht=17mm"])
        .code(2)
        .complains("did you mean `width`?");
    folder
        .run(&["figure", "housing", "width"])
        .code(2)
        .complains("name and a value");
    folder
        .run(&["figure", "housing", "cutter=12"])
        .code(2)
        .complains("`width`");
    folder
        .run(&["check", "--explain", "slot-unknow"])
        .code(2)
        .complains("`slot-unknown`");
    folder.run(&["--version"]).code(0).says("faceside");
    assert!(
        fs::read_dir(folder.path()).unwrap().next().is_none(),
        "nothing was written"
    );
}

/// joinery.md 3.1 (derived there): m = D - 2 h tan a, e = (T - m) / 2, k = (T - D) / 2.
#[test]
fn figure_answers_in_the_documented_json() {
    let values = ["stock=19mm", "cutter=12.7mm", "angle=14deg", "depth=9.5mm"];
    let arguments = [&["figure", "sliding-dovetail"], &values[..], &["--json"]].concat();
    let json = Folder::empty().run(&arguments).code(0).json();
    let mm = |name: &str| json["results"][name]["mm"].as_f64().unwrap();
    for (name, expected) in [("mouth", 7.96277), ("exposure", 5.51862), ("end_cut", 3.15)] {
        assert!((mm(name) - expected).abs() < 1e-5, "{name}: {}", mm(name));
        assert_eq!(json["results"][name]["kind"], "length");
        assert!(
            json["results"][name]["shown"]
                .as_str()
                .unwrap()
                .ends_with(" mm")
        );
    }
    assert_eq!(json["calculator"], "sliding-dovetail");
    assert!(json["given"]["stock"]["mm"] == 19.0 && json["warnings"].is_array());
    let thin = [
        "figure",
        "sliding-dovetail",
        "stock=10mm",
        "cutter=12.7mm",
        "angle=14deg",
        "depth=5mm",
        "--json",
    ];
    let refused = Folder::empty().run(&thin).code(1).json();
    for key in ["what", "is", "may_be", "instead"] {
        assert!(
            !refused["refused"][key].as_str().unwrap().is_empty(),
            "{key}"
        );
    }
}

/// joinery.md section 1: housing = dado, stopped = blind (Navy manual, Noyes no. 29); sliding
/// dovetail = dovetail grooving, dovetail dado (Fairham p. 160, Noyes no. 28).
#[test]
fn search_finds_the_right_procedure_first() {
    for (words, id) in [
        ("stopped housing", "stopped-housing"),
        ("blind dado", "stopped-housing"),
        ("stoped housng", "stopped-housing"),
        ("dovetail groove", "sliding-dovetail"),
    ] {
        let json = Folder::empty()
            .run(&["search", words, "--json"])
            .code(0)
            .json();
        let first = &json["hits"][0];
        assert_eq!(
            (first["kind"].as_str(), first["id"].as_str()),
            (Some("procedure"), Some(id))
        );
        assert!(first["next"].as_str().unwrap().starts_with("faceside "));
        assert!(!first["context"].as_array().unwrap().is_empty());
    }
    let none = Folder::empty();
    none.run(&["search", "zzzzqqqq"])
        .code(1)
        .says("Nothing is known");
    none.run(&["search", "((("]).code(1);
}

#[test]
fn a_shop_is_found_here_above_by_flag_and_by_environment() {
    let folder = demo_shop();
    let inner = folder.path().join("jobs");
    let runs = [
        program().arg("check").current_dir(&inner).output().unwrap(),
        program()
            .args(["check", "--shop"])
            .arg(folder.path())
            .output()
            .unwrap(),
        program()
            .arg("check")
            .env("FACESIDE_SHOP", folder.path())
            .output()
            .unwrap(),
    ];
    for run in runs {
        assert!(
            run.status.success(),
            "{}",
            String::from_utf8_lossy(&run.stderr)
        );
    }
    Folder::empty()
        .run(&["check", "--shop", "nowhere"])
        .code(1)
        .complains("holds no `shop.yaml`");
}

#[test]
fn print_writes_whole_folders_of_its_own_only() {
    let folder = Folder::empty();
    folder
        .run(&["print", "--units", "in"])
        .code(0)
        .says("all.html")
        .says(" in");
    let out = folder.path().join("out/boathouse-lockers");
    let count = fs::read_dir(&out).unwrap().count();
    folder
        .run(&["print", "--paper", "Letter"])
        .code(0)
        .says("Letter");
    assert_eq!(fs::read_dir(&out).unwrap().count(), count);
    let mine = folder.file("mine/letter.txt", "to keep");
    mine.run(&["print", "--out", "mine"])
        .code(1)
        .complains("mine");
    assert_eq!(mine.read("mine/letter.txt"), "to keep");
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    use std::process::Stdio;
    let mut child = program()
        .args(["print", "--plain"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success());
    assert!(
        output.stderr.is_empty(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
}

#[test]
fn the_site_asks_nothing_of_the_network() {
    let folder = Folder::empty();
    folder.run(&["site"]).code(0).says("index.html");
    let page = folder.read("out/site/procedures/stopped-housing.html");
    // The search, the live numbers, and the data that they begin with.
    let ours = [
        "defer src=\"../search.js\"",
        "defer src=\"../live.js\"",
        "type=\"application/json\"",
    ];
    for one in ours {
        assert!(page.contains(&format!("<script {one}>")), "{one}");
    }
    assert_eq!(page.matches("<script").count(), ours.len());
    assert!(!page.contains("src=\"http"));
    assert!(page.contains("Seen from above the cutter turns anticlockwise"));
    assert!(page.contains("<svg"));
}
