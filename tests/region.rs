//! A shop reads the words of its own side of the Atlantic, and nothing but words changes.
//!
//! Pairs of words: Noyes, *Handwork in Wood* (1910), pp. 101-102, 157-158, 167 (dado, rabbet,
//! miter, handscrew and clamp); the tables of `reference/joinery.md` section 1.
#![cfg(feature = "program")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::borrow::Cow;
use std::fs;
use std::path::Path;

use faceside::diag::Source;
use faceside::search::{Speech, Terms};
use faceside::shop::Region;
use util::{Folder, here};

fn terms() -> Terms {
    let path = here().join("procedures/terms.yaml");
    let (terms, faults) = Terms::read(&Source::new(
        "terms.yaml",
        fs::read_to_string(path).unwrap(),
    ));
    assert!(faults.is_empty(), "{faults:?}");
    terms
}

fn american() -> Speech {
    Speech::of(Region::American, &terms())
}

/// The demo shop with its job, in a folder of its own.
fn shop(region: &str) -> Folder {
    let folder = Folder::empty();
    copy(&here().join("procedures/shop"), folder.path());
    let text = folder.read("shop.yaml");
    assert!(text.contains("region: british"));
    let text = text.replace("region: british", &format!("region: {region}"));
    folder.file("shop.yaml", text)
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &target);
        } else {
            fs::copy(&path, &target).unwrap();
        }
    }
}

/// Words of a text, in small letters; names joined by hyphens are one word, as are paths.
fn words(text: &str) -> Vec<String> {
    text.split(|c: char| !(c.is_alphanumeric() || matches!(c, '-' | '_' | '/' | '.')))
        .map(|word| word.trim_matches(['.', '-']).to_lowercase())
        .filter(|word| !word.is_empty())
        .collect()
}

fn has(text: &str, word: &str) -> bool {
    words(text).iter().any(|one| one == word)
}

/// Text of a page, tags and style taken off.
fn seen(html: &str) -> String {
    let mut out = String::new();
    let body = html.split("<body").nth(1).unwrap_or(html);
    for part in body.split('<') {
        out.push_str(part.split_once('>').map_or(part, |(_, text)| text));
        out.push(' ');
    }
    out
}

#[test]
fn words_give_way_with_their_forms_and_capitals() {
    let speech = american();
    for (british, american) in [
        ("Cut the housing.", "Cut the dado."),
        ("Housings, then REBATES.", "Dadoes, then RABBETS."),
        ("a stopped housing", "a stopped dado"),
        (
            "Cramp it; it is cramped; cramping.",
            "Clamp it; it is clamped; clamping.",
        ),
        (
            "The cramp's jaw, both cramps' jaws.",
            "The clamp's jaw, both clamps' jaws.",
        ),
        (
            "Rebate it, rebated, rebating.",
            "Rabbet it, rabbeted, rabbeting.",
        ),
        (
            "A mitre is mitred at the mitre saw.",
            "A miter is mitered at the miter saw.",
        ),
        ("Plough, ploughed.", "Plow, plowed."),
        ("an end halving", "an end lap"),
        ("dovetail  halving", "dovetail  half lap"),
        (
            "Comb joints\nand a comb\njoint",
            "Box joints\nand a box joint",
        ),
        ("A lapped dovetail", "A half-blind dovetail"),
        ("G-cramps and sash cramps", "C-clamps and bar clamps"),
        ("An offcut falls; an offcut", "A cutoff falls; a cutoff"),
        ("a lipping", "an edge banding"),
        (
            "a housing (dado) of any width",
            "a dado (housing) of any width",
        ),
        ("the thicknesser", "the thickness planer"),
        ("a mortise and its tenon", "a mortise and its tenon"),
    ] {
        assert_eq!(speech.say(british), american);
    }
}

#[test]
fn what_is_no_running_text_stays() {
    let speech = american();
    for text in [
        "through-housing, revision 3",
        "see notes/rebate.md or rebate.yaml",
        "[housing](procedure:rebate)".trim_start_matches("[housing]"),
        "`rebate` and {housing.fence_first}",
        "https://example.invalid/housing",
        "housing_depth",
        "housing=3",
        "the rehousing of crampons",
        "",
        "½ 🪚 {",
    ] {
        assert_eq!(speech.say(text), text);
    }
}

#[test]
fn a_british_shop_reads_the_library_as_it_is_written() {
    let terms = terms();
    let speech = Speech::of(Region::British, &terms);
    assert!(!speech.changes() && !Speech::default().changes());
    for term in &terms.terms {
        assert!(matches!(speech.say(&term.means), Cow::Borrowed(text) if text == term.means));
    }
    let text = shop("british").run(&["print", "--plain"]).code(0).out();
    let demo = Folder::empty().run(&["print", "--plain"]).code(0).out();
    assert_eq!(text, demo);
    assert!(has(&text, "housing") && !has(&text, "dado"));
}

#[test]
fn each_word_is_said_once_however_often_it_is_asked() {
    let speech = american();
    for term in &terms().terms {
        let once = speech.say(&term.means).into_owned();
        if !once.contains('(') {
            assert_eq!(speech.say(&once), once);
        }
    }
}

#[test]
fn an_american_shop_prints_dado_and_clamp() {
    let folder = shop("american");
    let text = folder.run(&["print"]).code(0).out();
    assert!(
        has(&text, "dado") && (has(&text, "clamp") || has(&text, "clamps")),
        "{text}"
    );
    let html = seen(&folder.read("out/boathouse-lockers/all.html"));
    for (medium, text) in [("terminal", &text), ("paper", &html)] {
        let running = without_shops_own(text);
        for british in [
            "housing", "housings", "cramp", "cramps", "cramped", "rebate", "rebates", "mitre",
        ] {
            assert!(!has(&running, british), "{british} on {medium}:\n{running}");
        }
    }
}

/// Citations, calculators' names and cutters' names stay as they were written.
fn without_shops_own(text: &str) -> String {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut out = text.replace("worked out: housing", "");
    for cited in [
        "Where the cautions come from",
        "WHERE THE CAUTIONS COME FROM",
    ] {
        if let Some((before, rest)) = out.clone().split_once(cited) {
            let after = rest
                .split_once("Signal words")
                .or(rest.split_once("SIGNAL WORDS"));
            out = format!("{before}{}", after.map_or("", |(_, after)| after));
        }
    }
    out
}

#[test]
fn ids_and_names_of_files_are_the_same_on_both_sides() {
    let names = |region: &str| {
        let folder = shop(region);
        folder.run(&["print"]).code(0);
        let read = fs::read_dir(folder.path().join("out/boathouse-lockers")).unwrap();
        let mut names: Vec<_> = read.map(|entry| entry.unwrap().file_name()).collect();
        names.sort();
        names
    };
    assert_eq!(names("british"), names("american"));
    let json = |region: &str| shop(region).run(&["--json", "print", "--plain"]).json();
    let (one, other) = (json("british"), json("american"));
    assert_eq!(one["checklists"], other["checklists"]);
}

#[test]
fn lesson_and_search_speak_american_too() {
    let folder = shop("american");
    let sheet = folder
        .run(&["train", "through-housing", "--sheet"])
        .code(0)
        .out();
    assert!(has(&sheet, "dado") && !has(&sheet, "housing"), "{sheet}");
    folder.run(&["search", "housing"]).code(0).says("dado");
    let plain = shop("british")
        .run(&["train", "through-housing", "--sheet"])
        .out();
    assert!(has(&plain, "housing") && !has(&plain, "dado"));
}

#[test]
fn the_site_speaks_american_but_cites_as_it_was_written() {
    let folder = shop("american");
    folder.run(&["site"]).code(0);
    let note = seen(&folder.read("out/site/notes/undersize-sheet.html"));
    assert!(
        note.contains("A dado cut with") && note.contains("through dado"),
        "{note}"
    );
    let words = seen(&folder.read("out/site/words.html"));
    let row = |term: &str| words.find(term).unwrap_or_else(|| panic!("no {term}"));
    assert!(row("dado") < row("housing") && row("clamp") < row("cramp"));
    let procedure = seen(&folder.read("out/site/procedures/through-housing.html"));
    assert!(procedure.contains("Through dado"), "{procedure}");
    let calculator = seen(&folder.read("out/site/calculators/housing.html"));
    assert!(calculator.contains("figure housing"), "{calculator}");
    let british = shop("british");
    british.run(&["site"]).code(0);
    let note = seen(&british.read("out/site/notes/undersize-sheet.html"));
    // Below it stand titles of procedures, and a dado head is called so on both sides.
    let (note, _) = note.split_once("Bears on").unwrap();
    assert!(note.contains("A housing cut with") && !has(note, "dado"));
}

#[test]
fn a_term_that_is_shown_needs_its_american_word() {
    let text = "terms:\n  - {term: sinking, shown: true, means: m, source: s}\n";
    let (_, faults) = Terms::read(&Source::new("terms.yaml", text));
    let codes: Vec<_> = faults.iter().map(|fault| fault.code.name()).collect();
    assert_eq!(codes, ["missing-key"]);
    let own = "terms:\n  - {term: rebate, american: ledge, shown: true, means: m, source: s}\n";
    let mut all = terms();
    all.overlay(Terms::read(&Source::new("terms.yaml", own)).0);
    assert_eq!(
        Speech::of(Region::American, &all).say("A rebate."),
        "A ledge."
    );
}
