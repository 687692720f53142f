//! The words: order, place, direction of feed, citations, facts, limits statement.

use std::collections::BTreeSet;

use faceside::caution::{Caution, CautionKind, SignalWord, Stands, Status};
use faceside::diag::Code;
use faceside::formula::Values;

use super::{FILES, ROUTER_TABLE, all_hold, book, codes, files, plain, read, select, with};

#[test]
fn gravest_first_then_by_kind() {
    for (machine, operation) in book().pairs() {
        let keys: Vec<_> = select(machine, operation, &all_hold())
            .iter()
            .map(|caution| (caution.signal(), caution.kind()))
            .collect();
        assert!(keys.is_sorted(), "{machine} {operation}: {keys:?}");
    }
    let widen = select("router-table", "widen-groove", &plain());
    assert_eq!(
        (widen[0].signal(), widen[0].id()),
        (SignalWord::Danger, "rt-feed-widen")
    );
}

#[test]
fn sharp_cautions_stand_before_the_cut_and_isolation_before_each_adjustment() {
    let sharp = [
        CautionKind::FeedDirection,
        CautionKind::NoTrap,
        CautionKind::HandDistance,
        CautionKind::StoppedCut,
    ];
    for (operation, _) in ROUTER_TABLE {
        let given = select("router-table", operation, &all_hold());
        let at_cut = given
            .iter()
            .filter(|one| one.stands() == Stands::Cut)
            .count();
        assert!(
            (2..=4).contains(&at_cut),
            "{operation}: {at_cut} before the cut"
        );
        for caution in &given {
            let stands = match caution.kind() {
                kind if sharp.contains(&kind) => Stands::Cut,
                CautionKind::Isolate => Stands::Adjust,
                CautionKind::OffcutTrap if operation != "stopped-groove" => Stands::Cut,
                _ => Stands::Sheet,
            };
            assert_eq!(caution.stands(), stands, "{operation}: {}", caution.id());
        }
    }
}

/// The rotation is `sense` (+1 anticlockwise) about the upright axis; the edge at `side` of the
/// cutter's axis (x to the right, y away from the operator) moves along sense * (-y, x).
fn edge_runs_right(sense: f64, (_, y): (f64, f64)) -> bool {
    sense * -y > 0.0
}

#[test]
fn the_directions_follow_from_the_rotation() {
    // A router's cutter turns clockwise seen from the motor (common practice, no source); hung
    // under a table it is seen from its other end: anticlockwise, +1.
    let sense = 1.0;
    let near_operator = (0.0, -1.0);
    let against = if edge_runs_right(sense, near_operator) {
        "right to left"
    } else {
        "left to right"
    };
    for (operation, _) in ROUTER_TABLE {
        let all = select("router-table", operation, &plain());
        let feed = all
            .iter()
            .find(|one| one.kind() == CautionKind::FeedDirection)
            .unwrap();
        let text = feed.avoid().to_lowercase();
        assert!(
            text.contains("seen from above") && text.contains("anticlockwise"),
            "{text}"
        );
        assert!(text.contains(&format!("from {against}")), "{text}");
        if ["edge-mould-bearing", "box-joint-jig", "mitre-key-cradle"].contains(&operation) {
            continue;
        }
        assert!(text.contains("fence behind the cutter"), "{text}");
    }
    // Fence beyond the cutter, moved farther: the piece moves farther too, so the cutter meets
    // the wall on the operator's side, with the edge that the feed already runs against. The
    // wall beside the fence is met by the opposite edge: a climb cut.
    assert_ne!(
        edge_runs_right(sense, near_operator),
        edge_runs_right(sense, (0.0, 1.0))
    );
    let widen = select("router-table", "widen-groove", &plain());
    let feed = widen
        .iter()
        .find(|one| one.kind() == CautionKind::FeedDirection)
        .unwrap();
    assert!(feed.avoid().contains("Fence moved away from the cutter"));
    // A stopped groove is widened by the same rule, under its own operation.
    let stopped = select("router-table", "stopped-groove", &plain());
    let told = |one: &Caution| {
        one.avoid()
            .contains("to widen, fence farther from the cutter")
    };
    assert!(stopped.iter().any(told));
    assert!(feed.avoid().contains("the wall farther from the fence"));
    assert!(
        feed.hazard()
            .contains("wall beside the fence is a climb cut")
    );
}

/// Section 0.1: only what was read may be printed as it stands.
#[test]
fn a_citation_that_was_not_read_is_printed_to_be_checked() {
    let mut seen = BTreeSet::new();
    for (machine, operation) in book().pairs() {
        for caution in select(machine, operation, &all_hold()) {
            assert!(!caution.sources().is_empty(), "{}", caution.id());
            for cited in caution.sources() {
                let doubted = matches!(cited.status, Status::Read2nd | Status::Memory);
                assert_eq!(
                    cited.text.ends_with("(to be checked)"),
                    doubted,
                    "{}",
                    cited.text
                );
                seen.insert(cited.status);
            }
        }
    }
    assert_eq!(
        seen.len(),
        Status::ALL.len(),
        "every status occurs: {seen:?}"
    );
}

#[test]
fn every_fact_is_explained_in_the_readme_with_its_status() {
    let readme = include_str!("../../procedures/cautions/README.md");
    for (file, text) in FILES {
        for line in text.lines().filter(|line| line.contains("fact: ")) {
            let after = |key: &str| {
                let rest = line.split(key).nth(1).unwrap();
                rest.split([',', '}']).next().unwrap().to_owned()
            };
            let (fact, status) = (after("fact: "), after("status: "));
            let row = readme
                .lines()
                .find(|row| row.starts_with(&format!("| {fact} |")));
            let row = row.unwrap_or_else(|| panic!("{file}: {fact} is not in the README"));
            let known = row.rsplit('|').nth(1).unwrap();
            assert!(
                known.split(';').any(|one| one.trim() == status),
                "{fact} {status}: {known}"
            );
        }
    }
}

#[test]
fn the_limits_statement_is_there_once_and_nothing_is_selected_without_it() {
    let book = book();
    let limits = book.limits().unwrap();
    // Section 7: what the statement must not lose when it is shortened.
    for words in [
        "manual",
        "law",
        "risk assessment",
        "training and supervision",
        "stricter rule",
    ] {
        assert!(
            limits.long.contains(words) && limits.short.contains(words),
            "{words}"
        );
    }
    let (_, faults) = with("limits: {long: anything goes, short: fine}");
    assert_eq!(codes(&faults), [Code::DUPLICATE_ID]);
    let mut rest = files();
    rest.retain(|(name, _)| *name != "limits.yaml");
    let (without, _) = read(&rest);
    assert!(without.limits().is_none());
    assert!(codes(&without.check()).contains(&Code::CAUTION_MISSING));
    let faults = without
        .select("glue-up", "glue-up", &Values::new())
        .unwrap_err();
    assert_eq!(codes(&faults), [Code::CAUTION_MISSING]);
}
