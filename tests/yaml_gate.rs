//! The gate to YAML: every row of the table of what the deserialiser does, as we want it.
//!
//! Expected places are counted by hand in the texts below (line and column from 1, the column in
//! characters); what YAML means by a text is from the YAML 1.2.2 specification, from memory.
#![cfg(feature = "program")]
#![expect(clippy::unwrap_used, reason = "a helper of tests fails loudly")]

use std::sync::Arc;
use std::time::{Duration, Instant};

use faceside::diag::{Code, Fault, Faults, Source};
use faceside::yaml::{MOST_BYTES, Ordered, Step, key_place, place, read, source};
use proptest::prelude::{ProptestConfig, Strategy, proptest};
use proptest::{prop_assert, prop_assert_eq};
use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    id: String,
    #[serde(default)]
    title: String,
    #[serde(default)]
    size: Option<f64>,
    #[serde(default)]
    steps: Vec<Entry>,
    #[serde(default)]
    names: Ordered<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    text: String,
    #[serde(default)]
    uses: Vec<u32>,
    #[serde(default)]
    does: Option<Does>,
}

#[derive(Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
enum Does {
    Cut,
    Adjust,
}

fn text(text: &str) -> Arc<Source> {
    Source::new("test.yaml", text)
}

fn faults(yaml: &str) -> Vec<Fault> {
    let faults: Faults = read::<File>(&text(yaml)).unwrap_err();
    faults.into_iter().collect()
}

fn place_of(fault: &Fault) -> (usize, usize) {
    fault.span.as_ref().unwrap().line_column()
}

/// The text gives one fault, with this code at this place.
#[track_caller]
fn refused(yaml: &str, code: Code, at: (usize, usize)) -> Fault {
    let list = faults(yaml);
    assert_eq!(list.len(), 1, "{list:#?}");
    let fault = list.into_iter().next().unwrap();
    assert_eq!((fault.code, place_of(&fault)), (code, at), "{fault:#?}");
    assert!(!fault.hints.is_empty() || code == Code::WRONG_TYPE);
    fault
}

#[track_caller]
fn read_file(yaml: &str) -> File {
    read(&text(yaml)).unwrap()
}

#[test]
fn syntax_faults_stand_where_they_are() {
    refused("id: a\n title: b\n", Code::YAML_SYNTAX, (2, 7));
    refused(
        "id: a\nsteps:\n  - text: x\n   uses: [1]\n",
        Code::YAML_SYNTAX,
        (4, 4),
    );
    refused("id: a\ntitle: cut: twice\n", Code::YAML_SYNTAX, (2, 11));
    refused("id: @here\n", Code::YAML_SYNTAX, (1, 5));
}

#[test]
fn unclosed_brackets_and_quotes_are_told_where_they_begin() {
    let fault = refused(
        "id: a\nsteps: [{text: x}\ntitle: b\n",
        Code::YAML_SYNTAX,
        (2, 8),
    );
    assert_eq!(fault.span.unwrap().text(), "[");
    refused(
        "id: a\ntitle: \"19 mm\nsize: 2\n",
        Code::YAML_SYNTAX,
        (2, 8),
    );
    refused("id: \"3/4\"\"\n", Code::YAML_SYNTAX, (1, 10));
    refused("\"id: a\n", Code::YAML_SYNTAX, (1, 1));
}

#[test]
fn an_unknown_key_is_told_with_the_nearest_and_all_known() {
    let fault = refused("id: a\ntitel: b\n", Code::UNKNOWN_KEY, (2, 1));
    assert_eq!(fault.span.as_ref().unwrap().text(), "titel");
    assert_eq!(fault.hints[0], "write `title`");
    for known in ["`id`", "`title`", "`size`", "`steps`", "`names`"] {
        assert!(fault.hints[1].contains(known));
    }
}

#[test]
fn wrong_types_and_words_stand_at_their_value() {
    let yaml = "id: a\nsteps:\n  - text: x\n    uses: [1, two]\n";
    let fault = refused(yaml, Code::WRONG_TYPE, (4, 15));
    assert_eq!(fault.span.as_ref().unwrap().text(), "two");
    assert_eq!(
        fault.message,
        "a whole number is wanted, not the text `two`"
    );
    let yaml = "id: a\nsteps:\n  - {text: x, does: cutt}\n";
    let fault = refused(yaml, Code::WRONG_TYPE, (3, 21));
    assert_eq!(fault.hints[0], "write `cut`");
    refused("id: a\nsteps: 3\n", Code::WRONG_TYPE, (2, 8));
    refused("id: [a]\n", Code::WRONG_TYPE, (1, 5));
    refused("[1, 2]\n", Code::WRONG_TYPE, (1, 1));
}

#[test]
fn a_missing_key_stands_at_its_entry() {
    let fault = refused(
        "id: a\nsteps:\n  - text: x\n  - uses: [1]\n",
        Code::MISSING_KEY,
        (4, 5),
    );
    assert_eq!(fault.message, "the key `text` is missing");
}

#[test]
fn a_list_at_the_root_has_places_too() {
    let source = text("- text: x\n- {text: y, uses: [1, z]}\n- {txet: y}\n- [a]\n");
    let faults = read::<Vec<Entry>>(&source).unwrap_err();
    let places: Vec<_> = faults.iter().map(place_of).collect();
    assert_eq!(places, [(2, 23), (3, 4), (4, 3)]);
}

#[test]
fn many_type_faults_are_told_at_once() {
    let yaml = "titel: b\nsize: big\nsteps:\n  - {txt: x, uses: 3}\n  - {does: saw}\nid: a\n";
    let list = faults(yaml);
    let mut found: Vec<_> = list.iter().map(|f| (place_of(f), f.code.name())).collect();
    found.sort_unstable();
    let expected = [
        ((1, 1), "unknown-key"),
        ((2, 7), "wrong-type"),
        ((4, 6), "unknown-key"),
        ((4, 20), "wrong-type"),
        ((5, 5), "missing-key"),
        ((5, 12), "wrong-type"),
    ];
    assert_eq!(found, expected);
}

#[test]
fn keys_given_twice_are_told_at_any_depth_with_both_places() {
    let yaml = "id: a\nsteps:\n  - text: x\n    text: y\nnames:\n  b: 1\n  'b': 2\nid: c\nid: d\n";
    let list = faults(yaml);
    let found: Vec<_> = list
        .iter()
        .map(|f| (place_of(f), f.also[0].0.line_column()))
        .collect();
    let expected = [
        ((4, 5), (3, 5)),
        ((7, 4), (6, 3)),
        ((8, 1), (1, 1)),
        ((9, 1), (1, 1)),
    ];
    assert_eq!(found, expected);
    assert!(list.iter().all(|f| f.code == Code::DUPLICATE_KEY));
}

#[test]
fn aliases_are_read_and_merge_keys_are_not() {
    let file = read_file("id: &name a\ntitle: *name\n");
    assert_eq!(file.title, "a");
    let yaml = "id: a\nnames: &n {b: c}\nsteps:\n  - {text: x, <<: *n}\n";
    refused(yaml, Code::UNKNOWN_KEY, (4, 15));
    refused("id: a\ntitle: *name\n", Code::YAML_SYNTAX, (2, 8));
}

#[test]
fn a_second_document_is_told_at_its_line() {
    let fault = refused("---\nid: a\n---\nid: b\n", Code::YAML_SYNTAX, (3, 1));
    assert_eq!(fault.span.unwrap().text(), "---");
    assert_eq!(read_file("# head\n---\nid: a\n").id, "a");
    // A syntax fault in the second document must end the reading, not repeat for ever.
    assert!(read::<File>(&text("id: a\n---\nid: [b\n")).is_err());
}

#[test]
fn byte_order_marks_line_ends_and_letters_do_not_move_places() {
    let bytes = "\u{feff}id: a\r\ntitle: Füße\r\nsize: groß\r\n".as_bytes();
    let source = source("bom.yaml", bytes).unwrap();
    assert!(source.text.starts_with("id"));
    let list = read::<File>(&source).unwrap_err();
    let fault = list.iter().next().unwrap();
    assert_eq!(place_of(fault), (3, 7));
    assert_eq!(fault.span.as_ref().unwrap().text(), "groß");
    assert_eq!(place(&source, &["title".into()]).text(), "Füße");
}

#[test]
fn tabs_in_indentation_are_told_at_the_tab() {
    let fault = refused("id: a\nsteps:\n\t- text: x\n", Code::TAB_INDENT, (3, 1));
    assert!(fault.hints[0].contains("two spaces"));
    refused("id: a\nsize: 1\n\ttitle: b\n", Code::TAB_INDENT, (3, 1));
    refused(
        "steps:\n  - text: x\n\tuses: [1]\n",
        Code::TAB_INDENT,
        (3, 1),
    );
    // A tab between a key and its value, or inside a text, hurts nothing.
    assert_eq!(read_file("id:\ta\ntitle: |\n  b\tc\n").title, "b\tc\n");
}

#[test]
fn empty_files_say_so() {
    for yaml in ["", "\n\n", "# only a comment\n", "---\n"] {
        let fault = refused(yaml, Code::MISSING_KEY, (1, 1));
        assert_eq!(fault.message, "the file is empty");
    }
}

#[test]
fn what_is_not_text_is_told_at_its_first_byte() {
    // `é` in Windows-1252 is the byte E9, which begins a sequence of three in UTF-8.
    let fault = source("a.yaml", b"id: a\ntitle: caf\xe9 x\n").unwrap_err();
    assert_eq!(
        (fault.code, place_of(&fault)),
        (Code::FILE_NOT_TEXT, (2, 11))
    );
    assert!(fault.message.contains("line 2, column 11"));
    let fault = source("a.yaml", b"\xff\xfei\0d\0").unwrap_err();
    assert!(fault.hints[0].contains("UTF-16"));
    let fault = source("a.yaml", b"id: a\nti\0tle: b\n").unwrap_err();
    assert_eq!(
        (fault.code, place_of(&fault)),
        (Code::FILE_NOT_TEXT, (2, 3))
    );
    let fault = source("a.yaml", "id: a\u{feff}\n".as_bytes()).unwrap_err();
    assert_eq!(place_of(&fault), (1, 6));
    assert!(source("a.yaml", b"id: \x1b[31m\n").is_err());
    refused("id: a\0\n", Code::FILE_NOT_TEXT, (1, 6));
}

#[test]
fn files_over_the_limit_are_refused() {
    let fault = source("big.yaml", &vec![b' '; MOST_BYTES + 1]).unwrap_err();
    assert_eq!(fault.code, Code::FILE_LIMIT);
    assert_eq!(
        fault.message,
        "the file is larger than 128 KB, the most that is read"
    );
    assert_eq!(fault.span.unwrap().source().name, "big.yaml");
    assert!(source("fits.yaml", &vec![b'a'; MOST_BYTES]).is_ok());
}

#[test]
fn blown_up_and_nested_files_are_refused_in_time() {
    let laughs = (1..9).fold(
        "a0: &a0 [x, x, x, x, x, x, x, x, x]\n".to_owned(),
        |all, n| {
            let uses = vec![format!("*a{}", n - 1); 9].join(", ");
            format!("{all}a{n}: &a{n} [{uses}]\n")
        },
    );
    let wide = format!(
        "id: a\nx: &x [{}]\nsteps: [{}]\n",
        "1,".repeat(20_000),
        "*x,".repeat(20_000)
    );
    let nested = "[".repeat(MOST_BYTES);
    let nested_text = format!("id: {}{}", "[".repeat(20_000), "]".repeat(20_000));
    let lists = format!("id: a\nsteps:\n{}x\n", "- ".repeat(60_000));
    let some = format!("id: {}{}", "[".repeat(300), "]".repeat(300));
    for yaml in [laughs, wide, nested, nested_text, lists, some] {
        let began = Instant::now();
        let list = faults(&yaml);
        assert!(
            began.elapsed() < Duration::from_secs(2),
            "{:?}",
            began.elapsed()
        );
        assert_eq!(list.last().unwrap().code, Code::FILE_LIMIT, "{list:#?}");
    }
}

#[test]
fn a_large_plain_file_is_read_in_time() {
    let mut yaml = "id: a\nsteps:\n".to_owned();
    while yaml.len() < MOST_BYTES - 40 {
        yaml.push_str("  - {text: x, uses: [1]}\n");
    }
    let began = Instant::now();
    assert!(read_file(&yaml).steps.len() > 5000);
    assert!(began.elapsed() < Duration::from_secs(2));
}

#[test]
fn words_that_look_like_numbers_stay_as_written() {
    for word in [
        "no",
        "yes",
        "on",
        "off",
        "y",
        "12:30",
        "3/4",
        "1_000",
        "010",
        "19mm",
        "2026-01-02",
        "3/4 in",
        "1.10",
        "19,05",
    ] {
        assert_eq!(read_file(&format!("id: {word}\n")).id, word);
    }
    assert_eq!(read_file("id: a\nsize: 19.5\n").size, Some(19.5));
    let file = read_file("id: a\nsteps: [{text: 12, uses: [0x1f], does: adjust}]\n");
    let step = &file.steps[0];
    assert_eq!((step.text.as_str(), &step.uses), ("12", &vec![31]));
    assert_eq!(step.does, Some(Does::Adjust));
}

#[test]
fn numbers_that_are_none_are_refused_at_their_value() {
    refused("id: a\nsize: .nan\n", Code::WRONG_TYPE, (2, 7));
    refused("id: a\nsize: -.inf\n", Code::WRONG_TYPE, (2, 7));
    refused("id: a\nsize: 19,05\n", Code::WRONG_TYPE, (2, 7));
    refused("id: a\nsize: \"19\"\n", Code::WRONG_TYPE, (2, 8));
}

#[test]
fn entries_without_a_value_and_tags_are_refused() {
    refused("id: ~\n", Code::WRONG_TYPE, (1, 1));
    refused("id: a\ntitle:\nsize: 1\n", Code::WRONG_TYPE, (2, 1));
    refused(
        "id: a\nsteps:\n  - text: x\n  -\n",
        Code::WRONG_TYPE,
        (4, 4),
    );
    let fault = refused("id: a\ntitle: !Stop\n", Code::YAML_SYNTAX, (2, 8));
    assert!(fault.hints[0].contains("quotes"));
    refused("id: a\n? [b, c]\n: d\n", Code::YAML_SYNTAX, (2, 3));
}

#[test]
fn texts_that_yaml_takes_for_something_else_are_told_to_be_quoted() {
    let list = faults("id: a\ntitle: {depth} above\n");
    let places: Vec<_> = list.iter().map(place_of).collect();
    assert_eq!(places, [(2, 9), (2, 16)]);
    assert!(
        list.iter()
            .all(|fault| fault.hints[0].contains("in quotes"))
    );
    for (yaml, at) in [
        ("id: a\ntitle: {depth}\n", (2, 9)),
        ("id: a\nnames: {size: 11,95 mm, on: b}\n", (2, 18)),
    ] {
        let fault = refused(yaml, Code::WRONG_TYPE, at);
        assert!(fault.hints[0].contains("brace or a comma"));
    }
    let fault = refused("id: \"3/4\" straight\n", Code::YAML_SYNTAX, (1, 11));
    assert_eq!(fault.message, "this stands after the end of the value");
}

#[test]
fn places_of_scalars_cover_their_text() {
    let yaml = "id: 'a b'\nsize: 19.5\nsteps:\n- {text: \"übrig\", uses: [1, 22]}\n- text: >\n    folded\n    text\n\n  uses: [3]\n- text: two\n    lines\n- text: \"esc \\\" aped\"\n- text: &mark marked\n- text: 'it''s'\n";
    let source = text(yaml);
    let at = |path: &[Step]| {
        let span = place(&source, path);
        (span.line_column(), span.text().to_owned())
    };
    let step = |item: usize| ["steps".into(), item.into(), "text".into()];
    assert_eq!(at(&["id".into()]), ((1, 6), "a b".into()));
    assert_eq!(at(&["size".into()]), ((2, 7), "19.5".into()));
    assert_eq!(at(&step(0)), ((4, 11), "übrig".into()));
    let uses = ["steps".into(), 0.into(), "uses".into(), 1.into()];
    assert_eq!(at(&uses), ((4, 29), "22".into()));
    assert_eq!(at(&step(1)), ((5, 9), ">\n    folded\n    text".into()));
    assert_eq!(at(&step(2)), ((10, 9), "two\n    lines".into()));
    assert_eq!(at(&step(3)), ((12, 9), "\"esc \\\" aped\"".into()));
    assert_eq!(at(&step(4)), ((13, 15), "marked".into()));
    assert_eq!(at(&step(5)), ((14, 9), "'it''s'".into()));
}

#[test]
fn places_of_keys_parents_and_nothing() {
    let source = text("id: a\nsteps:\n  - text: x\n    'uses': [1]\n");
    let uses = ["steps".into(), 0.into(), "uses".into()];
    assert_eq!(key_place(&source, &uses).line_column(), (4, 6));
    assert_eq!(key_place(&source, &uses).text(), "uses");
    let beyond = ["steps".into(), 7.into(), "text".into()];
    assert_eq!(place(&source, &beyond).line_column(), (3, 3));
    assert_eq!(place(&source, &["none".into()]).line_column(), (1, 1));
    assert_eq!(key_place(&source, &["none".into()]).line_column(), (1, 1));
    assert_eq!(place(&text("["), &["id".into()]).start(), 0);
}

#[test]
fn names_keep_the_order_of_the_file() {
    let file = read_file("id: a\nnames: {z: 1, a: 2, m.x: 3}\n");
    let names: Vec<_> = file.names.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["z", "a", "m.x"]);
    let fault = refused(
        "id: a\nnames: {z: 1, m.x: [3]}\n",
        Code::WRONG_TYPE,
        (2, 20),
    );
    assert_eq!(fault.message, "a text is wanted, not a list");
}

/// A text of pieces that mean something to YAML, in any order.
fn pieces() -> impl Strategy<Value = String> {
    let piece = proptest::sample::select(vec![
        "id: ", "a", "ü", " ", "  ", "\n", "\n  ", "\r\n", "\t", "- ", "steps:\n", "text: ",
        "uses: ", "[", "]", "{", "}", ", ", ": ", "\"", "'", "|\n", ">\n", "|2-\n", "#", "&a ",
        "*a", "!t ", "<<: ", "---\n", "...\n", "? ", "\\", "%", "@", "~", "1", ".nan", "\u{85}",
        "\u{2028}", "🪵",
    ]);
    proptest::collection::vec(piece, 0..30).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    /// Whatever is written: no panic, every fault has a place in the text and a hint or a label,
    /// and what is found is found again in the same place.
    #[test]
    fn any_text_is_read_or_refused_with_places(yaml in pieces()) {
        let source = text(&yaml);
        match read::<File>(&source) {
            Ok(file) => prop_assert!(place(&source, &["id".into()]).text().len() <= yaml.len(), "{}", file.id),
            Err(faults) => {
                prop_assert!(faults.any_error());
                for fault in faults.iter() {
                    let span = fault.span.as_ref().unwrap();
                    prop_assert_eq!(&span.source().text, &yaml);
                    prop_assert!(!fault.label.is_empty() || !fault.hints.is_empty(), "{:?}", fault);
                }
            }
        }
    }

    /// A plain or quoted text without escapes is marked exactly, whatever stands around it.
    #[test]
    fn scalars_are_marked_exactly(before in "[a-zü ]{0,9}", value in "[a-zäß][a-zäß0-9 .+*/()-]{0,20}[a-zäß)]", quote in "['\"]?") {
        let yaml = format!("# {before}\nid: a\nsteps:\n- {{uses: [1], text: {quote}{value}{quote}}}\n");
        let source = text(&yaml);
        let span = place(&source, &["steps".into(), 0.into(), "text".into()]);
        prop_assert_eq!(span.text(), &value);
        prop_assert_eq!(span.line_column(), (4, 21 + quote.len()));
    }
}
