//! A shop's own files: they add and reword, and take nothing away.

use faceside::caution::{Book, CautionKind};
use faceside::diag::Code;
use faceside::units::Value;

use super::{book, but, codes, files, plain, read, with, without};

/// A rule of a shop that replaces `rt-offcut`, as wide as the built-in one.
const REWORDED: &str = "machine: router-table
cautions:
  - caution: rt-offcut
    kind: offcut-trap
    operations: [through-groove, widen-groove, rebate, edge-mould-fence]
    stands: cut
    when: leaves_strip
    signal: warning
    hazard: The strip beside the cutter comes loose.
    harm: It is shot at whoever stands behind it.
    avoid: Nobody stands in line with the feed.
    sources: [{cite: own geometry, fact: RT-22, status: derived}]
";

fn hazard_of_offcut(book: &Book) -> String {
    let values = but("leaves_strip", Value::Truth(true));
    let selected = book.select("router-table", "rebate", &values).unwrap();
    let caution = selected
        .all()
        .iter()
        .find(|one| one.kind() == CautionKind::OffcutTrap);
    caution.unwrap().hazard().to_owned()
}

#[test]
fn a_later_file_may_reword_a_rule() {
    let wider = REWORDED.replace("    when: leaves_strip\n", "");
    for text in [
        REWORDED,
        &wider,
        &REWORDED.replace("signal: warning", "signal: danger"),
    ] {
        let (book, faults) = with(text);
        assert_eq!(codes(&faults), [Code::OVERLAID]);
        assert_eq!(
            hazard_of_offcut(&book),
            "The strip beside the cutter comes loose."
        );
    }
}

#[test]
fn a_later_file_can_take_nothing_away() {
    let built_in = hazard_of_offcut(&book());
    let weaker = [
        ("kind: offcut-trap", "kind: dust"),
        ("machine: router-table", "machine: hand-tool"),
        (
            "[through-groove, widen-groove, rebate, edge-mould-fence]",
            "[rebate]",
        ),
        ("stands: cut", "stands: sheet"),
        ("signal: warning", "signal: caution"),
        (
            "when: leaves_strip",
            "when: \"leaves_strip and piece.length < 100 mm\"",
        ),
    ];
    for (strong, weak) in weaker {
        assert!(REWORDED.contains(strong));
        let (book, faults) = with(&REWORDED.replace(strong, weak));
        assert_eq!(codes(&faults), [Code::DUPLICATE_ID], "{weak}");
        assert_eq!(hazard_of_offcut(&book), built_in, "{weak}");
    }
    for text in [
        "remove: [rt-offcut]",
        "cautions: [{caution: rt-offcut, remove: yes}]",
    ] {
        let (book, faults) = with(text);
        assert!(faults.any_error(), "{text}");
        assert_eq!(hazard_of_offcut(&book), built_in);
    }
}

#[test]
fn a_later_row_adds_kinds_and_loses_none() {
    let row = "pairs: [{machine: router-table, operation: rebate, required: [fire-chem]}]";
    let (book, faults) = with(row);
    assert!(faults.is_empty(), "{faults:#?}");
    assert_eq!(codes(&book.check()), [Code::CAUTION_MISSING]);
    assert!(book.select("router-table", "rebate", &plain()).is_err());
    let empty = "pairs: [{machine: router-table, operation: rebate}]";
    let mut all = files();
    all[0].1 = without(&all[0].1, "rt-hands-fence");
    all.push(("own.yaml", empty.to_owned()));
    assert!(
        read(&all)
            .0
            .check_pair("router-table", "rebate")
            .any_error()
    );
}

#[test]
fn one_id_twice_in_a_file_is_told() {
    let twice = format!(
        "{REWORDED}{}",
        REWORDED.split_once("cautions:\n").unwrap().1
    )
    .replace("rt-offcut", "own-offcut");
    assert_eq!(codes(&with(&twice).1), [Code::DUPLICATE_ID]);
}

#[test]
fn what_a_file_names_must_exist() {
    let cases = [
        ("kind: offcut-trap", "kind: ofcut-trap", Code::UNKNOWN_NAME),
        ("stands: cut", "stands: cuts", Code::UNKNOWN_NAME),
        ("signal: warning", "signal: alarm", Code::UNKNOWN_NAME),
        ("status: derived", "status: sure", Code::UNKNOWN_NAME),
        (
            "operations: [through-groove, widen-groove, rebate, edge-mould-fence]",
            "operations: all",
            Code::WRONG_TYPE,
        ),
        (
            "operations: [through-groove, widen-groove, rebate, edge-mould-fence]",
            "operations: []",
            Code::WRONG_TYPE,
        ),
        (
            "when: leaves_strip",
            "when: leaves_strips",
            Code::FORMULA_NAME,
        ),
        (
            "when: leaves_strip",
            "when: piece.length",
            Code::FORMULA_DIMENSION,
        ),
        ("machine: router-table\n", "", Code::MISSING_KEY),
    ];
    let own = REWORDED.replace("rt-offcut", "own-offcut");
    assert!(with(&own).1.is_empty());
    for (good, bad, code) in cases {
        assert!(own.contains(good));
        assert_eq!(codes(&with(&own.replacen(good, bad, 1)).1), [code], "{bad}");
    }
    let (book, faults) = with(
        &own.replace("rebate", "rebates")
            .replace("stands: cut", "stands: sheet"),
    );
    assert!(faults.is_empty());
    let told = book.check();
    assert_eq!(codes(&told), [Code::UNKNOWN_NAME]);
    assert!(told.iter().next().unwrap().hints[0].contains("`rebate`"));
}

#[test]
fn too_many_cautions_before_a_cut_are_told() {
    let own = REWORDED.replace("rt-offcut", "own-offcut");
    assert_eq!(codes(&with(&own).0.check()), [Code::STYLE; 4]);
}
