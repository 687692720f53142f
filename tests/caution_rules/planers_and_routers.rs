//! Hand-held router, jointer, thicknesser, drill press, mortiser: kinds, places, sizes,
//! directions of feed.
//!
//! Outside references: rows of the matrix and figures from the project's safety reference
//! (sections 2.2, 2.5 to 2.7 and 8; the number of the fact stands beside each figure). Directions are
//! derived here from the rotation alone.

use std::collections::BTreeSet;

use faceside::caution::{CautionKind, Stands};
use faceside::diag::Code;
use faceside::formula::Values;
use faceside::shop::Jurisdiction;
use faceside::shop::Jurisdiction::{Eu, Uk, Unknown, Us};
use faceside::units::Value;

use super::saws::{Case, told_in};
use super::{
    ALWAYS, COLUMNS, all_hold, book, book_in, but, codes, files, kinds, mm, plain, read, select,
    without,
};

/// Rows of section 8 as they stand there; `setting`, where nothing is cut, asks for none of them.
pub(super) const ROWS: [(&str, &str, &str); 18] = [
    ("hand-router", "through-groove", "R R - R - R R R - -"),
    ("hand-router", "stopped-groove", "R R - R R R R R - -"),
    ("hand-router", "mortise-jig", "R R - R R R R R - -"),
    ("hand-router", "rebate", "R R - R - R R R - -"),
    ("hand-router", "edge-mould", "R R - R - R R R - -"),
    ("hand-router", "template", "R R - R - R R R C2 -"),
    ("hand-router", "setting", "- - - - - - - - - -"),
    ("jointer", "face-plane", "R R - R - - R R - -"),
    ("jointer", "edge-plane", "R R - R - - R R - -"),
    ("jointer", "rebate", "R R - R - - R R - R"),
    ("jointer", "setting", "- - - - - - - - - -"),
    ("thicknesser", "thickness", "R R - R - - R R - -"),
    ("thicknesser", "setting", "- - - - - - - - - -"),
    ("drill-press", "drill", "R - - R - R R R - -"),
    ("drill-press", "setting", "- - - - - - - - - -"),
    ("mortiser", "hollow-chisel-mortise", "R - - R - R R - - -"),
    ("mortiser", "chain-mortise", "R - - R - - R R - -"),
    ("mortiser", "setting", "- - - - - - - - - -"),
];

/// Every kind that a row may ask for; none for a pair of another machine.
pub(super) fn asks(machine: &str, operation: &str) -> BTreeSet<&'static str> {
    let row = ROWS
        .iter()
        .find(|row| (row.0, row.1) == (machine, operation));
    row.map_or_else(BTreeSet::new, |(_, _, cells)| wanted(cells, true))
}

fn wanted(cells: &str, strip: bool) -> BTreeSet<&'static str> {
    let asked = COLUMNS.iter().zip(cells.split(' '));
    let asked = asked.filter(|(_, cell)| *cell == "R" || (*cell == "C2" && strip));
    asked.map(|(kind, _)| *kind).chain(ALWAYS).collect()
}

fn cuts() -> impl Iterator<Item = (&'static str, &'static str)> {
    let cuts = ROWS.iter().filter(|row| row.1 != "setting");
    cuts.map(|(machine, operation, _)| (*machine, *operation))
}

/// How to avoid the only hazard of that kind, and the line said again.
#[track_caller]
fn said(machine: &str, operation: &str, kind: CautionKind) -> (String, String) {
    let given = select(machine, operation, &plain());
    let of_kind: Vec<_> = given.iter().filter(|one| one.kind() == kind).collect();
    assert_eq!(of_kind.len(), 1, "{machine} {operation}: {of_kind:#?}");
    let caution = of_kind[0];
    let brief = caution.brief().unwrap_or_default();
    (caution.avoid().to_lowercase(), brief.to_lowercase())
}

#[test]
fn each_pair_gives_what_its_row_says_and_no_more() {
    for (machine, operation, cells) in ROWS {
        for strip in [false, true] {
            let values = but("leaves_strip", Value::Truth(strip));
            let mut wanted = wanted(cells, strip);
            // A cutter, knife or chuck is fitted in a setting too: own rule, more than the row.
            wanted.extend(["tool-security"].iter().filter(|_| operation == "setting"));
            let given = kinds(machine, operation, &values);
            assert_eq!(given, wanted, "{machine} {operation}, strip {strip}");
        }
    }
}

/// A setting has no piece and no cut: nothing of either is asked for, nothing stands before one.
#[test]
fn a_setting_needs_no_values_and_isolates_before_each_adjustment() {
    for (machine, operation, _) in ROWS.iter().filter(|row| row.1 == "setting") {
        let given = book().select(machine, operation, &Values::new());
        let given = given.unwrap_or_else(|faults| panic!("{machine}: {faults:#?}"));
        assert_eq!(given.standing(Stands::Cut).count(), 0, "{machine}");
        let adjust: Vec<_> = given
            .standing(Stands::Adjust)
            .map(|one| one.kind())
            .collect();
        assert_eq!(adjust, [CautionKind::Isolate], "{machine}");
    }
}

#[test]
fn sharp_cautions_stand_before_the_cut_and_are_said_again_in_a_line() {
    for (machine, operation) in cuts() {
        let given = select(machine, operation, &all_hold());
        let at_cut = given.iter().filter(|one| one.stands() == Stands::Cut);
        assert!((1..=4).contains(&at_cut.count()), "{machine} {operation}");
        for caution in &given {
            let stands = match caution.kind() {
                CautionKind::FeedDirection
                | CautionKind::HandDistance
                | CautionKind::StoppedCut
                | CautionKind::OffcutTrap => Stands::Cut,
                CautionKind::Isolate | CautionKind::RestoreGuard => Stands::Adjust,
                _ => Stands::Sheet,
            };
            assert_eq!(caution.stands(), stands, "{operation}: {}", caution.id());
            let again = stands != Stands::Sheet;
            assert_eq!(caution.brief().is_some(), again, "{}", caution.id());
        }
    }
}

/// JP-11: shorter than 300 mm only in a holder. JP-12: nothing under 203 mm long, 19 mm wide,
/// 6.4 mm thick.
#[test]
fn a_short_narrow_or_thin_piece_at_the_jointer_is_told() {
    let cases = [
        ("piece.length", 300.0, "jo-hold-short", false),
        ("piece.length", 299.9, "jo-hold-short", true),
        ("piece.width", 19.0, "jo-hold-thin", false),
        ("piece.width", 18.9, "jo-hold-thin", true),
        ("piece.thickness", 6.4, "jo-hold-thin", false),
        ("piece.thickness", 6.3, "jo-hold-thin", true),
    ];
    for operation in ["face-plane", "edge-plane", "rebate"] {
        for (name, length, id, told) in cases {
            let given = select("jointer", operation, &but(name, mm(length)));
            let held = given.iter().find(|one| one.id() == id);
            assert_eq!(held.is_some(), told, "{operation}, {name} {length} mm");
            if let Some(short) = held.filter(|one| one.id() == "jo-hold-short") {
                assert!(short.hazard().contains("300 mm"));
                assert!(short.avoid().contains("never under 203 mm"));
            }
        }
        let faults = book().select("jointer", operation, &Values::new());
        assert!(codes(&faults.unwrap_err()).contains(&Code::VALUE_MISSING));
    }
}

/// A rule for short pieces is none for the others: the check tells it, whatever the piece.
#[test]
fn a_rule_for_short_pieces_does_not_stand_for_the_one_that_always_holds() {
    for (id, operations) in [("jo-hold-face", 1), ("jo-hold-edge", 2)] {
        let rest = files()
            .into_iter()
            .map(|(name, text)| (name, without(&text, id)));
        let (less, _) = read(&rest.collect::<Vec<_>>());
        let told = codes(&less.check());
        assert_eq!(told, vec![Code::CAUTION_MISSING; operations], "{id}");
    }
}

/// The strictest of what was read: JP-02 and JP-03 (bridge guard, 10 mm), JP-05 and JP-06 (round
/// block, 1.1 mm and not 3.2 mm), JP-12 (76 mm), JP-18 (1.6 mm, the figure for faces).
#[test]
fn the_jointer_keeps_the_strictest_figures() {
    for operation in ["face-plane", "edge-plane"] {
        let (guard, _) = said("jointer", operation, CautionKind::Guard);
        assert!(guard.contains("bridge guard over the whole block, within 10 mm"));
        assert!(guard.contains("fixed guard behind the fence"), "{guard}");
    }
    for operation in ["face-plane", "edge-plane", "rebate"] {
        let (knives, _) = said("jointer", operation, CautionKind::ToolSecurity);
        assert!(knives.contains("cylindrical block") && knives.contains("1.1 mm at most"));
        let (hands, brief) = said("jointer", operation, CautionKind::HandDistance);
        assert!(hands.contains("push-block") && hands.contains("76 mm"));
        assert!(brief.contains("76 mm"), "{brief}");
        let (depth, _) = said("jointer", operation, CautionKind::Kickback);
        assert!(depth.contains("1.6 mm a pass at most"), "{depth}");
    }
}

const FACE: (&str, &str) = ("jointer", "face-plane");
const EDGE: (&str, &str) = ("jointer", "edge-plane");
const REBATE: (&str, &str) = ("jointer", "rebate");
const SETTING: (&str, &str) = ("jointer", "setting");
const GUARD: CautionKind = CautionKind::Guard;
const KNIVES: CautionKind = CautionKind::ToolSecurity;
const RESTORE: CautionKind = CautionKind::RestoreGuard;
const RUN_DOWN: CautionKind = CautionKind::RunDown;

/// Where the sources for the jointer differ: L-13, and the facts named beside each. For the guard
/// no European rule was read.
const JOINTER: &[Case] = &[
    // JP-02: bridge guard, fixed guard behind the fence, no swinging guard, HSE WIS 17.
    (Unknown, FACE, GUARD, "Bridge guard over the whole", "JP-02"),
    (Uk, FACE, GUARD, "fixed guard behind", "Sheet 17, JP-02"),
    (Uk, FACE, GUARD, "no swinging guard", "Sheet 17, JP-02"),
    (Eu, EDGE, GUARD, "Bridge guard over the whole", "JP-02"),
    // JP-03: closer than 10 mm, HSE web page on planing machines.
    (Unknown, EDGE, GUARD, "within 10 mm", "(web page), JP-03"),
    (Uk, EDGE, GUARD, "within 10 mm", "(web page), JP-03"),
    (Eu, FACE, GUARD, "within 10 mm", "(web page), JP-03"),
    // JP-01: automatic guard before and behind the fence, Washington 296-78-635(1), read; that it
    // touches the work all the time, 29 CFR 1910.213(j)(3)-(4), from memory.
    (Us, FACE, GUARD, "in front of and behind", "296-78-635(1)"),
    (Us, EDGE, GUARD, "follows the work", "1910.213(j)(3)-(4)"),
    // JP-17: a rebate is the lower risk at the spindle moulder, Oxford S4/99 on L114.
    (Unknown, REBATE, GUARD, "moulder first", "S4/99"),
    (Us, REBATE, GUARD, "moulder first", "S4/99"),
    // G-10: featherboards or jig where the standard guard cannot be used, California 4296(a).
    (Us, REBATE, GUARD, "featherboards or jig", "4296(a), G-10"),
    (Us, REBATE, GUARD, "guard behind the fence", "296-78-635(1)"),
    (
        Uk,
        REBATE,
        GUARD,
        "guard behind the fence",
        "Sheet 17, JP-02",
    ),
    // The guard of JP-01 or JP-02 goes back.
    (Unknown, SETTING, GUARD, "bridge guard", "Sheet 17, JP-02"),
    (Us, SETTING, GUARD, "self-acting guard", "296-78-635(1)"),
    (Eu, REBATE, RESTORE, "Bridge guard", "Sheet 17, JP-02"),
    (Us, REBATE, RESTORE, "Self-acting guard", "296-78-635(1)"),
    // G-19: stay until it stands, OSHA; the guard meanwhile, JP-01 or JP-02.
    (Uk, FACE, RUN_DOWN, "Guard over the block; stay", "JP-02"),
    (Us, FACE, RUN_DOWN, "Guard over the block; stay", "JP-01"),
    // JP-06: 1.1 mm, EN 847-1 as summed up; 1/8 in = 3.2 mm, Washington 296-78-635(2).
    (Unknown, FACE, KNIVES, "1.1 mm at most", "EN 847-1"),
    (Uk, EDGE, KNIVES, "1.1 mm at most", "EN 847-1"),
    (Eu, SETTING, KNIVES, "1.1 mm at most", "EN 847-1"),
    (Us, REBATE, KNIVES, "3.2 mm (1/8 in)", "635(2), JP-06"),
];

/// L-13 (guard type follows the shop's setting; unknown = the strictest); the figures do not mix.
#[test]
fn the_jointers_guard_and_knives_follow_the_jurisdiction() {
    for (jurisdiction, at, kind, words, source) in JOINTER.iter().copied() {
        let (avoid, sources) = told_in(jurisdiction, at, kind);
        let name = jurisdiction.name();
        assert!(avoid.contains(words), "{at:?} {name}: {avoid}");
        assert!(sources.contains(source), "{at:?} {name}: {sources}");
    }
    let lacks = |jurisdiction, at, kind, words: &str| {
        let (avoid, sources) = told_in(jurisdiction, at, kind);
        let told = format!("{avoid} {sources}").to_lowercase();
        assert!(!told.contains(words), "{at:?}: {told}");
    };
    for at in [FACE, EDGE, REBATE, SETTING] {
        for jurisdiction in [Unknown, Uk, Eu] {
            lacks(jurisdiction, at, GUARD, "self-acting");
            lacks(jurisdiction, at, KNIVES, "3.2 mm");
        }
        for words in ["bridge", "10 mm", "jp-02", "jp-03"] {
            lacks(Us, at, GUARD, words);
        }
        lacks(Us, at, KNIVES, "1.1 mm");
        lacks(Us, at, RUN_DOWN, "jp-02");
    }
    lacks(Us, REBATE, RESTORE, "bridge");
}

/// L-09: below the length of JP-11 a holder, never a softer text. No rule that was read allows
/// more, so a country without one gets the same words.
#[test]
fn a_short_piece_at_the_jointer_has_one_text_everywhere() {
    let short = but("piece.length", mm(299.0));
    for jurisdiction in Jurisdiction::ALL {
        for (machine, operation) in [FACE, EDGE, REBATE] {
            let given = book_in(jurisdiction).select(machine, operation, &short);
            let given = given.unwrap();
            let mut held = given.all().iter().filter(|one| one.id() == "jo-hold-short");
            let avoid = held.next().unwrap().avoid();
            assert!(avoid.starts_with("Only in a holder"), "{avoid}");
            assert!(avoid.contains("never under 203 mm"), "{avoid}");
        }
    }
}

/// RT-05 (150 mm, upper end of custom); section 4 (over 38 mm only in a table); HR-04 (end grain).
#[test]
fn the_hand_held_router_keeps_its_figures() {
    for (machine, operation) in cuts().filter(|(machine, _)| *machine == "hand-router") {
        let (hands, brief) = said(machine, operation, CautionKind::HandDistance);
        assert!(hands.contains("both hands on the handles") && hands.contains("150 mm"));
        assert!(brief.contains("150 mm"), "{brief}");
        let (speed, _) = said(machine, operation, CautionKind::Speed);
        assert!(speed.contains("no cutter without a mark") && speed.contains("none over 38 mm"));
    }
    for operation in ["rebate", "edge-mould", "template"] {
        let (kick, _) = said("hand-router", operation, CautionKind::Kickback);
        assert!(kick.contains("exit corner backed up"), "{kick}");
    }
}

/// Section 8, "stopped_cut_any" at the jointer, and JP-15, which names the stopped chamfer; JP-11
/// (under 300 mm only in a holder); TP-06 (not shorter than the roller distance); DM-06 (never held
/// against the bit by hand).
#[test]
fn what_is_never_done_is_refused_with_another_way() {
    for (machine, operation) in [
        ("jointer", "stopped-cut"),
        ("jointer", "stopped-groove"),
        ("jointer", "stopped-rebate"),
        ("jointer", "stopped-chamfer"),
        ("jointer", "short-by-hand"),
        ("thicknesser", "short-piece"),
        ("drill-press", "drill-by-hand"),
    ] {
        let faults = book().select(machine, operation, &all_hold()).unwrap_err();
        assert_eq!(codes(&faults), [Code::CAUTION_FORBIDDEN], "{operation}");
        let fault = faults.iter().next().unwrap();
        assert!(fault.message.contains("never done: ") && !fault.hints.is_empty());
    }
}

const CLOCKWISE: f64 = -1.0;
const ANTICLOCKWISE: f64 = 1.0;
const RIGHT: (f64, f64) = (1.0, 0.0);

/// How the edge at `(x, y)` from the axis moves: the turn `sense` about the axis that comes out of
/// the page, x to the right.
fn runs(sense: f64, (x, y): (f64, f64)) -> (f64, f64) {
    (sense * -y, sense * x)
}

fn along((ax, ay): (f64, f64), (bx, by): (f64, f64)) -> f64 {
    ax * bx + ay * by
}

/// The sense in which somebody at `(x, y)` from the middle goes round it when moving along `way`.
fn round((x, y): (f64, f64), (wx, wy): (f64, f64)) -> f64 {
    x * wy - y * wx
}

/// A motor turns its shaft clockwise seen from the motor's end (HR-06, custom): from above, since
/// the router is held cutter down. A tool goes the way its edge runs in the wood: so the wood
/// comes against the edge.
#[test]
fn the_hand_held_router_goes_as_its_edge_runs() {
    let (far, near) = ((0.0, 1.0), (0.0, -1.0));
    // The router between you and the edge cuts with its far side; moved to the right.
    assert!(along(runs(CLOCKWISE, far), RIGHT) > 0.0);
    assert!(along(runs(CLOCKWISE, near), RIGHT) < 0.0);
    // At the near edge of a piece, to the right, is anticlockwise round the piece; at the far wall
    // of an opening it is clockwise round the opening.
    assert!(round(near, RIGHT) * ANTICLOCKWISE > 0.0);
    assert!(round(far, RIGHT) * CLOCKWISE > 0.0);
    let clockwise = |text: &str| {
        assert!(
            text.contains("seen from above the cutter turns clockwise"),
            "{text}"
        );
        assert!(text.contains("from left to right") && !text.contains("right to left"));
    };
    for operation in ["rebate", "edge-mould", "template"] {
        let (avoid, brief) = said("hand-router", operation, CautionKind::FeedDirection);
        for text in [&avoid, &brief] {
            clockwise(text);
            assert!(text.contains("router between you and the edge"), "{text}");
        }
        assert!(
            avoid.contains("round an outside go anticlockwise"),
            "{avoid}"
        );
        let inside = avoid.contains("inside an opening clockwise");
        assert_eq!(inside, operation == "template", "{avoid}");
    }
    // In a groove the leading edge pushes the wood, and the wood pushes back: HR-07, to the left
    // of the travel, which is the far side. There a straightedge holds; a guide on the router
    // bears on an edge on the near side.
    let (_, push) = runs(CLOCKWISE, RIGHT);
    assert!(-push > 0.0);
    // At an edge the whole leading half does so, however far the cutter reaches in: the wood draws
    // it away from the near side. A straightedge stops the base only from the far side; a guide on
    // the router is stopped by the edge itself, which lies on the near side of the wood.
    for degrees in -89..90 {
        let (y, x) = f64::from(degrees).to_radians().sin_cos();
        let (_, push) = runs(CLOCKWISE, (x, y));
        assert!(-push > 0.0, "{degrees}");
    }
    for operation in ["rebate", "edge-mould"] {
        let (avoid, brief) = said("hand-router", operation, CautionKind::FeedDirection);
        for text in [&avoid, &brief] {
            let held = "any guide on that edge, any fence on the far side";
            assert!(text.contains(held), "{text}");
            assert!(!text.contains("fence on the near side"), "{text}");
        }
    }
    let (avoid, brief) = said("hand-router", "template", CautionKind::FeedDirection);
    for text in [&avoid, &brief] {
        assert!(text.contains("no fence") && !text.contains("far side"));
    }
    for operation in ["through-groove", "stopped-groove"] {
        let (avoid, brief) = said("hand-router", operation, CautionKind::FeedDirection);
        for text in [&avoid, &brief] {
            clockwise(text);
            assert!(
                text.contains("fence on the far side, or guide on the near edge"),
                "{text}"
            );
        }
        assert!(avoid.contains("widen the far wall only"), "{avoid}");
    }
    let (avoid, brief) = said("hand-router", "mortise-jig", CautionKind::FeedDirection);
    for text in [&avoid, &brief] {
        clockwise(text);
        assert!(text.contains("guide or fence on the near face"), "{text}");
    }
    assert!(avoid.contains("inside an opening, clockwise"), "{avoid}");
}

/// JP-14: from the infeed table, against the knives. You face the fence, infeed on your right, y
/// upward: the work lies on the top of the block and goes to the left.
#[test]
fn the_jointer_is_fed_against_its_knives() {
    assert!(along(runs(CLOCKWISE, (0.0, 1.0)), RIGHT) > 0.0);
    for operation in ["face-plane", "edge-plane", "rebate"] {
        let (avoid, brief) = said("jointer", operation, CautionKind::FeedDirection);
        for text in [&avoid, &brief] {
            assert!(
                text.contains("seen from your place the block turns clockwise"),
                "{text}"
            );
            assert!(text.contains("on your right") && text.contains("fence behind the block"));
            assert!(text.contains("from right to left"), "{text}");
        }
    }
}

/// Seen from the side with the infeed on the right: the work goes to the left under the block.
#[test]
fn the_thicknesser_is_fed_against_its_knives() {
    assert!(along(runs(ANTICLOCKWISE, (0.0, -1.0)), RIGHT) > 0.0);
    let (avoid, brief) = said("thicknesser", "thickness", CautionKind::FeedDirection);
    for text in [&avoid, &brief] {
        let turn = "seen from the side with the infeed on the right, the block turns anticlockwise";
        assert!(text.contains(turn), "{text}");
        assert!(text.contains("from right to left"), "{text}");
    }
    assert!(avoid.contains("infeed side only"), "{avoid}");
}

/// L-16 with TP-04 (one piece at a time); TP-06 (no piece shorter than the space between the
/// rollers); TP-02 (no hand at the nip).
#[test]
fn the_thicknesser_takes_one_piece_that_its_rollers_can_hold() {
    let (kick, _) = said("thicknesser", "thickness", CautionKind::Kickback);
    assert!(kick.contains("one piece at a time"), "{kick}");
    let (hold, _) = said("thicknesser", "thickness", CautionKind::HoldSupport);
    assert!(
        hold.contains("longer than the space between the rollers"),
        "{hold}"
    );
    let (hands, brief) = said("thicknesser", "thickness", CautionKind::HandDistance);
    for text in [&hands, &brief] {
        assert!(text.contains("let go when the roller grips"), "{text}");
        assert!(text.contains("no hand past the hood"), "{text}");
    }
}

/// DM-07: you face the column, and the drill turns clockwise seen from above, y towards the
/// column. The end that goes to the column is the left one. DM-06 (cramped, never held), DM-08
/// (key), DM-09 (gloves, hair), DM-12 (gap and hold-down).
#[test]
fn drilled_and_mortised_work_is_cramped() {
    let (_, left_end) = runs(CLOCKWISE, (-1.0, 0.0));
    let (_, right_end) = runs(CLOCKWISE, RIGHT);
    assert!(left_end > 0.0 && right_end < 0.0);
    let (hold, _) = said("drill-press", "drill", CautionKind::HoldSupport);
    assert!(
        hold.contains("free end to the left, against the column"),
        "{hold}"
    );
    let (chuck, _) = said("drill-press", "drill", CautionKind::ToolSecurity);
    assert!(chuck.contains("key out"), "{chuck}");
    for (machine, operation) in [
        ("drill-press", "drill"),
        ("mortiser", "hollow-chisel-mortise"),
        ("mortiser", "chain-mortise"),
    ] {
        let (hold, _) = said(machine, operation, CautionKind::HoldSupport);
        let (hands, brief) = said(machine, operation, CautionKind::HandDistance);
        for text in [&hold, &hands, &brief] {
            assert!(text.contains("cramped"), "{operation}: {text}");
        }
        let (dress, _) = said(machine, operation, CautionKind::Ppe);
        assert!(
            dress.contains("no gloves") && dress.contains("net or cap"),
            "{dress}"
        );
    }
    let (hold, _) = said(
        "mortiser",
        "hollow-chisel-mortise",
        CautionKind::HoldSupport,
    );
    assert!(
        hold.contains("hold-down") && hold.contains("return stroke"),
        "{hold}"
    );
    let (chisel, _) = said(
        "mortiser",
        "hollow-chisel-mortise",
        CautionKind::ToolSecurity,
    );
    assert!(
        chisel.contains("gap between bit and chisel as their maker says"),
        "{chisel}"
    );
}
