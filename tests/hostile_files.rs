//! Files that no maker would write on purpose, or that a disk, an editor or a joker left behind:
//! each is told clearly and soon, no other file suffers, and nothing hangs or runs out of memory.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::os::unix::fs::symlink;
use std::process::Command;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use faceside::diag::Faults;
use faceside::procedure::{check, load};
use faceside::store::Workshop;
use faceside::yaml::source;
use util::Folder;

/// The most that a hostile file may take until it is told (issue 4); a debug build is several
/// times slower.
const BOUND: Duration = Duration::from_secs(if cfg!(debug_assertions) { 4 } else { 2 });

/// What the parser may be given by one file.
const MOST: usize = 128 * 1024;

const HOSTILE: &str = "procedures/hostile.yaml";

/// Another file with a fault of its own, to see that it is still checked.
const OTHER: (&str, &str) = ("procedures/other.yaml", "procedure: other\ntitel: Other\n");

fn started() -> Folder {
    let folder = Folder::empty();
    folder.run(&["start"]).code(0);
    folder
}

fn first_procedure() -> &'static str {
    static TEXT: OnceLock<String> = OnceLock::new();
    TEXT.get_or_init(|| {
        let text = started().read("procedures/first-procedure.yaml");
        text.replace("procedure: first-procedure", "procedure: hostile")
    })
}

/// Checks the shop once; each of the names must be told with its words, and the fault of the other
/// file too. Ten hostile files together may take ten times what one may, on top of the rest.
#[track_caller]
fn are_told(folder: &Folder, told: &[(&str, &str)]) {
    let began = Instant::now();
    let run = folder.run(&["check"]);
    let time = began.elapsed();
    run.code(1).complains(OTHER.0).complains("titel");
    for (name, words) in told {
        run.complains(name).complains(words);
    }
    assert!(!run.err().contains("panicked"), "{}", run.err());
    assert!(time < BOUND * 20, "{time:?}");
}

/// As much of a text as is read of one file.
fn cut(text: String) -> Vec<u8> {
    let mut bytes = text.into_bytes();
    bytes.truncate(MOST);
    bytes
}

/// Nine lists of nine of the list before: 3.5 thousand million texts when they are written out.
fn alias_bomb() -> String {
    let mut text = format!("a: &a [{}]\n", ["x"; 9].join(", "));
    for (before, name) in ('a'..='i').zip('b'..='j') {
        let all = vec![format!("*{before}"); 9].join(", ");
        text += &format!("{name}: &{name} [{all}]\n");
    }
    text
}

/// A name, a text, and what is said of it.
type Text = (&'static str, Vec<u8>, &'static str);

fn text(name: &'static str, text: impl Into<String>, words: &'static str) -> Text {
    (name, cut(text.into()), words)
}

/// A line with its number in it, as often as a file takes it.
fn lines(line: &str) -> String {
    let number = |n: usize| line.replace("{n}", &n.to_string()) + "\n";
    let text: String = (0..30_000).map(number).collect();
    let end = text[..text.len().min(MOST)].rfind('\n');
    text[..=end.unwrap()].to_owned()
}

/// What no parser likes.
fn bad_yaml() -> Vec<Text> {
    let list = |item: &str| "a:\n".to_owned() + &lines(item);
    vec![
        text("alias bomb", alias_bomb(), "aliases of the file expand"),
        text("brackets", "[".repeat(10_000), "brackets are open at once"),
        text("braces", "{a: ".repeat(10_000), "brackets are open at once"),
        text(
            "lists",
            "- ".repeat(10_000) + "x\n",
            "nested deeper than 128",
        ),
        text("keys", "? ".repeat(10_000) + "x\n", "a key is not a text"),
        ("one line", vec![b'a'; 50_000_000], "larger than 128 KB"),
        ("50 MB", b"a: b\n".repeat(10_000_000), "larger than 128 KB"),
        text("twice", "a: 1\na: 2\n", "`a` is given twice"),
        text("often", lines("title: x"), "more of the kind"),
        text("pairs", lines("k{n}: 1\nk{n}: 2"), "more of the kind"),
        text("no values", list("  -"), "has no value"),
        text("tags", list("  - !x y"), "with `!` in front"),
        text("merges", list("  - <<: 1"), "merge key"),
        text("unknown", lines("u{n}: 1"), "the key `u0` is not known"),
        text("tab", "a: b\n\ttitle: x\n", "a tab stands where"),
        text("tab below", "a:\n\tb: none\n", "a tab stands where"),
        (
            "Latin-1",
            b"a: ma\xdf\n".to_vec(),
            "is not UTF-8 (byte 0xDF)",
        ),
        (
            "UTF-16",
            b"\xff\xfep\0r\0o\0".to_vec(),
            "the file is UTF-16",
        ),
        ("no text", b"a: a\0b\n".to_vec(), "holds a NUL"),
        text("nothing", "# later\n", "the file is empty"),
        text(
            "documents",
            lines("---\na: 1"),
            "a second document begins here",
        ),
    ]
}

/// The first procedure, under another id and with something in the place of something else.
fn changed(id: &'static str, old: &str, new: &str, words: &'static str) -> Text {
    let first = first_procedure().replace("procedure: hostile", &format!("procedure: {id}"));
    assert!(first.contains(old));
    text(id, first.replace(old, new), words)
}

/// What can be read, and should not have been written.
fn bad_procedures() -> Vec<Text> {
    let first = first_procedure();
    let steps = "      - do: Ifs {nothing}.\n".repeat(3000);
    let formula = |n: usize| format!("  w{n}: board + nix\n");
    let formulas: String = (0..2500).map(formula).collect();
    let deep = "(".repeat(20_000) + "board";
    let torn = first.split("Measure a third").next().unwrap();
    let (step, play) = ("      - use: clear-router-table ", "  play: ");
    vec![
        changed(
            "steps",
            step,
            &(steps + step),
            "no value is called `nothing`",
        ),
        changed(
            "formulas",
            play,
            &(formulas + play),
            "nothing is named `nix` here",
        ),
        changed("deep", "board / 4", &deep, "at most 4096 bytes long"),
        text(
            "two",
            format!("{first}---\n{first}"),
            "a second document begins here",
        ),
        text("torn", torn, "a quoted text is not closed"),
    ]
}

fn texts() -> Vec<Text> {
    [bad_yaml(), bad_procedures()].concat()
}

#[test]
fn texts_are_told_and_the_other_files_are_checked() {
    let mut folder = started().file(OTHER.0, OTHER.1);
    let texts = texts();
    let names: Vec<String> = (0..texts.len())
        .map(|at| format!("procedures/hostile-{at}.yaml"))
        .collect();
    for ((_, bytes, _), name) in texts.iter().zip(&names) {
        folder = folder.file(name, bytes);
    }
    let told = texts.iter().zip(&names);
    let told: Vec<_> = told.map(|((.., words), name)| (&**name, *words)).collect();
    are_told(&folder, &told);
}

/// What the program does with one file of a shop until its faults are told: read, loaded, checked,
/// the place of each fault found.
fn places(bytes: &[u8], workshop: &Workshop) -> usize {
    let mut faults = Faults::new();
    if let Some(source) = faults.keep(source(HOSTILE, bytes)) {
        let (procedure, told) = load(&source, &workshop.routines);
        faults.extend(told);
        if let Some(procedure) = procedure {
            faults.extend(check(&procedure, workshop.place()));
        }
    }
    let told = faults.told();
    for span in told.iter().filter_map(|fault| fault.span.as_ref()) {
        span.line_column();
    }
    told.len()
}

/// How long this thread has had a processor, so that a busy machine fails nothing; where the system
/// does not tell, the time of day.
fn worked() -> Duration {
    static BEGAN: OnceLock<Instant> = OnceLock::new();
    let told = fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = told.and_then(|told| told.split(' ').next()?.parse().ok());
    let clock = || BEGAN.get_or_init(Instant::now).elapsed();
    nanoseconds.map_or_else(clock, Duration::from_nanos)
}

#[test]
fn each_text_takes_no_longer_than_the_bound() {
    let (workshop, _) = Workshop::open(None, None).unwrap();
    for (name, bytes, _) in texts() {
        let began = worked();
        assert!(places(&bytes, &workshop) > 0, "{name}");
        let took = worked() - began;
        assert!(took <= BOUND, "{name}: {took:?}");
    }
}

/// What no text is: a way to make it, where, and what is said.
type Thing = (fn(&Folder, &str), &'static str, &'static str);

fn pipe(folder: &Folder, name: &str) {
    let made = Command::new("mkfifo")
        .arg(folder.path().join(name))
        .status();
    assert!(made.unwrap().success());
}

fn subfolder(folder: &Folder, name: &str) {
    fs::create_dir_all(folder.path().join(name)).unwrap();
}

fn link_to_itself(folder: &Folder, name: &str) {
    let path = folder.path().join(name);
    symlink(path.file_name().unwrap(), &path).unwrap();
}

fn link_to_the_shop(folder: &Folder, name: &str) {
    symlink(folder.path(), folder.path().join(name)).unwrap();
}

#[test]
fn pipes_folders_and_rings_of_links_are_told_and_nobody_waits() {
    let things: [Thing; 9] = [
        (pipe, "procedures/pipe.yaml", "it is not a plain file"),
        (pipe, "jobs/pipe.yaml", "it is not a plain file"),
        (pipe, "record/2025.jsonl", "it is not a plain file"),
        (subfolder, "procedures/x.yaml", "it is a folder"),
        (subfolder, "record/2026.jsonl", "it is not a plain file"),
        (subfolder, "terms.yaml", "it is a folder"),
        (link_to_itself, "procedures/self.yaml", "symbolic link"),
        (link_to_itself, "record/2027.jsonl", "symbolic link"),
        (link_to_the_shop, "procedures/ring", "is not entered"),
    ];
    let notes: [Thing; 2] = [
        (link_to_itself, "notes", "symbolic link"),
        (link_to_the_shop, "notes", "is not entered"),
    ];
    for note in notes {
        let folder = started().file(OTHER.0, OTHER.1);
        subfolder(&folder, "record");
        let all: Vec<Thing> = things.iter().copied().chain([note]).collect();
        let made = all.iter().map(|(make, name, words)| {
            make(&folder, name);
            (*name, *words)
        });
        let told: Vec<_> = made.collect();
        are_told(&folder, &told);
    }
}

#[test]
fn the_same_in_the_place_of_every_other_file_of_a_shop() {
    let unknown: String = (0..9000).map(|n| format!("u{n}: 1\n")).collect();
    let texts = [
        (cut(alias_bomb()), "aliases"),
        (cut("a: 1\n".repeat(20_000)), "twice"),
        (cut(unknown), ""),
    ];
    let names = [
        "shop.yaml",
        "machines.yaml",
        "cutters.yaml",
        "terms.yaml",
        "routines.yaml",
        "cautions/hostile.yaml",
        "jobs/hostile.yaml",
    ];
    for (bytes, words) in texts {
        let mut folder = started()
            .file(OTHER.0, OTHER.1)
            .file("notes/hostile.md", "a".repeat(MOST + 1));
        for name in names {
            folder = folder.file(name, &bytes);
        }
        let told = names.map(|name| (name, words));
        are_told(
            &folder,
            &[&told[..], &[("notes/hostile.md", "larger than 128 KB")]].concat(),
        );
    }
}

#[test]
fn line_ends_of_another_system_and_a_byte_order_mark_are_no_fault() {
    let first = first_procedure();
    let folder = started()
        .file(HOSTILE, format!("\u{feff}{}", first.replace('\n', "\r\n")))
        .file("notes/varnish.md", "\u{feff}---\r\nnote: varnish\r\ntitle: Varnish\r\nabout: [hostile]\r\n---\r\nThin coats.\r\n");
    let run = folder.run(&["check"]);
    run.code(0);
    assert_eq!(run.err(), "");
    folder
        .run(&["search", "plough", "groove"])
        .code(0)
        .says("hostile");
}

#[test]
fn a_named_file_or_folder_is_told_too() {
    let folder = started().file("bomb.yaml", "procedure: x\n".to_owned() + &alias_bomb());
    pipe(&folder, "pipe.yaml");
    subfolder(&folder, "x.yaml");
    link_to_itself(&folder, "ring.yaml");
    for (name, words) in [
        ("bomb.yaml", "aliases of the file expand"),
        ("pipe.yaml", "it is not a plain file"),
        ("x.yaml", "`x.yaml` holds no `shop.yaml`"),
        ("ring.yaml", "symbolic link"),
    ] {
        folder.run(&["check", name]).code(1).complains(words);
    }
}

#[test]
fn of_many_faults_the_first_are_told_and_the_rest_counted_in_json_too() {
    let texts = bad_procedures();
    let steps = texts.iter().find(|(name, ..)| *name == "steps");
    let folder = started().file(HOSTILE, &steps.unwrap().1);
    let run = folder.run(&["check", "--json"]);
    let answer = run.code(1).json();
    let faults = answer["faults"].as_array().unwrap();
    assert_eq!(faults.len(), 41, "{:?}", faults.last());
    assert_eq!(faults[40]["code"], "file-limit");
    let told = folder.run(&["check"]).err();
    assert!(
        told.ends_with("3000 errors, 3000 warnings\n") && told.lines().count() < 1000,
        "{told}"
    );
}
