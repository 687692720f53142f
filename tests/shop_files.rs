//! The shop's files: the demo shop reads clean, every slip is told at its place.
//!
//! Expected figures are read off the files by hand; places are counted in the texts below.
#![cfg(feature = "program")]
#![expect(clippy::unwrap_used, reason = "a helper of tests fails loudly")]

use std::sync::Arc;

use faceside::diag::{Code, Fault, Faults, Severity, Source};
use faceside::shop::{
    Jurisdiction, Paper, Region, Shape, Speeds, overlay, read_cutters, read_machines, read_shop,
};
use faceside::units::{Length, Spindle, Unit};

const SHOP: &str = include_str!("../procedures/shop/shop.yaml");
const MACHINES: &str = include_str!("../procedures/shop/machines.yaml");
const CUTTERS: &str = include_str!("../procedures/shop/cutters.yaml");

fn text(text: &str) -> Arc<Source> {
    Source::new("test.yaml", text)
}

/// Code, line and column of each fault.
fn told(faults: &Faults) -> Vec<(&'static str, usize, usize)> {
    let place = |fault: &Fault| {
        let (line, column) = fault.span.as_ref().unwrap().line_column();
        (fault.code.name(), line, column)
    };
    faults.iter().map(place).collect()
}

#[track_caller]
fn changed(whole: &str, from: &str, to: &str) -> Arc<Source> {
    assert_eq!(whole.matches(from).count(), 1, "`{from}` must stand once");
    text(&whole.replace(from, to))
}

#[test]
fn the_demo_shop_reads_without_a_word() {
    let (shop, faults) = read_shop(&text(SHOP));
    assert!(faults.is_empty(), "{faults:#?}");
    let shop = shop.unwrap();
    assert_eq!((shop.units, shop.paper), (Unit::Mm, Paper::A4));
    assert_eq!(shop.region, Region::British);
    assert_eq!(shop.finest_tool().unwrap().name, "caliper");
    assert_eq!(shop.fits["hand_press"], Length::nm(100_000));
    assert_eq!(shop.rim_limit_mm_per_s, 40_000);
    assert_eq!(shop.hand_distance, Length::nm(150_000_000));
}

#[test]
fn the_demo_machines_read_without_a_word() {
    let (machines, faults) = read_machines(&text(MACHINES), Unit::Mm);
    assert!(faults.is_empty(), "{faults:#?}");
    let table = &machines[0];
    assert_eq!(table.kind, "router-table");
    let (from, to) = (Spindle::rpm(8000.0), Spindle::rpm(22000.0));
    assert_eq!(table.speeds, Speeds::Range { from, to });
    assert_eq!(table.fence.resolution, Length::nm(50_000));
    assert_eq!(table.table_width, Length::nm(600_000_000));
    assert_eq!((table.minutes.cutter, table.minutes.speed), (6, 1));
}

#[test]
fn the_demo_cutters_read_without_a_word() {
    let (cutters, faults) = read_cutters(&text(CUTTERS), Unit::Mm);
    assert!(faults.is_empty(), "{faults:#?}");
    let find = |id: &str| cutters.iter().find(|cutter| cutter.id == id).unwrap();
    let twelve = find("straight-12");
    assert_eq!(twelve.marked, Length::nm(12_000_000));
    assert_eq!(twelve.diameter(), Length::nm(11_950_000));
    assert_eq!(twelve.marked_speed, Some(Spindle::rpm(24000.0)));
    assert_eq!(find("straight-6").diameter(), Length::nm(6_000_000));
    let unmarked: Vec<_> = cutters
        .iter()
        .filter(|c| c.marked_speed.is_none() && c.shape.bears_speed())
        .collect();
    assert_eq!(unmarked.len(), 1);
    assert_eq!(unmarked[0].id, "straight-18");
    let dovetail = find("dovetail-14");
    assert_eq!(dovetail.shape, Shape::Dovetail);
    assert!((dovetail.angle.unwrap().to_degrees() - 7.0).abs() < 1e-12);
    let sharpened = find("straight-16");
    assert!(sharpened.diameter() < sharpened.marked);
}

/// A cutter in its shortest form; `more` adds or replaces nothing by itself.
fn cutter(lines: &str) -> Arc<Source> {
    text(&format!("- cutter: a\n  name: a\n{lines}"))
}

const STRAIGHT: &str = "  shape: straight\n  marked: 12 mm\n  cutting_length: 25 mm\n  shank: 8 mm\n  marked_speed: none\n  flutes: 2\n";

#[test]
fn a_marked_speed_that_is_not_stated_is_not_taken_for_none() {
    let (cutters, faults) = read_cutters(&cutter(STRAIGHT), Unit::Mm);
    assert!(faults.is_empty());
    assert_eq!(cutters[0].marked_speed, None);
    let lines = STRAIGHT.replace("  marked_speed: none\n", "");
    let (cutters, faults) = read_cutters(&cutter(&lines), Unit::Mm);
    assert!(cutters.is_empty());
    assert_eq!(told(&faults), [("missing-key", 1, 3)]);
    let fault = faults.iter().next().unwrap();
    assert!(fault.message.contains("marked speed of `a` is not stated"));
    assert!(
        fault
            .hints
            .iter()
            .any(|hint| hint.contains("marked_speed: none"))
    );
}

#[test]
fn cutters_out_of_range_are_refused() {
    let cases = [
        ("marked: 12 mm", "marked: 151 mm", ("out-of-range", 4, 11)),
        ("marked: 12 mm", "marked: 0 mm", ("out-of-range", 4, 11)),
        ("marked: 12 mm", "marked: -12 mm", ("out-of-range", 4, 11)),
        ("marked: 12 mm", "marked: 12 rpm", ("quantity-unit", 4, 11)),
        (
            "marked: 12 mm",
            "marked: 1,250 mm",
            ("ambiguous-quantity", 4, 11),
        ),
        (
            "cutting_length: 25 mm",
            "cutting_length: 0 mm",
            ("out-of-range", 5, 19),
        ),
        (
            "marked_speed: none",
            "marked_speed: unknown",
            ("quantity-syntax", 7, 17),
        ),
        ("flutes: 2", "flutes: 0", ("out-of-range", 8, 11)),
        ("flutes: 2", "flutes: two", ("wrong-type", 8, 11)),
        (
            "flutes: 2",
            "flutes: 2\n  angle: 14 deg",
            ("out-of-range", 9, 10),
        ),
        ("shape: straight", "shape: dovetail", ("missing-key", 1, 3)),
        ("shape: straight", "shape: straigth", ("wrong-type", 3, 10)),
        (
            "shape: straight",
            "shape: dovetail\n  angle: 46 deg",
            ("out-of-range", 4, 10),
        ),
        (
            "shape: straight",
            "shape: dovetail\n  angle: 0.5 deg",
            ("out-of-range", 4, 10),
        ),
        (
            "shape: straight",
            "shape: dovetail\n  angle: 14",
            ("quantity-unit", 4, 10),
        ),
        (
            "flutes: 2",
            "flutes: 2\n  measured: no",
            ("wrong-type", 9, 13),
        ),
    ];
    for (from, to, expected) in cases {
        let lines = STRAIGHT.replace(from, to);
        assert_ne!(lines, STRAIGHT);
        let (cutters, faults) = read_cutters(&cutter(&lines), Unit::Mm);
        assert_eq!(told(&faults), [expected], "{to}: {faults:#?}");
        assert!(cutters.is_empty() && faults.any_error(), "{to}");
    }
}

#[test]
fn a_saw_blade_may_be_larger_than_a_router_cutter() {
    let lines = STRAIGHT
        .replace("straight", "saw-blade")
        .replace("12 mm", "250 mm")
        .replace("shank: 8 mm", "shank: 30 mm");
    let (cutters, faults) = read_cutters(&cutter(&lines), Unit::Mm);
    assert!(faults.is_empty(), "{faults:#?}");
    assert_eq!(cutters[0].marked, Length::nm(250_000_000));
}

#[test]
fn odd_shanks_and_far_off_measurements_are_warned_of() {
    for (shank, odd) in [("6.35 mm", false), ("1/2 in", false), ("10 mm", true)] {
        let lines = STRAIGHT.replace("shank: 8 mm", &format!("shank: {shank}"));
        let (cutters, faults) = read_cutters(&cutter(&lines), Unit::Mm);
        assert_eq!(
            (cutters.len(), faults.len()),
            (1, usize::from(odd)),
            "{shank}"
        );
        assert!(!faults.any_error());
    }
    let lines = format!("{STRAIGHT}  measured: {{size: 9 mm, on: 2026-11-02, with: caliper}}\n");
    let (cutters, faults) = read_cutters(&cutter(&lines), Unit::Mm);
    assert_eq!(cutters.len(), 1);
    assert_eq!(told(&faults), [("out-of-range", 9, 20)]);
    assert_eq!(faults.iter().next().unwrap().severity, Severity::Warning);
}

#[test]
fn days_are_days_of_the_calendar() {
    for (day, good) in [
        ("2026-11-02", true),
        ("2028-02-29", true),
        ("2026-02-29", false),
        ("2026-11-31", false),
        ("02.11.2026", false),
        ("20261102", false),
    ] {
        let lines = format!("{STRAIGHT}  measured: {{size: 12 mm, on: {day}, with: caliper}}\n");
        let (_, faults) = read_cutters(&cutter(&lines), Unit::Mm);
        assert_eq!(faults.is_empty(), good, "{day}");
    }
}

#[test]
fn a_bare_size_takes_the_shops_unit() {
    let lines = STRAIGHT.replace("12 mm", "1/2").replace("25 mm", "1");
    let (cutters, faults) = read_cutters(&cutter(&lines), Unit::Inch);
    assert!(faults.is_empty(), "{faults:#?}");
    assert_eq!(cutters[0].marked, Length::nm(12_700_000));
    let (_, faults) = read_cutters(&cutter(&lines), Unit::Mm);
    assert_eq!(told(&faults), [("ambiguous-quantity", 4, 11)]);
}

#[test]
fn all_faults_of_all_entries_are_told() {
    let one = cutter(&STRAIGHT.replace("12 mm", "200 mm").replace("8 mm", "8 rpm"));
    let both = text(&format!("{}{}", one.text, one.text.replace("200", "0")));
    let (_, faults) = read_cutters(&both, Unit::Mm);
    let expected = [
        ("duplicate-id", 9, 11),
        ("out-of-range", 4, 11),
        ("quantity-unit", 6, 10),
        ("out-of-range", 12, 11),
        ("quantity-unit", 14, 10),
    ];
    assert_eq!(told(&faults), expected);
    let first = &faults.iter().next().unwrap().also[0].0;
    assert_eq!(first.line_column(), (1, 11));
}

#[test]
fn machines_out_of_range_are_refused() {
    let speeds = "speeds: {from: 8000 rpm, to: 22000 rpm}";
    let cases = [
        (
            speeds,
            "speeds: {from: 8000 rpm, to: 8000 rpm}",
            "out-of-range",
        ),
        (
            speeds,
            "speeds: [8000 rpm, 12000 rpm, 12000 rpm]",
            "out-of-range",
        ),
        (speeds, "speeds: [12000 rpm, 8000 rpm]", "out-of-range"),
        (speeds, "speeds: []", "missing-key"),
        (speeds, "speeds: fast", "wrong-type"),
        (
            speeds,
            "speeds: {from: 8000 rpm, upto: 9000 rpm, to: 9500 rpm}",
            "unknown-key",
        ),
        (
            speeds,
            "speeds: {from: 8000 mm, to: 22000 rpm}",
            "quantity-unit",
        ),
        (
            "height: {resolution: 0.05 mm",
            "height: {resolution: 0 mm",
            "out-of-range",
        ),
        (
            "table: {length: 800 mm",
            "table: {length: 0 mm",
            "out-of-range",
        ),
        ("kind: router-table", "kind: Router table", "wrong-type"),
        (
            "minutes: {cutter: 6",
            "minutes: {cutter: 600",
            "out-of-range",
        ),
        ("- push-block with heel", "- '  '", "wrong-type"),
    ];
    for (from, to, code) in cases {
        let (_, faults) = read_machines(&changed(MACHINES, from, to), Unit::Mm);
        let codes: Vec<_> = told(&faults).iter().map(|(code, ..)| *code).collect();
        assert_eq!(codes, [code], "{to}: {faults:#?}");
    }
    let source = changed(MACHINES, speeds, "speeds: [8000 rpm, 12000 rpm]");
    let (machines, faults) = read_machines(&source, Unit::Mm);
    assert!(faults.is_empty());
    let steps = vec![Spindle::rpm(8000.0), Spindle::rpm(12000.0)];
    assert_eq!(machines[0].speeds, Speeds::Steps(steps));
}

#[test]
fn habits_out_of_range_are_refused() {
    let tools = &SHOP[SHOP.find("  - {tool").unwrap()..SHOP.find("# Total").unwrap()];
    let cases = [
        ("units: mm", "units: cm", "wrong-type"),
        ("units: mm\n", "", "missing-key"),
        ("units: mm\n", "units: mm\njurisdiction: gb\n", "wrong-type"),
        (
            "hand_distance: 150 mm",
            "hand_distance: 0 mm",
            "out-of-range",
        ),
        (
            "rim_speed_limit: 40 m/s",
            "rim_speed_limit: 400 m/s",
            "out-of-range",
        ),
        (
            "rim_speed_limit: 40 m/s",
            "rim_speed_limit: 40",
            "quantity-unit",
        ),
        ("hand_press: 0.1 mm", "hand_press: 10 mm", "out-of-range"),
        (
            "caliper, resolution: 0.05 mm",
            "caliper, resolution: 0 mm",
            "out-of-range",
        ),
        ("tool: height gauge", "tool: caliper", "duplicate-id"),
        (tools, "  []\n", "missing-key"),
    ];
    for (from, to, code) in cases {
        let (shop, faults) = read_shop(&changed(SHOP, from, to));
        let codes: Vec<_> = told(&faults).iter().map(|(code, ..)| *code).collect();
        assert_eq!(codes, [code], "{to}: {faults:#?}");
        assert!(shop.is_none() || code == "duplicate-id");
    }
}

#[test]
fn a_shop_that_names_no_jurisdiction_has_an_unknown_one() {
    let shop = |line: &str| {
        let (shop, faults) = read_shop(&text(&format!("{SHOP}{line}")));
        assert!(faults.is_empty(), "{faults:#?}");
        shop.unwrap().jurisdiction
    };
    assert_eq!(shop(""), Jurisdiction::Unknown);
    for (word, is) in [
        ("unknown", Jurisdiction::Unknown),
        ("us", Jurisdiction::Us),
        ("uk", Jurisdiction::Uk),
        ("eu", Jurisdiction::Eu),
    ] {
        assert_eq!(shop(&format!("jurisdiction: {word}\n")), is);
        assert_eq!(is.name(), word);
    }
}

#[test]
fn own_entries_replace_built_in_ones_and_that_is_told() {
    let (built_in, _) = read_cutters(&text(CUTTERS), Unit::Mm);
    let count = built_in.len();
    let own = "- cutter: straight-12\n  name: own\n".to_owned() + STRAIGHT;
    let (mut own, _) = read_cutters(&text(&own), Unit::Mm);
    own.extend(read_cutters(&cutter(STRAIGHT), Unit::Mm).0);
    let (list, notes) = overlay(built_in, own);
    assert_eq!(list.len(), count + 1);
    let replaced = list
        .iter()
        .find(|cutter| cutter.id == "straight-12")
        .unwrap();
    assert_eq!(replaced.name, "own");
    assert_eq!(list.last().unwrap().id, "a");
    assert_eq!(notes.len(), 1);
    assert_eq!(
        (notes[0].code, notes[0].severity),
        (Code::OVERLAID, Severity::Warning)
    );
    assert!(notes[0].message.contains("straight-12"));
}
