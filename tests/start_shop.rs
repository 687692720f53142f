//! A new shop: `start` writes it whole or not at all, it is in order, and its first procedure stays
//! so when it is changed as its own comments say.

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

use util::Folder;

const PROCEDURE: &str = "loft/procedures/first-procedure.yaml";
const JOB: &str = "loft/jobs/first-job.yaml";

const FILES: [&str; 7] = [
    "shop.yaml",
    "cutters.yaml",
    "jobs/first-job.yaml",
    "machines.yaml",
    "people.yaml",
    "procedures/first-procedure.yaml",
    "procedures/procedure.schema.json",
];

/// A folder with a new shop in `loft`.
fn started() -> Folder {
    let folder = Folder::empty();
    let run = folder.run(&["start", "loft"]);
    run.code(0).says("cd loft").says("faceside check --watch");
    assert_eq!(run.err(), "");
    folder
}

/// Every file below a folder, sorted, with what is in it.
fn contents(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut all = Vec::new();
    let mut open = vec![folder.to_owned()];
    while let Some(inner) = open.pop() {
        for entry in fs::read_dir(inner).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap();
                all.push((name.to_str().unwrap().to_owned(), fs::read(&path).unwrap()));
            }
        }
    }
    all.sort();
    all
}

fn names(folder: &Path) -> Vec<String> {
    contents(folder).into_iter().map(|(name, _)| name).collect()
}

/// Checks without a word of complaint, prints, and is found: what a maker sees.
#[track_caller]
fn is_in_order(folder: &Folder, title: &str, words: &str, id: &str) -> String {
    let run = folder.run(&["check", "loft"]);
    run.code(0).says("in order");
    assert_eq!(run.err(), "", "no warning either");
    let run = folder.run(&["check", "--shop", "loft"]);
    run.code(0).says("1 job checked: in order");
    assert_eq!(run.err(), "");
    let print = folder.run(&["print", "--plain", "--shop", "loft"]);
    print.code(0).says(title);
    let found = folder.run(&["search", words, "--most", "1", "--shop", "loft"]);
    found.code(0).says(id);
    print.out()
}

#[test]
fn a_new_shop_is_in_order_prints_and_is_found() {
    let folder = started();
    assert_eq!(names(&folder.path().join("loft")), sorted(&FILES));
    let sheet = is_in_order(
        &folder,
        "CUT THE GROOVES",
        "plough groove",
        "first-procedure",
    );
    // 18.3 mm / 4 = 4.575 mm, down to a step of 0.05 mm.
    assert!(sheet.contains("4.55 mm"), "{sheet}");
    // 12 mm and half of 11.95 mm: 17.975 mm, shown to a step.
    assert!(
        sheet.contains("17.9") || sheet.contains("18.00 mm"),
        "{sheet}"
    );
}

fn sorted(names: &[&str]) -> Vec<String> {
    let mut all: Vec<String> = names.iter().map(|name| (*name).to_owned()).collect();
    all.sort();
    all
}

/// The comments of a file as running text, each block of lines joined.
fn comments(text: &str) -> String {
    let lines = text.lines().map(|line| line.trim().strip_prefix('#'));
    lines
        .map(|line| line.map_or("\n", str::trim).to_owned() + " ")
        .collect()
}

/// Every "write `new` in place of `old`" of the comments, in order.
fn replacements(comments: &str) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for part in comments.split("write `").skip(1) {
        let (new, rest) = part.split_once("` in place of `").expect(part);
        let (old, _) = rest.split_once('`').expect(part);
        all.push((old.to_owned(), new.to_owned()));
    }
    all
}

/// Puts `new` for `old` wherever it stands outside a comment; how often it stood there.
fn replace(text: &str, old: &str, new: &str) -> (String, usize) {
    let mut count = 0;
    let lines = text.lines().map(|line| {
        if line.trim_start().starts_with('#') || !line.contains(old) {
            return line.to_owned() + "\n";
        }
        count += 1;
        line.replacen(old, new, 1) + "\n"
    });
    (lines.collect(), count)
}

/// Takes away every `#+ ` at the beginning of a line.
fn uncovered(text: &str) -> (String, usize) {
    let mut count = 0;
    let lines = text.lines().map(|line| {
        if line.trim_start().starts_with("#+ ") {
            count += 1;
            return line.replacen("#+ ", "", 1) + "\n";
        }
        line.to_owned() + "\n"
    });
    (lines.collect(), count)
}

#[test]
fn the_first_procedure_changed_as_its_comments_say_is_in_order_too() {
    let folder = started();
    let (mut procedure, mut job) = (folder.read(PROCEDURE), folder.read(JOB));
    let changes = replacements(&comments(&procedure));
    assert!(changes.len() >= 8, "{changes:?}");
    for (old, new) in &changes {
        let (changed, here) = replace(&procedure, old, new);
        let (changed_job, there) = replace(&job, old, new);
        assert_eq!(here, 1, "`{old}` stands once outside the comments");
        assert_eq!(there > 0, old.starts_with("procedure:"), "{old}");
        (procedure, job) = (changed, changed_job);
    }
    let (procedure, lines) = uncovered(&procedure);
    assert_eq!(lines, 4);
    let folder = folder.file(PROCEDURE, procedure).file(JOB, job);
    let sheet = is_in_order(
        &folder,
        "Groove for a locker back",
        "locker back",
        "locker-back-groove",
    );
    // 18.3 mm * 0.3 = 5.49 mm, down to a step of 0.05 mm.
    assert!(
        sheet.contains("5.45 mm") && !sheet.contains("4.55 mm"),
        "{sheet}"
    );
    for words in [
        "0.25 mm of play",
        "Number the boards",
        "pencil",
        "Brown walls.",
    ] {
        assert!(sheet.contains(words), "{words}\n{sheet}");
    }
}

#[test]
fn each_change_alone_is_in_order_so_that_a_maker_may_stop_anywhere() {
    let text = started().read(PROCEDURE);
    let changes = replacements(&comments(&text));
    for (old, new) in changes
        .iter()
        .filter(|(old, _)| !old.starts_with("procedure:"))
    {
        let folder = started().file(PROCEDURE, replace(&text, old, new).0);
        let run = folder.run(&["check", PROCEDURE, "--shop", "loft"]);
        run.code(0);
        assert_eq!(run.err(), "", "{old} -> {new}");
    }
}

#[test]
fn a_share_that_is_too_large_is_refused_as_the_comment_says() {
    let folder = started();
    let text = folder.read(PROCEDURE);
    assert!(text.contains("Half of the thickness or more would be refused"));
    let deep = replace(&text, "board / 4", "board * 0.55").0;
    let folder = folder.file(PROCEDURE, deep);
    folder
        .run(&["print", "--plain", "--shop", "loft"])
        .code(1)
        .complains("takes more than half of the board");
}

#[test]
fn an_empty_folder_becomes_a_shop_and_other_files_stay() {
    let folder = Folder::empty()
        .file("readme.txt", "sails")
        .file("procedures/drawings/rack.txt", "oars");
    folder.run(&["start"]).code(0);
    let mut all = sorted(&FILES);
    all.extend(["procedures/drawings/rack.txt", "readme.txt"].map(str::to_owned));
    all.sort();
    assert_eq!(names(folder.path()), all);
    assert_eq!(folder.read("readme.txt"), "sails");
    folder.run(&["check"]).code(0);
}

#[test]
fn nothing_is_written_over_and_nothing_is_written_at_all() {
    for taken in FILES {
        let folder = Folder::empty()
            .file(taken, "mine")
            .file("other.txt", "mine");
        let before = contents(folder.path());
        let run = folder.run(&["start"]);
        run.code(1)
            .complains(&format!("{taken}` is there already; nothing was written"));
        assert_eq!(contents(folder.path()), before, "{taken}");
    }
}

#[test]
fn a_second_start_and_a_file_in_the_way_are_refused() {
    let folder = started();
    let before = contents(folder.path());
    folder
        .run(&["start", "loft"])
        .code(1)
        .complains("this folder is a shop");
    folder
        .run(&["start", "loft/shop.yaml"])
        .code(1)
        .complains("is not a folder");
    assert_eq!(contents(folder.path()), before);
}

/// `procedures` is a file, so that the move fails after others were moved.
#[test]
fn a_start_that_fails_half_way_takes_back_what_it_wrote() {
    let folder = Folder::empty().file("jobs", "a list of today's work");
    let before = contents(folder.path());
    folder
        .run(&["start"])
        .code(1)
        .complains("cannot be written");
    assert_eq!(contents(folder.path()), before);
    assert!(!folder.path().join("procedures").exists());
}

#[test]
fn start_answers_in_json() {
    let folder = Folder::empty();
    let answer = folder.run(&["start", "a/b/loft", "--json"]).code(0).json();
    assert_eq!(answer["version"], 1);
    assert_eq!(answer["files"].as_array().unwrap().len(), FILES.len());
    assert_eq!(answer["files"][0], "shop.yaml");
    assert!(folder.path().join("a/b/loft/shop.yaml").is_file());
}
