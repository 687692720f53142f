//! Coverage: every row of the matrix, its conditions, what is refused, what removal does.

use std::collections::{BTreeMap, BTreeSet};

use faceside::caution::Book;
use faceside::diag::{Code, Faults};
use faceside::formula::Values;
use faceside::shop::Jurisdiction;
use faceside::units::Value;

use super::saws::{MACHINES, SETTING};
use super::{
    BENCH, FILES, ROUTER_TABLE, all_hold, asked, book, book_in, but, codes, files, kinds, mm,
    plain, planers_and_routers, read, with, without,
};

#[test]
fn the_built_in_book_has_no_fault() {
    let faults = book().check();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn the_router_table_gives_what_its_rows_say_and_no_more() {
    for (operation, row) in ROUTER_TABLE {
        for (c1, c2) in [(false, false), (true, false), (false, true), (true, true)] {
            let mut values = if c1 {
                but("piece.length", mm(299.0))
            } else {
                plain()
            };
            values.insert("leaves_strip", Value::Truth(c2));
            let wanted = asked(row, &|cell| match cell {
                "C1" => c1,
                "C2" => c2,
                _ => false,
            });
            let given = kinds("router-table", operation, &values);
            assert_eq!(given, wanted, "{operation}, C1 {c1}, C2 {c2}");
        }
    }
}

#[test]
fn the_bench_gives_what_its_rows_ask() {
    for (machine, operation, asked) in BENCH {
        assert_eq!(Book::bench(operation), Some(machine));
        let given = kinds(machine, operation, &Values::new());
        assert!(
            asked.iter().all(|kind| given.contains(kind)),
            "{operation}: {given:?}"
        );
    }
    assert_eq!(Book::bench("stopped-groove"), None);
}

#[test]
fn the_book_knows_these_pairs_and_no_others() {
    let table = ROUTER_TABLE.map(|(operation, _)| ("router-table", operation));
    let bench = BENCH.map(|(machine, operation, _)| (machine, operation));
    let saws = MACHINES
        .iter()
        .flat_map(|(machine, rows)| rows.iter().map(|(operation, _)| (*machine, *operation)));
    let setting = SETTING.map(|machine| (machine, "setting"));
    let held = planers_and_routers::ROWS.map(|(machine, operation, _)| (machine, operation));
    let wanted: BTreeSet<_> = (table.into_iter())
        .chain(bench)
        .chain(saws)
        .chain(held)
        .chain(setting)
        .chain(held)
        .collect();
    assert_eq!(book().pairs().collect::<BTreeSet<_>>(), wanted);
}

/// C1, section 8: "piece shorter than short_piece, narrower than hand_distance, or longer than
/// the table on either side". The cutter in the middle of a table of 1200 x 600 mm: 600 mm a side
/// along the feed, 300 mm across it.
#[test]
fn a_piece_is_short_narrow_or_long_from_the_named_limit_on() {
    let cases = [
        ("piece.length", 300.0, false),
        ("piece.length", 299.0, true),
        ("piece.length", 600.0, false),
        ("piece.length", 601.0, true),
        ("piece.width", 150.0, false),
        ("piece.width", 149.0, true),
        ("short_piece", 500.0, false),
        ("short_piece", 501.0, true),
        ("hand_distance", 201.0, true),
        ("piece.width", 300.0, false),
        ("piece.width", 301.0, true),
        ("table.width", 400.0, false),
        ("table.width", 399.0, true),
        ("table.length", 1000.0, false),
        ("table.length", 999.0, true),
    ];
    for operation in [
        "through-groove",
        "widen-groove",
        "rebate",
        "edge-mould-fence",
    ] {
        for (name, length, held) in cases {
            let given = kinds("router-table", operation, &but(name, mm(length)));
            assert_eq!(
                given.contains("hold-support"),
                held,
                "{operation}, {name} {length} mm"
            );
        }
    }
}

#[test]
fn a_value_that_is_not_at_hand_is_a_fault_and_never_a_no() {
    let c1 = [
        "piece.length",
        "piece.width",
        "short_piece",
        "hand_distance",
        "table.length",
        "table.width",
    ];
    let book = book();
    for (operation, row) in ROUTER_TABLE {
        let mut needed: Vec<&str> = Vec::new();
        needed.extend(c1.iter().filter(|_| row.contains("C1")));
        needed.extend(["leaves_strip"].iter().filter(|_| row.contains("C2")));
        let given: Values = needed
            .iter()
            .map(|name| ((*name).to_owned(), plain().get(name).unwrap().clone()))
            .collect();
        assert!(
            book.select("router-table", operation, &given).is_ok(),
            "{operation}"
        );
        for lost in &needed {
            let some = needed.iter().filter(|name| *name != lost);
            let values: Values = some
                .map(|name| ((*name).to_owned(), plain().get(name).unwrap().clone()))
                .collect();
            let faults = book.select("router-table", operation, &values).unwrap_err();
            let told = faults.iter().any(|fault| {
                fault.code == Code::VALUE_MISSING && fault.message.contains(&format!("`{lost}`"))
            });
            assert!(told, "{operation} without {lost}: {faults:#?}");
        }
    }
}

/// A machine's part of the built-in book without one of its rules, and what its check tells.
fn machine_without(machine: &str, id: &str) -> (Book, Faults) {
    let own = format!("{machine}.yaml");
    let needed = ["matrix.yaml", "limits.yaml", &own];
    let rest = files()
        .into_iter()
        .filter(|(name, _)| needed.contains(name))
        .map(|(name, text)| (name, without(&text, id)));
    let (book, faults) = read(&rest.collect::<Vec<_>>());
    assert!(faults.is_empty(), "{id}: {faults:#?}");
    let checked = book.check();
    (book, checked)
}

#[test]
fn without_the_only_rule_of_a_kind_nothing_is_printed() {
    let whole = book();
    let mut less: BTreeMap<String, (Book, Faults)> = BTreeMap::new();
    let pairs: Vec<(String, String)> = whole
        .pairs()
        .map(|(machine, operation)| (machine.to_owned(), operation.to_owned()))
        .collect();
    let everywhere = (pairs.iter()).flat_map(|pair| Jurisdiction::ALL.map(|one| (pair, one)));
    for ((machine, operation), jurisdiction) in everywhere {
        let selected = book_in(jurisdiction).select(machine, operation, &all_hold());
        let given = selected.unwrap().all().to_vec();
        for caution in &given {
            let kind = caution.kind();
            if given.iter().filter(|one| one.kind() == kind).count() > 1 {
                continue;
            }
            let of_planers = planers_and_routers::asks(machine, operation);
            let required = match Book::bench(operation) {
                None if of_planers.is_empty() => true,
                None => of_planers.contains(kind.name()),
                Some(_) => BENCH
                    .iter()
                    .any(|(one, _, asked)| one == machine && asked.contains(&kind.name())),
            };
            if !required {
                continue;
            }
            let id = caution.id();
            let entry = less.entry(id.to_owned());
            let (book, checked) = entry.or_insert_with(|| machine_without(machine, id));
            let told = |faults: &Faults| {
                faults.iter().any(|fault| {
                    fault.code == Code::CAUTION_MISSING
                        && [machine, operation, kind.name()]
                            .iter()
                            .all(|word| fault.message.contains(&format!("`{word}`")))
                })
            };
            assert!(told(checked), "check without {}", caution.id());
            assert!(
                told(&book.check_pair(machine, operation)),
                "check_pair without {}",
                caution.id()
            );
            let book = book.clone().with_jurisdiction(jurisdiction);
            let faults = book.select(machine, operation, &all_hold()).unwrap_err();
            assert!(
                told(&faults),
                "select without {}: {faults:#?}",
                caution.id()
            );
        }
    }
    let all: BTreeSet<&str> = FILES
        .iter()
        .flat_map(|(_, text)| text.lines())
        .filter_map(|line| line.strip_prefix("  - caution: "))
        .collect();
    let spare: Vec<_> = all
        .iter()
        .filter(|id| !less.contains_key(**id))
        .copied()
        .collect();
    assert_eq!(
        spare,
        [
            "fi-rags",
            "fi-vapour",
            "gl-lift",
            "jo-hold-edge",
            "jo-hold-face",
            "jo-hold-short",
            "jo-hold-thin",
            "mo-tool-setting"
        ],
        "rules that no pair depends on alone when all conditions hold"
    );
}

#[test]
fn finish_without_both_of_its_fire_rules_is_told() {
    let less = files()
        .into_iter()
        .map(|(name, text)| (name, without(&without(&text, "fi-rags"), "fi-vapour")))
        .collect::<Vec<_>>();
    let (book, _) = read(&less);
    assert_eq!(codes(&book.check()), [Code::CAUTION_MISSING]);
    assert!(book.select("finish", "finish", &Values::new()).is_err());
}

#[test]
fn a_condition_on_the_only_rule_of_a_kind_is_told_at_load() {
    let always = "kind: no-trap\n    operations: [through-groove, stopped-groove, widen-groove]\n    stands: cut\n";
    let mut all = files();
    assert!(all[0].1.contains(always));
    all[0].1 = all[0]
        .1
        .replace(always, &format!("{always}    when: leaves_strip\n"));
    let (book, faults) = read(&all);
    assert!(faults.is_empty(), "{faults:#?}");
    assert_eq!(codes(&book.check()), [Code::CAUTION_MISSING; 3]);
    assert!(
        book.select("router-table", "through-groove", &plain())
            .is_err()
    );
}

/// Section 8 (stopped cuts on table saw and jointer), section 8.1 L-06 and L-07.
#[test]
fn forbidden_pairs_are_refused_with_reason_and_another_way() {
    let never = [
        ("table-saw", "stopped-cut"),
        ("table-saw", "stopped-groove"),
        ("jointer", "stopped-cut"),
        ("jointer", "stopped-groove"),
        ("router-table", "climb-cut"),
        ("spindle-moulder", "climb-cut"),
        ("table-saw", "climb-cut"),
        ("router-table", "trap-cut"),
        ("spindle-moulder", "trap-cut"),
        // TD-07, TS-20 and L-12, TD-10, TS-23, BS-10, MS-10, MS-11, SM-03, RT-21, SA-04, SA-05.
        ("table-saw", "freehand-cut"),
        ("table-saw", "fence-stop-crosscut"),
        ("table-saw", "on-end-by-hand"),
        ("table-saw", "round-by-hand"),
        ("band-saw", "round-by-hand"),
        ("mitre-saw", "stacked-cut"),
        ("mitre-saw", "short-by-hand"),
        ("spindle-moulder", "drop-on-cut"),
        ("spindle-moulder", "freehand-curve"),
        ("router-table", "freehand-curve"),
        ("sander", "disc-rising-half"),
        ("sander", "wedged-work"),
    ];
    let book = book();
    for (machine, operation) in never {
        for faults in [
            book.select(machine, operation, &all_hold()).unwrap_err(),
            book.check_pair(machine, operation),
        ] {
            assert_eq!(
                codes(&faults),
                [Code::CAUTION_FORBIDDEN],
                "{machine} {operation}"
            );
            let fault = faults.iter().next().unwrap();
            assert!(fault.message.contains(machine) && fault.message.contains(operation));
            assert!(fault.message.contains("never done: ") && !fault.hints.is_empty());
        }
    }
}

#[test]
fn a_pair_stays_forbidden_when_a_later_file_gives_it_a_row() {
    let (book, _) =
        with("pairs: [{machine: table-saw, operation: stopped-cut, required: [guard]}]");
    let faults = book
        .select("table-saw", "stopped-cut", &plain())
        .unwrap_err();
    assert_eq!(codes(&faults), [Code::CAUTION_FORBIDDEN]);
}

#[test]
fn an_unknown_pair_is_refused_with_the_nearest() {
    let cases = [
        ("router-table", "stoped-groove", "stopped-groove"),
        ("router-tabel", "stopped-groove", "router-table"),
    ];
    for (machine, operation, meant) in cases {
        let faults = book().select(machine, operation, &plain()).unwrap_err();
        let fault = faults.iter().next().unwrap();
        assert_eq!(fault.code, Code::UNKNOWN_NAME);
        assert!(
            fault
                .hints
                .iter()
                .any(|hint| hint.contains(&format!("`{meant}`"))),
            "{fault:#?}"
        );
    }
    let faults = book().check_pair("lathe", "turn");
    assert_eq!(codes(&faults), [Code::UNKNOWN_NAME]);
}
