//! Saws, spindle moulder, sander: what their rows ask for, where it stands, and the directions.
//!
//! Outside references: the rows are typed from the project's safety reference, section 8 (our own
//! judgement, derived). `R*` is a cell with a condition there (C3 blade or speed changed, C4 knife
//! or hood taken off, C5 piece short, curved, round or thick, C6 guard or stop altered) that no value
//! of a set-up tells: the kind is asked always.

use std::collections::BTreeSet;

use faceside::caution::{Caution, CautionKind, Stands};
use faceside::diag::Code;
use faceside::formula::Values;
use faceside::shop::Jurisdiction;
use faceside::shop::Jurisdiction::{Eu, Uk, Unknown, Us};
use faceside::units::Value;

use super::{
    ALWAYS, FILES, all_hold, asked, book, book_in, but, codes, files, kinds, mm, plain, read,
    select, with, without,
};

/// Rows of the table saw. The mitre key in its cradle is a jig like that of the box joint.
const TABLE_SAW: &[(&str, &str)] = &[
    ("rip", "R R - R - R* R R R -"),
    ("crosscut", "R R - R - R* R R R R*"),
    ("housing-nonthrough", "R R - R - R R R - R"),
    ("groove-nonthrough", "R R R R - R R R - R"),
    ("rebate", "R R R R - R R R R R"),
    ("tenon-cheek-on-end", "R R - R - R* R R R R"),
    ("tenon-shoulder", "R R - R - R* R R R R"),
    ("box-joint-jig", "R R - R - R R R - R"),
    ("mitre-key-cradle", "R R - R - R R R - R"),
];

/// Rows of the band saw.
const BAND_SAW: &[(&str, &str)] = &[
    ("rip", "R R - R - - R R* R -"),
    ("resaw", "R R - R - - R R* R -"),
    ("curve", "R R - R - - R R* R -"),
    ("tenon-cheek", "R R - R R - R R* R -"),
    ("round-stock", "R R - R - - R R R -"),
];

/// Rows of the mitre saw.
const MITRE_SAW: &[(&str, &str)] = &[
    ("crosscut", "R R - R - R* R R R -"),
    ("mitre", "R R - R - R* R R R -"),
    ("trench-nonthrough", "R R - R - R* R R - R*"),
];

/// Rows of the spindle moulder.
const SPINDLE_MOULDER: &[(&str, &str)] = &[
    ("through-groove", "R R R C1 - R R R C2 -"),
    ("stopped-groove", "R R R R R R R R C2 -"),
    ("rebate", "R R R C1 - R R R C2 -"),
    ("edge-mould-straight", "R R R C1 - R R R C2 -"),
    ("edge-mould-curved", "R R - R R R R R - -"),
    ("tenon-carriage", "R R - R - R R R R -"),
];

/// Rows of the sander.
const SANDER: &[(&str, &str)] = &[
    ("disc", "R R - R - - R R* - -"),
    ("drum", "R R - R - - R R* - -"),
    ("belt", "R R - R - - R R* - -"),
];

/// Rows by machine.
pub(crate) const MACHINES: [(&str, &[(&str, &str)]); 5] = [
    ("table-saw", TABLE_SAW),
    ("band-saw", BAND_SAW),
    ("mitre-saw", MITRE_SAW),
    ("spindle-moulder", SPINDLE_MOULDER),
    ("sander", SANDER),
];

/// Machines that are also set without a cut.
pub(crate) const SETTING: [&str; 6] = [
    "router-table",
    "table-saw",
    "band-saw",
    "mitre-saw",
    "spindle-moulder",
    "sander",
];

fn rows() -> impl Iterator<Item = (&'static str, &'static str, &'static str)> {
    MACHINES.iter().flat_map(|(machine, rows)| {
        rows.iter()
            .map(|(operation, row)| (*machine, *operation, *row))
    })
}

#[track_caller]
fn of_kind(machine: &str, operation: &str, kind: CautionKind) -> Caution {
    let all = select(machine, operation, &plain());
    let found: Vec<_> = all.into_iter().filter(|one| one.kind() == kind).collect();
    assert_eq!(found.len(), 1, "{machine} {operation} {}", kind.name());
    found[0].clone()
}

#[test]
fn every_row_gives_what_it_says_and_no_more() {
    for (machine, operation, row) in rows() {
        for (c1, c2) in [(false, false), (true, false), (false, true), (true, true)] {
            let mut values = match c1 {
                true => but("piece.length", mm(299.0)),
                false => plain(),
            };
            values.insert("leaves_strip", Value::Truth(c2));
            let wanted = asked(row, &|cell| match cell {
                "R*" => true,
                "C1" => c1,
                "C2" => c2,
                _ => false,
            });
            let given = kinds(machine, operation, &values);
            assert_eq!(given, wanted, "{machine} {operation}, C1 {c1}, C2 {c2}");
        }
    }
}

#[test]
fn setting_without_a_cut_carries_what_every_machine_needs_and_how_the_tool_is_held() {
    let wanted: BTreeSet<_> = ALWAYS.into_iter().chain(["tool-security"]).collect();
    for machine in SETTING {
        let given = kinds(machine, "setting", &Values::new());
        assert_eq!(given, wanted, "{machine}");
    }
}

/// A stopped cut must be read before the step; so must what the hands do.
#[test]
fn before_each_cut_stand_the_sharp_cautions_and_four_at_most() {
    let sharp = [
        CautionKind::FeedDirection,
        CautionKind::NoTrap,
        CautionKind::HandDistance,
        CautionKind::StoppedCut,
        CautionKind::OffcutTrap,
    ];
    for (machine, operation, _) in rows() {
        let given = select(machine, operation, &all_hold());
        let at_cut = (given.iter()).filter(|one| one.stands() == Stands::Cut);
        let count = at_cut.clone().count();
        assert!((2..=4).contains(&count), "{machine} {operation}: {count}");
        for caution in &given {
            let stands = match caution.kind() {
                // Four stand before a stopped groove already.
                CautionKind::OffcutTrap if operation == "stopped-groove" => Stands::Sheet,
                kind if sharp.contains(&kind) => Stands::Cut,
                CautionKind::Isolate => Stands::Adjust,
                _ => Stands::Sheet,
            };
            assert_eq!(caution.stands(), stands, "{}", caution.id());
        }
        for caution in given.iter().filter(|one| one.stands() != Stands::Sheet) {
            let brief = caution.brief().unwrap_or_default();
            let (short, long) = (brief.len(), caution.avoid().len());
            assert!(short > 0 && short < long, "{}", caution.id());
        }
    }
}

/// Seen from the left one looks along +x with +y (the way of the feed) on the left hand. The blade
/// turns so that its front (-y) goes down: there the right hand's side goes down, clockwise.
#[test]
fn a_saw_is_fed_from_front_to_back_against_the_teeth() {
    // x to the right, y from front to back, z up; turn about +x by the right hand: v = (0, -z, y).
    let edge = |turn: f64, (y, z): (f64, f64)| (turn * -z, turn * y);
    // Front teeth (y < 0) come down (vz < 0): safety reference TS-25.
    let turn = 1.0;
    assert!(edge(turn, (-1.0, 0.0)).1 < 0.0);
    // Above the table the teeth come forward, against a feed to +y; at the back they rise.
    assert!(edge(turn, (0.0, 1.0)).0 < 0.0);
    assert!(edge(turn, (1.0, 0.0)).1 > 0.0);
    // From the left the eye looks along +x: a turn about the line of sight is clockwise when it is
    // right-handed.
    let sense = if turn > 0.0 {
        "clockwise"
    } else {
        "anticlockwise"
    };
    for (operation, _) in TABLE_SAW {
        let feed = of_kind("table-saw", operation, CautionKind::FeedDirection);
        for text in [feed.avoid(), feed.brief().unwrap()] {
            let told = format!("Seen from the left the blade turns {sense}");
            assert!(text.contains(&told), "{operation}: {text}");
            assert!(text.contains("from front to back"), "{operation}: {text}");
        }
    }
    for (operation, _) in BAND_SAW {
        let feed = of_kind("band-saw", operation, CautionKind::FeedDirection);
        assert!(
            feed.avoid().contains("runs down through the table"),
            "{operation}"
        );
        assert!(feed.avoid().contains("from front to back"), "{operation}");
    }
}

/// A mitre saw's blade turns as a table saw's: below it runs to the back (+y), to the fence. The head
/// that goes to +y meets wood that goes to -y against the teeth; drawn to -y it climbs (MS-08).
#[test]
fn a_mitre_saws_head_is_pushed_and_its_blade_runs_to_the_fence() {
    let below = (0.0, -1.0);
    let along = |turn: f64, (_, z): (f64, f64)| turn * -z;
    assert!(along(1.0, below) > 0.0);
    for (operation, _) in MITRE_SAW {
        let feed = of_kind("mitre-saw", operation, CautionKind::FeedDirection);
        for text in [feed.avoid(), feed.brief().unwrap()] {
            for words in [
                "Seen from the left the blade turns clockwise",
                "fence behind the work",
                "from front to back",
            ] {
                assert!(text.contains(words), "{operation}: {text}");
            }
        }
        assert!(feed.avoid().contains("held back"), "{operation}");
    }
}

/// About an upright axis, sense +1 anticlockwise from above: the edge near the operator (y = -1)
/// runs to sense * 1 along x. Fed against it: to the left where it runs right.
#[test]
fn spindle_drum_and_edge_belt_are_fed_against_either_rotation() {
    let against = |sense: f64| match sense * 1.0 > 0.0 {
        true => "right to left",
        false => "left to right",
    };
    let anticlockwise = format!("from {}", against(1.0));
    let clockwise = against(-1.0);
    let spindle = SPINDLE_MOULDER.iter().map(|row| ("spindle-moulder", row.0));
    for (machine, operation) in spindle.chain([("sander", "drum"), ("sander", "belt")]) {
        let feed = of_kind(machine, operation, CautionKind::FeedDirection);
        for text in [feed.avoid(), feed.brief().unwrap()] {
            let (first, second) = text.split_once("; clockwise").unwrap();
            let words = first.split_once("een from above anticlockwise").unwrap().1;
            assert!(words.contains(&anticlockwise), "{operation}: {text}");
            assert!(second.contains(clockwise), "{operation}: {text}");
        }
    }
    // A disc faces the operator; seen from the front, anticlockwise, its left (x = -1) goes to
    // z = sense * x: down.
    let down = |sense: f64, x: f64| sense * x < 0.0;
    assert!(down(1.0, -1.0) && down(-1.0, 1.0));
    let feed = of_kind("sander", "disc", CautionKind::FeedDirection);
    for text in [feed.avoid(), feed.brief().unwrap()] {
        let text = text.replace(" half runs down", "");
        assert!(
            text.contains("anticlockwise the left, clockwise the right"),
            "{text}"
        );
    }
}

/// Figures of the sources, safety reference section 2.3: TS-01 6.4 mm, TS-11 300 mm, TS-12 450 mm,
/// TS-15 1200 mm, TS-17 60 %.
#[test]
fn figures_are_those_of_the_sources() {
    let told = |machine, operation, kind| of_kind(machine, operation, kind).avoid().to_owned();
    for (kind, figures) in [
        (CautionKind::Guard, &["6 mm"][..]),
        (CautionKind::HandDistance, &["450 mm", "last 300 mm"]),
        (CautionKind::HoldSupport, &["1200 mm"]),
        (CautionKind::Speed, &["60 %"]),
    ] {
        let text = told("table-saw", "rip", kind);
        assert!(figures.iter().all(|one| text.contains(one)), "{text}");
    }
    // MS-01 300 mm, MS-02 50 mm.
    for (operation, _) in MITRE_SAW {
        let hands = told("mitre-saw", operation, CautionKind::HandDistance);
        let guard = told("mitre-saw", operation, CautionKind::Guard);
        assert!(hands.contains("300 mm") && guard.contains("50 mm"));
    }
    // L-12: the fence is never stop and guide at once.
    let text = told("table-saw", "crosscut", CautionKind::OffcutTrap);
    assert!(text.contains("clearance block"), "{text}");
}

const RIP: (&str, &str) = ("table-saw", "rip");
const GROOVE: (&str, &str) = ("table-saw", "groove-nonthrough");
const SPINDLE_REBATE: (&str, &str) = ("spindle-moulder", "rebate");

/// Jurisdiction, cut, kind, words of the text, words of its source.
pub(super) type Case = (
    Jurisdiction,
    (&'static str, &'static str),
    CautionKind,
    &'static str,
    &'static str,
);

/// Where sources differ: L-13 of the safety reference, and the facts named beside each.
const DIFFERING: &[Case] = &[
    // TS-05, TS-06: 3-8 mm and 2 mm, item p of the list after EN 1870-1.
    (
        Unknown,
        RIP,
        CautionKind::Kickback,
        "3-8 mm",
        "EN 1870-1, item p",
    ),
    (
        Unknown,
        RIP,
        CautionKind::Kickback,
        "top at most 2 mm",
        "TS-06",
    ),
    (
        Eu,
        RIP,
        CautionKind::Kickback,
        "3-8 mm",
        "EN 1870-1, item p",
    ),
    // TS-05: 8 mm at most, HSE web page on ripsaws.
    (
        Uk,
        RIP,
        CautionKind::Kickback,
        "8 mm at most",
        "HSE, ripsaws",
    ),
    // TS-05: 1/2 in = 12.7 mm at most, California 4296(j); TS-09, 4300.1(c)(1).
    (
        Us,
        RIP,
        CautionKind::Kickback,
        "12.7 mm (1/2 in) at most",
        "4296(j)",
    ),
    (
        Us,
        RIP,
        CautionKind::Kickback,
        "anti-kickback device",
        "4300.1(c)(1)",
    ),
    // TD-01: grooving only with special guards, another machine preferred.
    (
        Unknown,
        GROOVE,
        CautionKind::Guard,
        "another machine",
        "Sheet 16, TD-01",
    ),
    (
        Uk,
        GROOVE,
        CautionKind::Guard,
        "tunnel guard",
        "Sheet 16, TD-01",
    ),
    (Eu, GROOVE, CautionKind::Guard, "another machine", "TD-01"),
    // TD-02, G-10: featherboards or jigs are the substitute, California 4296(a).
    (
        Us,
        GROOVE,
        CautionKind::Guard,
        "featherboards or a jig",
        "4296(a), G-10",
    ),
    // TD-03: 20 mm, MAN, item l of the list after EN 1870-1.
    (
        Unknown,
        GROOVE,
        CautionKind::ToolSecurity,
        "at most 20 mm wide, marked MAN",
        "item l",
    ),
    (
        Eu,
        GROOVE,
        CautionKind::ToolSecurity,
        "at most 20 mm wide, marked MAN",
        "item l",
    ),
    (
        Uk,
        GROOVE,
        CautionKind::ToolSecurity,
        "at most 20 mm wide, marked MAN",
        "item l",
    ),
    (
        Us,
        GROOVE,
        CautionKind::ToolSecurity,
        "made for this arbor",
        "437-004-2000(2)(k)",
    ),
    // G-44: 1.1 mm and MAN, EN 847-1 as summed up; SM-01: Washington 296-78-645(1).
    (
        Unknown,
        SPINDLE_REBATE,
        CautionKind::ToolSecurity,
        "1.1 mm",
        "EN 847-1",
    ),
    (
        Uk,
        SPINDLE_REBATE,
        CautionKind::ToolSecurity,
        "1.1 mm",
        "G-43",
    ),
    (
        Eu,
        SPINDLE_REBATE,
        CautionKind::ToolSecurity,
        "1.1 mm",
        "EN 847-1",
    ),
    (
        Us,
        SPINDLE_REBATE,
        CautionKind::ToolSecurity,
        "Round heads",
        "296-78-645(1), SM-01",
    ),
];

/// What one kind tells at a machine, and its sources, in a jurisdiction.
#[track_caller]
pub(super) fn told_in(
    jurisdiction: Jurisdiction,
    at: (&str, &str),
    kind: CautionKind,
) -> (String, String) {
    let selected = book_in(jurisdiction).select(at.0, at.1, &plain());
    let found: Vec<_> = (selected.iter().flat_map(|selected| selected.all()))
        .filter(|one| one.kind() == kind)
        .collect();
    assert_eq!(found.len(), 1, "{at:?} {}", jurisdiction.name());
    let sources = found[0].sources().iter().map(|one| one.text.as_str());
    (
        found[0].avoid().to_owned(),
        Vec::from_iter(sources).join("; "),
    )
}

/// L-13 of the safety reference: knife gap, dado permission and groove width follow the shop's
/// setting; unknown = the strictest.
#[test]
fn where_sources_differ_the_text_follows_the_jurisdiction() {
    for (jurisdiction, at, kind, words, source) in DIFFERING.iter().copied() {
        let (avoid, sources) = told_in(jurisdiction, at, kind);
        let name = jurisdiction.name();
        assert!(avoid.contains(words), "{at:?} {name}: {avoid}");
        assert!(sources.contains(source), "{at:?} {name}: {sources}");
    }
    for (at, kind, words) in [
        (RIP, CautionKind::Kickback, "12.7 mm"),
        (GROOVE, CautionKind::Guard, "featherboards"),
    ] {
        for jurisdiction in [Unknown, Uk, Eu] {
            let (avoid, _) = told_in(jurisdiction, at, kind);
            assert!(!avoid.contains(words), "{}: {avoid}", jurisdiction.name());
        }
    }
    assert!(
        !told_in(Us, GROOVE, CautionKind::ToolSecurity)
            .0
            .contains("20 mm")
    );
}

#[test]
fn each_jurisdiction_has_the_kinds_of_every_row() {
    for jurisdiction in Jurisdiction::ALL {
        let book = book_in(jurisdiction);
        for (machine, operation) in book.pairs() {
            let here = book.select(machine, operation, &all_hold()).unwrap();
            let kinds_here: BTreeSet<_> = here.all().iter().map(|one| one.kind().name()).collect();
            assert_eq!(kinds_here, kinds(machine, operation, &all_hold()));
        }
    }
}

/// A kind that holds in some jurisdictions only is missing in the others, whichever the shop has.
#[test]
fn a_kind_that_one_jurisdiction_lacks_is_told_at_load() {
    let less: Vec<_> = (files().into_iter())
        .map(|(name, text)| (name, without(&text, "ts-kickback-uk")))
        .collect();
    let (less, _) = read(&less);
    let faults = less.check();
    assert_eq!(codes(&faults), [Code::CAUTION_MISSING; 2]);
    for fault in faults.iter() {
        assert!(fault.message.contains("`kickback`"), "{}", fault.message);
        assert!(
            fault
                .hints
                .iter()
                .any(|hint| hint.contains("jurisdiction is uk;")),
            "{fault:#?}"
        );
    }
    let of = |jurisdiction| less.clone().with_jurisdiction(jurisdiction);
    assert!(
        of(Jurisdiction::Us)
            .select("table-saw", "rip", &plain())
            .is_ok()
    );
    assert!(
        of(Jurisdiction::Uk)
            .select("table-saw", "rip", &plain())
            .is_err()
    );
}

/// A shop's rule takes no jurisdiction away; names must be known, and there must be one.
#[test]
fn a_rule_with_a_list_of_jurisdictions_is_read_closely() {
    let own = "machine: table-saw
cautions:
  - caution: ts-kickback-uk
    kind: kickback
    operations: [rip, crosscut]
    stands: sheet
    jurisdiction: [uk]
    signal: warning
    hazard: Wood closes on the blade.
    harm: Kickback has killed.
    avoid: Riving knife 8 mm at most behind the teeth.
    sources: [{cite: HSE web page, fact: TS-05, status: read}]
";
    let (replaced, faults) = with(own);
    assert_eq!(codes(&faults), [Code::OVERLAID]);
    assert!(!replaced.check().any_error());
    for (list, code) in [
        ("[uk, us]", Code::OVERLAID),
        ("[us]", Code::DUPLICATE_ID),
        ("[]", Code::WRONG_TYPE),
        ("[gb]", Code::UNKNOWN_NAME),
    ] {
        let (_, faults) = with(&own.replace("[uk]", list));
        assert_eq!(codes(&faults), [code], "{list}");
    }
    let here = book_in(Jurisdiction::Uk).rules_here().count();
    let lost = |name: &str| {
        (FILES.iter().flat_map(|(_, text)| text.lines()))
            .filter(|line| line.trim_start().starts_with("jurisdiction: ") && !line.contains(name))
            .count()
    };
    assert_eq!(here, book().rules().count() - lost("uk"));
}
