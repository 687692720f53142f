//! What is typed at the machine finds the right page first.
//!
//! Expected answers come from synonym lists outside the project, named beside each check:
//! Fairham, *Woodwork Joints* (F); Noyes, *Handwork in Wood*, 1910 (N); Griffith, *Essentials of
//! Woodworking*, 1908 (G). The entries are a small fixture in the shape of the built-in library,
//! with the terms and notes of `procedures/` themselves.
#![cfg(feature = "program")]
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops where it fails"
)]

use std::path::Path;
use std::sync::LazyLock;

use faceside::diag::Source;
use faceside::search::{Entry, EntryKind, Hit, Index, Note, Terms};

fn text(path: &Path) -> std::sync::Arc<Source> {
    #[expect(clippy::disallowed_methods, reason = "tests read the built-in library")]
    let text = std::fs::read_to_string(path).expect("the library's files can be read");
    Source::new(path.display().to_string(), text)
}

fn library() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/procedures"))
}

fn terms() -> Terms {
    let (terms, faults) = Terms::read(&text(&library().join("terms.yaml")));
    assert!(faults.is_empty(), "{faults:?}");
    terms
}

fn notes() -> Vec<Note> {
    let folder = std::fs::read_dir(library().join("notes")).expect("the notes can be listed");
    let paths = folder.map(|entry| entry.expect("an entry").path());
    let mut paths: Vec<_> = paths.filter(|path| !path.ends_with("README.md")).collect();
    paths.sort();
    let read = |path: &std::path::PathBuf| Note::read(&text(path)).expect("a note can be read");
    paths.iter().map(read).collect()
}

fn entry(kind: EntryKind, id: &str, title: &str, also: &[&str], body: &[&str]) -> Entry {
    Entry {
        kind,
        id: id.to_owned(),
        title: title.to_owned(),
        also: also.iter().map(|name| (*name).to_owned()).collect(),
        summary: body[0].to_owned(),
        body: body[1..].iter().map(|text| (*text).to_owned()).collect(),
        next: format!("faceside print --procedure {id}"),
    }
}

/// Four procedures, a caution and a record, with every common word in more than one of them.
fn entries() -> Vec<Entry> {
    let (procedure, caution) = (EntryKind::Procedure, EntryKind::Caution);
    let mut entries = vec![
        entry(
            procedure,
            "through-housing",
            "Through housing at the router table",
            &["housing", "dado", "through dado", "trench"],
            &[
                "Carries a shelf in an upright where the front edge may show the joint.",
                "Set the cutter above the table. Measure the shelf with a caliper.",
                "Cut the housing in two passes, the second on the wall further from the fence.",
            ],
        ),
        entry(
            procedure,
            "stopped-housing",
            "Stopped housing at the router table",
            &["stopped dado", "stopped trench"],
            &[
                "Carries a shelf in an upright without showing at the front edge.",
                "Clamp a stop block to the fence. Cut the open end first, then the housing.",
                "Cut the notch at the front of the shelf with a saw.",
            ],
        ),
        entry(
            procedure,
            "sliding-dovetail",
            "Sliding dovetail at the router table",
            &["dovetail housing"],
            &[
                "Holds a shelf in an upright so that it cannot be pulled out.",
                "Cut the socket in one pass with the dovetail cutter, 3/4 in stock upwards.",
                "Creep up on the tail from both faces with the push-block behind.",
            ],
        ),
        entry(
            procedure,
            "one-sided-sliding-dovetail",
            "One-sided sliding dovetail",
            &["barefaced dovetail housing", "housed sliding dovetail"],
            &[
                "Holds a shelf with one sloped side and one square shoulder.",
                "Cut the housing with the straight cutter first, then the sloped wall.",
            ],
        ),
        entry(
            caution,
            "rt-no-trap",
            "Never between cutter and fence",
            &[],
            &[
                "The work never runs between the cutter and the fence of a router table.",
                "To widen a housing, move the fence; keep hands behind the push block.",
            ],
        ),
        entry(
            EntryKind::Record,
            "2026-11-20-1",
            "Lockers, stopped housing cut",
            &[],
            &["Shelf 17.6 mm, mouth 17.7 mm, depth 6 mm, hand press."],
        ),
    ];
    entries.extend(terms().entries());
    entries.extend(notes().iter().map(Note::entry));
    entries
}

/// Built once: what is asked does not change it.
fn index() -> &'static Index {
    static INDEX: LazyLock<Index> = LazyLock::new(built);
    &INDEX
}

fn built() -> Index {
    Index::build(&entries(), &terms()).expect("the index is built")
}

fn find(words: &str) -> Vec<Hit> {
    index().find(words, 10).expect("the index is read")
}

#[track_caller]
fn first(words: &str) -> (EntryKind, String) {
    let hits = find(words);
    let first = hits
        .first()
        .unwrap_or_else(|| panic!("`{words}` finds nothing"));
    (first.kind, first.id.clone())
}

#[track_caller]
fn finds_procedure(words: &str, id: &str) {
    assert_eq!(
        first(words),
        (EntryKind::Procedure, id.to_owned()),
        "`{words}`"
    );
}

#[track_caller]
fn finds_term(words: &str, id: &str) {
    assert_eq!(first(words), (EntryKind::Term, id.to_owned()), "`{words}`");
}

#[test]
fn a_joint_named_finds_its_procedure() {
    finds_procedure("stopped housing", "stopped-housing");
    finds_procedure("through housing", "through-housing");
    finds_procedure("sliding dovetail", "sliding-dovetail");
    finds_procedure("one-sided sliding dovetail", "one-sided-sliding-dovetail");
}

/// N p. 159 no. 29: gain; US Navy NAVEDTRA 14119: stopped dado, blind dado; N pp. 157-158: dado.
#[test]
fn american_names_find_the_british_page() {
    finds_procedure("blind dado", "stopped-housing");
    finds_procedure("Blind Dado", "stopped-housing");
    finds_procedure("stopped dadoes", "stopped-housing");
    finds_procedure("gain", "stopped-housing");
    finds_procedure("dado", "through-housing");
}

/// F p. 160: dovetail housing, dovetail grooving; N p. 158 no. 28: dovetail dado, dovetail gain.
#[test]
fn names_of_several_words_are_one() {
    for name in [
        "dovetail groove",
        "dovetail housing",
        "dovetail dado",
        "dovetail gain",
    ] {
        finds_procedure(name, "sliding-dovetail");
    }
    finds_procedure("barefaced dovetail housing", "one-sided-sliding-dovetail");
}

/// N p. 157 no. 24: rabbet; F p. 64: mortise, written mortice by many; N pp. 101-102: clamp.
#[test]
fn two_spellings_are_one_word() {
    finds_term("rabbet", "rebate");
    finds_term("mortice", "mortise");
    assert_eq!(find("rebate")[0].id, find("rabbet")[0].id);
    finds_term("half-blind dovetail", "lapped-dovetail");
}

/// No source: slips of the hand, one or two letters off, a swap counting as one.
#[test]
fn slips_of_the_hand_are_forgiven() {
    finds_procedure("stoped housng", "stopped-housing");
    finds_procedure("sliding dovetial", "sliding-dovetail");
    finds_procedure("dovetale groove", "sliding-dovetail");
    finds_term("rabett", "rebate");
}

/// `reference/procedures.md` F12: hyphen, blank and none are one.
#[test]
fn hyphens_and_blanks_do_not_matter() {
    for words in ["push-block", "push block", "pushblock", "pushblok"] {
        finds_term(words, "push-block");
    }
    for words in ["face side", "face-side", "faceside"] {
        finds_term(words, "face-side");
    }
}

/// Arithmetic: 3/4 in = 0.75 in = 19.05 mm, for 1 in is 25.4 mm by definition.
#[test]
fn a_size_is_found_however_it_is_written() {
    for words in ["3/4", "0.75 in", "¾\"", "19.05mm", "3/4 inch", "0.750\""] {
        finds_procedure(words, "sliding-dovetail");
    }
    for words in ["17.6mm", "17.6 mm", "17.6-mm", "1.76 cm"] {
        assert_eq!(
            first(words),
            (EntryKind::Record, "2026-11-20-1".to_owned()),
            "`{words}`"
        );
    }
}

/// A page need not hold the whole word while it is typed.
#[test]
fn the_last_word_may_be_unfinished() {
    finds_procedure("stopped hou", "stopped-housing");
    finds_procedure("sliding dov", "sliding-dovetail");
    finds_term("featherb", "featherboard");
}

/// `reference/procedures.md`, stemmer trial: plain stemming makes one word of these two.
#[test]
fn a_house_is_no_housing() {
    let mut entries = entries();
    entries.push(entry(
        EntryKind::Note,
        "boat-house",
        "House rules",
        &[],
        &["Rules of the house."],
    ));
    let index = Index::build(&entries, &terms()).expect("the index is built");
    let house = index.find("house rules", 3).expect("the index is read");
    assert_eq!(house[0].id, "boat-house");
    let housing = index.find("housing", 50).expect("the index is read");
    assert!(housing.iter().all(|hit| hit.id != "boat-house"));
}

#[test]
fn what_was_found_is_marked() {
    let marked = |hits: &[Hit], id: &str| -> Vec<String> {
        let hit = hits.iter().find(|hit| hit.id == id).expect("it is found");
        let pieces = hit.context.iter().filter(|piece| piece.matched);
        pieces.map(|piece| piece.text.to_lowercase()).collect()
    };
    assert!(
        marked(&find("dado passes"), "through-housing").contains(&"housing".to_owned()),
        "a synonym"
    );
    assert!(
        marked(&find("shelf notsh"), "stopped-housing").contains(&"notch".to_owned()),
        "a slip of the hand"
    );
    for hit in find("stopped housing") {
        let shown: usize = hit.context.iter().map(|piece| piece.text.len()).sum();
        assert!(shown > 0 && shown < 220, "{hit:?}");
        assert!(!hit.next.is_empty());
    }
}

#[test]
fn any_text_gets_a_clear_answer() {
    let index = index();
    for words in [
        "", "   ", "(((", "\"", "'", "🪚", "- - -", "::", "\\", "\0", "the of a",
    ] {
        assert_eq!(index.find(words, 10), Ok(Vec::new()), "`{words}`");
    }
    let odd = [
        "a:b",
        "x AND",
        "slid*",
        "housing~2",
        "+housing",
        "\"stopped housing",
        "½½½",
        "1/0",
        "9999999999999999999999 mm",
        ".",
        "1.",
        "1..2",
        "3/",
        "-3/4",
        "¾¾ in 1/",
        "1:",
        "1 in ",
    ];
    for words in odd {
        assert!(index.find(words, 10).is_ok(), "`{words}`");
    }
    assert_eq!(first("\"stopped housing").1, "stopped-housing");
    assert_eq!(first("(stopped AND housing)").1, "stopped-housing");
    assert_eq!(index.find("housing", 0), Ok(Vec::new()));
    let nothing = Index::build(&[], &Terms::default()).expect("an empty index is built");
    assert_eq!(nothing.find("housing", 5), Ok(Vec::new()));
}

#[test]
fn a_long_text_is_answered() {
    let index = index();
    let words = "stopped housing at the router table ".repeat(300);
    assert!(words.len() > 10_000);
    let hits = index.find(&words, 10).expect("the index is read");
    assert_eq!(hits[0].id, "stopped-housing");
    for letter in ["x", "½", "🪚", "3", "-"] {
        assert!(index.find(&letter.repeat(10_000), 10).is_ok());
    }
}

#[test]
fn nothing_found_suggests_a_near_word() {
    let index = index();
    assert_eq!(index.find("xqzv", 10), Ok(Vec::new()));
    assert_eq!(index.near("hosuign"), Ok(vec!["housing".to_owned()]));
    assert_eq!(index.near("((("), Ok(Vec::new()));
}

#[test]
fn answers_come_in_one_order() {
    let (one, other) = (built(), built());
    for words in ["housing", "router table", "cutter", "fit"] {
        assert_eq!(one.find(words, 50), other.find(words, 50), "`{words}`");
    }
    let mut twins = entries();
    for id in ["b", "a"] {
        twins.push(entry(EntryKind::Note, id, "Zinc", &[], &["Zinc."]));
    }
    let index = Index::build(&twins, &terms()).expect("the index is built");
    let ids: Vec<_> = index
        .find("zinc", 5)
        .expect("read")
        .into_iter()
        .map(|hit| hit.id)
        .collect();
    assert_eq!(ids, ["a", "b"]);
}

#[test]
fn every_term_is_found_by_each_of_its_names() {
    let (index, terms) = (index(), terms());
    for term in &terms.terms {
        for form in term.forms() {
            let hits = index.find(form, 10).expect("the index is read");
            let found = hits.iter().any(|hit| hit.title == term.term);
            assert!(found, "`{form}` does not find `{}`", term.term);
        }
    }
}

#[test]
fn faults_of_terms_are_told() {
    let twice = "terms:\n  - {term: rebate, also: [step], means: m, source: s}\n  \
                 - {term: stair, also: [step], means: m, source: s}\n";
    let (_, faults) = Terms::read(&Source::new("terms.yaml", twice));
    let messages: Vec<_> = faults.iter().map(|fault| fault.message.as_str()).collect();
    assert_eq!(messages, ["`step` stands for `rebate` and for `stair`"]);
    let unsourced = "terms:\n  - {term: rebate, means: m, source: ''}\n";
    let (_, faults) = Terms::read(&Source::new("terms.yaml", unsourced));
    assert_eq!(
        faults.iter().next().map(|fault| fault.code.name()),
        Some("missing-key")
    );
    assert!(
        Terms::read(&Source::new("terms.yaml", "terms: 3"))
            .1
            .any_error()
    );
}

#[test]
fn a_shops_own_words_take_the_place_of_the_library() {
    let own = "terms:\n  - {term: rebate, also: [sinking], means: m, source: our shop}\n";
    let mut all = terms();
    let replaced = all.overlay(Terms::read(&Source::new("terms.yaml", own)).0);
    assert_eq!(replaced, ["rebate"]);
    let index = Index::build(&all.entries(), &all).expect("the index is built");
    assert_eq!(index.find("sinking", 1).expect("read")[0].id, "rebate");
}

#[test]
fn notes_are_whole() {
    let notes = notes();
    let ids: Vec<_> = notes.iter().map(|note| note.id.as_str()).collect();
    assert!(ids.len() >= 25, "{ids:?}");
    for note in &notes {
        let words = note.body.split_whitespace();
        let words = words.filter(|word| word.contains(char::is_alphanumeric));
        let words = words.count();
        // The table of all joints is longer than a page.
        let most = if note.id == "choosing-a-joint" {
            950
        } else {
            350
        };
        assert!(
            (200..=most).contains(&words),
            "{} has {words} words",
            note.id
        );
        assert!(
            note.body.contains("Sources:"),
            "{} names no source",
            note.id
        );
        assert!(!note.about.is_empty(), "{} is about nothing", note.id);
        assert_eq!(first(&note.title).1, note.id);
    }
}

#[test]
fn faults_of_notes_are_told() {
    for bad in [
        "",
        "no keys",
        "---\nnote: a\n---\n",
        "---\nnote: a\ntitle: b\n---\n  \n",
        "---\nnote: a\ntitle: b\n",
        "---\nnote: a\ntitle: b\nauthor: c\n---\ntext\n",
    ] {
        assert!(Note::read(&Source::new("a.md", bad)).is_err(), "`{bad}`");
    }
    let good = "---\nnote: a\ntitle: b\n---\nSee [the page](procedure:x), *now*.\n";
    let note = Note::read(&Source::new("a.md", good)).expect("a note");
    assert_eq!(note.entry().summary, "See the page, now.");
}
