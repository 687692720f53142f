//! A small job of a sailing club's boathouse, written out by hand: what the filling of procedures
//! gives, without reading any file. Figures: `joinery.md` 3.1 (D 12.7, 14 degrees, h 9.5, T 19)
//! and 3.6 (L 285, b 12, d 18, cl 0.5).

use std::collections::BTreeMap;

use faceside::caution::{Caution, Limits, Selected, Stands};
use faceside::jobs::{Checklist, CutSize, Piece, Sheets};
use faceside::procedure::{
    Does, Drawing, Filled, FilledCheck, FilledSetUp, FilledStep, FilledValue, Guide, Mark,
    PieceSize, Plan, Provenance, Run, RunCutter, RunTable, Setting, Trouble,
};
use faceside::render::block::Field;
use faceside::render::{
    CautionPage, CautionText, LiveFloor, NotePage, ProcedurePage, SitePages, TermEntry,
};
use faceside::store::Workshop;
use faceside::units::{Length, Value};

/// The limits of the fixture's sheets, in full and in short.
pub(crate) const LIMITS: &str = "This sheet helps a trained person to remember a procedure. If \
    anything feels wrong: stop, isolate, ask.";
pub(crate) const LIMITS_SHORT: &str = "Memory aid for trained persons. The stricter rule holds.";

fn limits() -> Limits {
    Limits {
        long: LIMITS.to_owned(),
        short: LIMITS_SHORT.to_owned(),
    }
}

/// Words, with values between braces: `{9.5 mm}`.
pub(crate) fn runs(text: &str) -> Vec<Run> {
    let parts = text.split(['{', '}']).enumerate();
    let said = parts.filter(|(_, part)| !part.is_empty());
    said.map(|(at, part)| match at % 2 {
        0 => Run::Words(part.to_owned()),
        _ => Run::Value {
            name: "slot".to_owned(),
            shown: part.to_owned(),
        },
    })
    .collect()
}

fn mm(value: f64) -> (Length, String) {
    (Length::mm(value), format!("{value} mm"))
}

/// A drawing of that shape with these lengths in millimetres.
pub(crate) fn drawing(shape: &str, lengths: &[(&str, f64)]) -> Drawing {
    let lengths = lengths
        .iter()
        .map(|(name, value)| ((*name).to_owned(), mm(*value)));
    Drawing {
        shape: shape.to_owned(),
        lengths: lengths.collect::<BTreeMap<_, _>>(),
        plan: None,
        angle: (shape.ends_with("sliding-dovetail") || shape == "one-sided-dovetail")
            .then(|| (14.0, "14°".to_owned())),
        letters: BTreeMap::new(),
    }
}

/// The drawings of the sheets.
pub(crate) fn drawings() -> Vec<Drawing> {
    let dovetail = [
        ("stock", 19.0),
        ("side", 22.0),
        ("mouth", 7.96),
        ("base", 12.7),
        ("depth", 9.5),
        ("exposure", 5.52),
        ("end_cut", 3.15),
    ];
    let one_sided = [
        ("stock", 19.0),
        ("side", 22.0),
        ("mouth", 14.63),
        ("base", 17.0),
        ("depth", 9.5),
        ("exposure", 4.37),
    ];
    let housing = [
        ("stock", 17.6),
        ("side", 18.0),
        ("width", 17.7),
        ("depth", 6.0),
    ];
    let stopped = [
        ("stock", 17.9),
        ("side", 18.0),
        ("width", 18.0),
        ("depth", 6.0),
        ("panel", 285.0),
        ("stop", 12.0),
        ("cutter", 18.0),
        ("length", 273.0),
        ("notch", 21.5),
        ("notch_depth", 5.8),
    ];
    vec![
        drawing("housing", &housing),
        drawing("stopped-housing", &stopped),
        drawing("sliding-dovetail", &dovetail),
        drawing("one-sided-dovetail", &one_sided),
    ]
}

/// A drawing of every shape; those of the sheets come first.
pub(crate) fn every_drawing() -> Vec<Drawing> {
    let mut all = drawings();
    all.extend(SECTIONS.iter().map(|text| written(text)));
    all.extend(PLANS.iter().map(plan));
    all
}

/// Shape and lengths in millimetres: the examples of the built-in procedures.
const SECTIONS: [&str; 24] = [
    "scribed-joint overall 450 stile 60 rail_length 349 profile 9.5 opening 330.1 rail_width 61",
    "through-dovetail board_width 150 tail_board 18.8 pin_board 19 tail_length 19.79 pin_line 19.59 \
     tail_wide 34.45833 tail_narrow 28.125 socket_wide 9.375 socket_narrow 3.04167 \
     half_socket_wide 4.6875 half_socket_narrow 1.52083",
    "lapped-dovetail board_width 120 tail_board 10 pin_board 19 tail_length 13 pin_line 9.9 \
     tail_wide 33.25 tail_narrow 30 socket_wide 10 socket_narrow 6.75 half_socket_wide 5 \
     half_socket_narrow 3.375 lap 6",
    "keyed-mitre board 15 key_depth 9 key_leg 12.73 key_base 18 key_left 12.21 corner_height 80 \
     outer 26.67 slot 6",
    "drawer front_length 398 front 19 side_thick 10 side_length 437.3 front_lap 6 back 10.1 \
     back_in 12 inside_width 378 back_tongue_length 2.6 back_tongue 5.9 side_height 118 back_height 92.6 \
     groove_up 10.1 groove_width 6",
    "stopped-sliding-dovetail stock 19 side 22 mouth 7.96 base 12.7 depth 9.5 exposure 5.52 \
     end_cut 3.15 panel 285 stop 12 pocket 16 notch 20",
    "tapered-sliding-dovetail stock 19 side 22 mouth 7.96 base 12.7 depth 9.5 exposure 5.52 \
     end_cut 3.15 joint_length 400 mouth_back 10.1",
    "breadboard board 27 end_thick 27.1 mortised_width 80 groove 8 depth 15.6 wall 9.5 tongue 7.9 \
     tongue_length 14.6 shoulder_face 9.51 shoulder_back 9.59 cutter 6",
    "bridle board 22 slot 7.4 cheek 7.3 depth 56 tongue 7.35 tongue_length 66 shoulder_face 7.32 \
     width_b 50",
    "comb-joint board_width 114 board 11.4 finger 11.95 slot 12 depth 11.9 proud 0.5",
    "cross-halving stock_a 22 stock_b 21.8 depth_a 11 depth_b 10.8 recess_a 50.1 recess_b 60.1 \
     width_b 50",
    "dovetail-halving stock_a 22 stock_b 21.8 depth_a 11 depth_b 10.8 lap_b 61.5 neck 44.65 \
     width_a 60 width_b 59",
    "dowels board 22 rail_width 90 mortised_width 60 first 20 pitch 50 cutter 8 rail_depth 21.5 \
     mortise_depth 21 dowel 40",
    "edge-joint board 22 board_width 95 joint_length 900 first_cramp 75 spacing 150",
    "end-halving stock_a 22 stock_b 21.8 depth_a 11 depth_b 10.8 lap_a 51.5 lap_b 61.5 width_b 50",
    "frame-and-panel board 22 mortised_width 60 groove 6.2 depth 10 wall 7.9 panel_edge 6 gap 2.2",
    "haunched-tenon stock 22 tenon 7.9 tenon_length 51 shoulder_face 7.05 shoulder_back 7.06 \
     rail_width 70 tenon_width 30.7 mortised 22.1 mortised_width 60 wall 7.07 mortise 8 \
     mortise_depth 52.5 depth 8.2 haunch_long 7.7 haunch_wide 31.3",
    "loose-tenon stock 22 tenon 7.9 tenon_length 37 mortised 22.1 mortised_width 60 wall 7 \
     mortise 8 mortise_depth 20 rail_depth 20.1",
    "rebate board 18.3 mate 11.7 rebate 12.2 depth 9.15",
    "splined-mitre board 24 centre 10 groove 6 depth 6.1 spline 5.9 spline_width 11.2",
    "tenon stock 22.1 tenon 9.95 tenon_length 37 shoulder_face 6 shoulder_back 6.15 rail_width 90 \
     tenon_width 49.95 mortised 44 mortised_width 44.1 wall 6.01 mortise 10.05 mortise_depth 38.5",
    "through-tenon stock 22.1 tenon 9.95 tenon_length 47 shoulder_face 6 shoulder_back 6.15 \
     rail_width 90 tenon_width 49.95 mortised 44 mortised_width 44.1 wall 6.01 mortise 10.05",
    "tongue-and-groove board 18.2 groove 6.2 depth 6 wall 6.01 tongue 6.1 tongue_length 5 \
     shoulder_face 6.05 shoulder_back 6.06",
    "tongue-in-housing stock 17.6 side 18.3 width 8 depth 6 wall 10.7 tongue 7.9 tongue_length 5 \
     shoulder_face 9.7",
];

/// Machine, operation, guide, face down, what is against the guide, lengths in millimetres.
type PlanOf = (
    &'static str,
    &'static str,
    Guide,
    &'static str,
    &'static str,
    &'static str,
);

/// A plan view of every machine and every guide.
const PLANS: [PlanOf; 30] = [
    (
        "router-table",
        "through-groove",
        Guide::Fence,
        "inside face",
        "end",
        "fence 66 cutter 12.7 hands 150 long 320 across 900 pass_after 71.7",
    ),
    (
        "router-table",
        "stopped-groove",
        Guide::Fence,
        "inside face",
        "end",
        "fence 60 cutter 12 hands 150 long 320 across 900 stop_left 296",
    ),
    (
        "router-table",
        "stopped-groove",
        Guide::Fence,
        "inside face",
        "end",
        "fence 60 cutter 12 hands 150 long 320 across 900 stop_right 296",
    ),
    (
        "router-table",
        "rebate",
        Guide::Fence,
        "face side",
        "edge",
        "fence_edge 5.5 cutter 12.7 hands 150 long 600 across 95",
    ),
    (
        "router-table",
        "through-groove",
        Guide::Sled,
        "back",
        "end",
        "fence_edge 37 cutter 15.7 hands 150 long 90 across 568 pass_before 12.35",
    ),
    (
        "router-table",
        "end-grain-narrow",
        Guide::Carrier,
        "face side",
        "end",
        "fence_edge 51.5 cutter 15.7 hands 150 long 50 across 400",
    ),
    (
        "table-saw",
        "rip",
        Guide::Fence,
        "face side",
        "face edge",
        "fence_near 95.7 cutter 250 height 30 hands 150 long 950 across 120",
    ),
    (
        "table-saw",
        "housing-nonthrough",
        Guide::Gauge,
        "inside face",
        "edge",
        "stop_near 120 cutter 200 height 6 kerf 17.7 hands 150 long 320 across 900",
    ),
    (
        "table-saw",
        "tenon-cheek-on-end",
        Guide::Carriage,
        "end",
        "face side",
        "fence_near 9.3 cutter 250 height 56 hands 150 long 60 across 22",
    ),
    (
        "band-saw",
        "tenon-cheek",
        Guide::Fence,
        "edge",
        "face side",
        "fence_near 12 stop_after 58.5 hands 100 long 400 across 22",
    ),
    (
        "jointer",
        "edge-plane",
        Guide::Fence,
        "edge",
        "face side",
        "hands 76 long 950 across 22 table 260",
    ),
    (
        "thicknesser",
        "thickness",
        Guide::Rollers,
        "face side",
        "",
        "long 950 across 120 table 300",
    ),
    (
        "drill-press",
        "drill",
        Guide::Cramped,
        "face side",
        "edge",
        "fence 45 cutter 8 long 300 across 90",
    ),
    (
        "mortiser",
        "hollow-chisel-mortise",
        Guide::Cramped,
        "edge",
        "face side",
        "fence_near 6 cutter 10.05 long 700 across 44",
    ),
    (
        "mitre-saw",
        "crosscut",
        Guide::Cramped,
        "face side",
        "edge",
        "stop_near 494 cutter 250 hands 300 long 494 across 90",
    ),
    (
        "hand-router",
        "through-groove",
        Guide::Straightedge,
        "outside face",
        "",
        "edge_near 69 cutter 12 long 320 across 1800",
    ),
    (
        "router-table",
        "mitre-key-cradle",
        Guide::Jig,
        "",
        "back of the cradle",
        "fence 146.65 cutter 6 hands 150 rest 120 long 364 across 80",
    ),
    (
        "router-table",
        "box-joint-jig",
        Guide::Jig,
        "",
        "back of the jig",
        "pin_gap 11.85 cutter 11.95 hands 150 behind 122 long 11.4 across 120",
    ),
    (
        "router-table",
        "end-grain-narrow",
        Guide::Carrier,
        "",
        "",
        "fence_edge 61.5 cutter 15.7 hands 150 rest 67 long 60 across 560",
    ),
    (
        "table-saw",
        "tenon-cheek-on-end",
        Guide::Carriage,
        "end",
        "each face in turn",
        "fence_near 14.7 rest 0.25 cutter 250 height 64.25 hands 150 long 50 across 22",
    ),
    (
        "table-saw",
        "housing-nonthrough",
        Guide::Gauge,
        "",
        "",
        "end_near 200 cutter 200 height 6 kerf 17.7 hands 150 long 320 across 600",
    ),
    (
        "table-saw",
        "crosscut",
        Guide::Gauge,
        "",
        "straight edge",
        "cutter 250 height 30 hands 150 long 150 across 700",
    ),
    (
        "band-saw",
        "curve",
        Guide::Freehand,
        "outside face",
        "",
        "hands 100 long 350 across 120",
    ),
    (
        "jointer",
        "face-plane",
        Guide::Freehand,
        "hollow face",
        "",
        "hands 76 long 960 across 110 table 260",
    ),
    (
        "hand-router",
        "through-groove",
        Guide::Straightedge,
        "back",
        "",
        "edge_near 72 edge_end 86.6 cutter 15.7 long 600 across 1200",
    ),
    (
        "hand-router",
        "stopped-groove",
        Guide::Straightedge,
        "outside face",
        "",
        "edge_near 69 stop_beyond 69 stop 12 cutter 12 long 320 across 1800",
    ),
    (
        "hand-router",
        "through-groove",
        Guide::Boards,
        "back",
        "",
        "apart 50.1 cutter 15.7 long 60 across 700",
    ),
    (
        "hand-router",
        "mortise-jig",
        Guide::Slot,
        "",
        "face side",
        "block_axis 11 slot_long 58 bush 16 plate_long 308 plate_wide 80 cutter 8 long 700 across 22",
    ),
    (
        "hand-router",
        "stopped-groove",
        Guide::EdgeGuide,
        "",
        "",
        "guide_axis 53.4 support 45 cutter 8 long 120 across 19",
    ),
    (
        "mitre-saw",
        "mitre",
        Guide::Cramped,
        "edge",
        "outside face",
        "stop_near 280 cutter 250 hands 300 long 280 across 17",
    ),
];

fn plan((machine, operation, guide, down, to, text): &PlanOf) -> Drawing {
    let mut drawing = written(&format!("plan {text}"));
    let said = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    drawing.plan = Some(Plan {
        machine: (*machine).to_owned(),
        operation: (*operation).to_owned(),
        guide: *guide,
        down: said(down),
        to_guide: said(to),
    });
    drawing.angle = (*operation == "mitre").then(|| (45.0, "45°".to_owned()));
    drawing
}

fn written(text: &str) -> Drawing {
    let mut words = text.split(' ');
    let shape = words.next().unwrap_or_default();
    let words: Vec<&str> = words.collect();
    let lengths = words.chunks_exact(2);
    let lengths: Vec<(&str, f64)> = lengths
        .map(|pair| (pair[0], pair[1].parse().expect("a length")))
        .collect();
    drawing(shape, &lengths)
}

fn check(measure: &str, [wanted, low, high]: [f64; 3], [below, above]: [&str; 2]) -> FilledCheck {
    FilledCheck {
        measure: runs(measure),
        is: mm(wanted).0,
        wanted: mm(wanted).1,
        low: mm(low).0,
        high: mm(high).0,
        low_shown: mm(low).1,
        high_shown: mm(high).1,
        tool: "caliper".to_owned(),
        moved_by: None,
        if_low: runs(below),
        if_high: runs(above),
    }
}

fn value(name: &str, label: &str, millimetres: f64, provenance: Provenance) -> FilledValue {
    let (length, shown) = mm(millimetres);
    FilledValue {
        name: name.to_owned(),
        label: label.to_owned(),
        value: Value::Length(length),
        shown,
        rounding: String::new(),
        provenance,
    }
}

fn setting(name: &str, label: &str, shown: &str, rounding: &str) -> Setting {
    Setting {
        name: name.to_owned(),
        label: label.to_owned(),
        value: Value::Length(Length::mm(1.0)),
        shown: shown.to_owned(),
        rounding: rounding.to_owned(),
    }
}

fn steps(selected: &Selected) -> Vec<FilledStep> {
    let step = |does, act: &str| FilledStep::new(does, selected, runs(act));
    let mut fit = step(Does::Adjust, "Fit {18 mm straight} in the collet.");
    fit.keys = vec![runs("Shank in to its mark, then back by 2 mm.")];
    let mut height = step(Does::Adjust, "Set the cutter {6 mm} above the table.");
    height.keys = vec![runs("Lock the height, then measure again.")];
    height.why = runs("Locking moves the cutter on most lifts.");
    height.check = Some(check(
        "depth of the groove in the test piece",
        [6.0, 5.9, 6.0],
        [
            "Raise the cutter by the difference and cut the same test piece again.",
            "Lower the cutter by the difference and cut a fresh test piece.",
        ],
    ));
    let mut stop = step(
        Does::Adjust,
        "Clamp the stop block {255 mm} from the near edge of the cutter, on the outfeed side.",
    );
    stop.keys = vec![runs("Rule on the block's face, not on the cramp.")];
    let mut cut = step(
        Does::Cut,
        "Feed the open end first, from right to left, to the stop block.",
    );
    cut.keys = vec![
        runs("Front edge trailing; the mark FRONT faces you."),
        runs("At the block switch off, wait until the cutter stands, then lift."),
    ];
    cut.check = Some(check(
        "length of the housing to its crown",
        [273.0, 272.5, 273.0],
        [
            "Move the block away from the cutter by the difference.",
            "Keep the piece for a lower shelf; move the block towards the cutter.",
        ],
    ));
    let mark = step(Does::Other, "Mark FRONT on the outside of every side.");
    vec![mark, fit, height, stop, cut]
}

fn cutter() -> RunCutter {
    RunCutter {
        id: "straight-18".to_owned(),
        name: "18 mm straight".to_owned(),
        diameter: "18 mm".to_owned(),
        known_from: "measured 2026-11-02 with caliper".to_owned(),
        speed_note: "marked for 22000 rpm at most".to_owned(),
        why: Some("the largest that is not wider than the shelf".to_owned()),
    }
}

/// The set-up that cuts stopped housings.
pub(crate) fn set_up(selected: &Selected) -> FilledSetUp {
    FilledSetUp {
        plan: None,
        title: "Cut the housings, open end first".to_owned(),
        machine: Some((
            "router-table-1".to_owned(),
            "router table by the slipway door".to_owned(),
        )),
        operation: "stopped-groove".to_owned(),
        cutter: Some(cutter()),
        piece: Some(PieceSize {
            length: Length::mm(285.0),
            width: Length::mm(900.0),
            thickness: Length::mm(18.0),
        }),
        holder: None,
        settings: vec![
            setting("speed", "Spindle speed", "16000 rpm", "rounded down"),
            setting("height", "Cutter above the table", "6 mm", "rounded down"),
            setting(
                "fence",
                "Fence to the near edge of the cutter",
                "291 mm",
                "",
            ),
            setting(
                "stop",
                "Stop block to the near edge of the cutter",
                "255 mm",
                "",
            ),
        ],
        standing: selected.standing(Stands::Sheet).cloned().collect(),
        steps: steps(selected),
        table: Some(RunTable {
            measured: "shelf".to_owned(),
            heads: vec!["fence, second pass".to_owned(), "shift".to_owned()],
            rows: [(17.9, false), (18.0, true), (18.1, false)]
                .map(|(shelf, planned)| {
                    let shift = format!("{:.1} mm", shelf - 17.9);
                    (
                        mm(shelf).1,
                        vec![format!("{:.1} mm", 273.1 + shelf), shift],
                        planned,
                    )
                })
                .to_vec(),
        }),
    }
}

fn troubles() -> Vec<Trouble> {
    vec![
        Trouble {
            see: runs("The shelf will not start in the housing."),
            cause: runs("The shelf was measured at one place only."),
            cure: runs("Measure at three places; plane the shelf to the housing."),
        },
        Trouble {
            see: runs("The bottom of the housing has steps."),
            cause: runs("The piece rode on chips."),
            cure: runs("Brush the table at standstill and pass it again."),
        },
    ]
}

fn values() -> Vec<FilledValue> {
    vec![
        value(
            "shelf",
            "Thickness of the shelf",
            17.9,
            Provenance::Measured,
        ),
        value("side", "Thickness of the side", 18.0, Provenance::Measured),
        value(
            "stop",
            "Front edge to the end of the housing",
            12.0,
            Provenance::Usual,
        ),
        value(
            "depth",
            "Depth of the housing",
            6.0,
            Provenance::WorkedOut("down_to(side / 3, router_table.height_step)".to_owned()),
        ),
    ]
}

/// The procedure, filled.
pub(crate) fn filled(selected: &Selected) -> Filled {
    Filled {
        procedure: "stopped-housing".to_owned(),
        title: "Stopped housing at the router table".to_owned(),
        purpose: "Carries a shelf in an upright without showing at the front edge.".to_owned(),
        done_when: "The shelf goes in by hand pressure and stays when it is let go.".to_owned(),
        revision: 3,
        reviewed: "2026-11-25".to_owned(),
        values: values(),
        ready: vec![
            (
                "tools".to_owned(),
                vec![runs("caliper"), runs("steel rule")],
            ),
            (
                "pieces".to_owned(),
                vec![runs("test piece of the side's stock, 300 mm long")],
            ),
        ],
        set_ups: vec![set_up(selected)],
        sizes: vec![("shelf length".to_owned(), "522.4 mm".to_owned())],
        troubles: troubles(),
        close: vec![(
            "cutters".to_owned(),
            vec![runs("Cutter out and in its place.")],
        )],
        warnings: vec!["The piece is narrower than the fence is high.".to_owned()],
        notes: vec!["One pass cuts both walls.".to_owned()],
        drawing: drawings().into_iter().nth(1),
    }
}

fn pieces() -> Vec<Piece> {
    let piece = |part: &str, hand: &str| Piece {
        part: part.to_owned(),
        number: (1, 1),
        hand: hand.to_owned(),
    };
    vec![
        piece("Locker A, side", "left"),
        piece("Locker B, side", "left"),
        piece("Oilskin bench, end", "left"),
    ]
}

fn checklist(selected: &Selected, number: usize, drawing: Drawing) -> Checklist {
    let first = number == 1;
    Checklist {
        number,
        procedure: (
            "stopped-housing".to_owned(),
            "Stopped housing at the router table".to_owned(),
            3,
        ),
        set_up: set_up(selected),
        first,
        after: if first { Vec::new() } else { vec![number - 1] },
        pieces: pieces(),
        from: vec![("Locker A, side".to_owned(), values())],
        changes: vec!["cutter".to_owned(), "height".to_owned()],
        minutes: 8,
        troubles: troubles(),
        close: vec![
            "Cutter out and in its place.".to_owned(),
            "Fence back at its mark.".to_owned(),
        ],
        drawing: Some(drawing),
        warnings: if first {
            vec!["The side is wider than the table is deep.".to_owned()]
        } else {
            Vec::new()
        },
        history: Vec::new(),
        notes: vec!["One pass cuts both walls.".to_owned()],
    }
}

/// A job with one checklist for each shape of drawing.
pub(crate) fn job(selected: &Selected) -> Sheets {
    let lists = drawings().into_iter().enumerate();
    Sheets {
        job: "boathouse-lockers".to_owned(),
        title: "Lockers and oilskin bench".to_owned(),
        shop: "Boathouse workshop".to_owned(),
        date: "2026-11-25".to_owned(),
        hash: "5f1c09ab".to_owned(),
        limits: limits(),
        ready: vec![
            (
                "tools".to_owned(),
                vec!["caliper".to_owned(), "steel rule".to_owned()],
            ),
            (
                "aids".to_owned(),
                vec!["two push-blocks with heel".to_owned()],
            ),
        ],
        cutting_list: vec![CutSize {
            part: "Locker A, shelf".to_owned(),
            pieces: 2,
            sizes: vec![
                "shelf length 522.4 mm".to_owned(),
                "notch 21.5 mm".to_owned(),
            ],
        }],
        checklists: lists
            .map(|(at, drawing)| checklist(selected, at + 1, drawing))
            .collect(),
        minutes: 32,
    }
}

/// The one procedure of the small site.
pub(crate) fn procedure_page(selected: &Selected) -> ProcedurePage {
    ProcedurePage {
        family: "housings".to_owned(),
        also_called: vec!["stopped dado".to_owned()],
        use_when: "The front edge is seen.".to_owned(),
        not_for: vec!["sheet goods thinner than 12 mm".to_owned()],
        after: vec!["through-housing".to_owned()],
        sources: vec!["common practice, no source".to_owned()],
        example: filled(selected),
        fields: vec![Field {
            name: "shelf".to_owned(),
            label: "Thickness of the shelf".to_owned(),
            hint: "4 mm to 34 mm".to_owned(),
            value: "17.6 mm".to_owned(),
            options: Vec::new(),
            offers: Vec::new(),
        }],
        yaml: "procedure: stopped-housing # </script><img src=x>\n".to_owned(),
    }
}

/// A small site.
pub(crate) fn site_pages(selected: &Selected) -> SitePages<'static> {
    let rule = |caution: &Caution| CautionText {
        id: caution.id().to_owned(),
        signal: caution.signal(),
        stands: caution.stands(),
        operations: vec!["stopped-groove".to_owned()],
        when: String::new(),
        says: [caution.hazard(), caution.harm(), caution.avoid()].map(str::to_owned),
        sources: caution
            .sources()
            .iter()
            .map(|one| one.text.clone())
            .collect(),
    };
    SitePages {
        shop: "Boathouse workshop".to_owned(),
        date: "2026-11-25".to_owned(),
        checked: "2026-11-24".to_owned(),
        limits: limits(),
        procedures: Box::new(vec![procedure_page(selected)]),
        left_out: Vec::new(),
        job: Some(job(selected)),
        people: Vec::new(),
        history: BTreeMap::new(),
        machines: Vec::new(),
        cautions: vec![CautionPage {
            machine: "router-table".to_owned(),
            rules: selected.all().iter().map(rule).collect(),
        }],
        notes: vec![NotePage {
            id: "plywood".to_owned(),
            title: "Plywood is thinner than its name".to_owned(),
            about: vec!["stopped-housing".to_owned()],
            markdown: "# Measure\n\nSee [the procedure](procedure:stopped-housing) and \
                [the figure](figure:housing).\n\n| name | is |\n|---|---|\n| 18 mm | 17.6 mm |\n"
                .to_owned(),
        }],
        terms: vec![TermEntry {
            term: "housing".to_owned(),
            also: vec!["dado".to_owned(), "trench".to_owned()],
            american: "dado".to_owned(),
            shown: true,
            means: "A groove across a board that takes the end of another.".to_owned(),
            source: "common practice, no source".to_owned(),
        }],
        clashes: vec![(
            "lap dovetail".to_owned(),
            "half-blind dovetail".to_owned(),
            "dovetailed halving".to_owned(),
        )],
        calculators: faceside::joints::ALL.to_vec(),
        about: "Figures are *derived* or read; see [the words](note:plywood).".to_owned(),
        sample: "procedure: rack-housing\n".to_owned(),
        schema: faceside::procedure::schema_text(),
        speech: faceside::search::Speech::default(),
        floor: LiveFloor {
            shop: Workshop::open(None, None).unwrap().0.shop,
            machines: Vec::new(),
            cutters: Vec::new(),
            files: "{}".to_owned(),
        },
    }
}

/// The same job with a text in the place of every one that is free.
pub(crate) fn hostile(mut job: Sheets, text: &str) -> Sheets {
    let words = || text.to_owned();
    (job.job, job.title, job.shop, job.hash, job.date) =
        (words(), words(), words(), words(), words());
    job.ready = vec![(words(), vec![words()])];
    (job.limits.long, job.limits.short) = (words(), words());
    job.cutting_list[0].part = words();
    job.cutting_list[0].sizes = vec![words()];
    for list in &mut job.checklists {
        list.procedure = (words(), words(), 3);
        list.changes = vec![words()];
        list.close = vec![words()];
        list.warnings = vec![words()];
        list.notes = vec![words()];
        list.pieces[0].part = words();
        list.pieces[0].hand = words();
        list.from[0].0 = words();
        hostile_values(&mut list.from[0].1, text);
        hostile_troubles(&mut list.troubles, text);
        hostile_set_up(&mut list.set_up, text);
        for (_, shown) in list
            .drawing
            .iter_mut()
            .flat_map(|one| one.lengths.values_mut())
        {
            *shown = words();
        }
    }
    job
}

fn hostile_runs(text: &str) -> Vec<Run> {
    let (name, shown) = (text.to_owned(), text.to_owned());
    vec![Run::Words(text.to_owned()), Run::Value { name, shown }]
}

fn hostile_values(values: &mut [FilledValue], text: &str) {
    for value in values {
        value.label = text.to_owned();
        value.shown = text.to_owned();
        value.rounding = text.to_owned();
        value.provenance = Provenance::WorkedOut(text.to_owned());
    }
}

fn hostile_troubles(troubles: &mut [Trouble], text: &str) {
    for one in troubles {
        (one.see, one.cause, one.cure) =
            (hostile_runs(text), hostile_runs(text), hostile_runs(text));
    }
}

fn hostile_set_up(set_up: &mut FilledSetUp, text: &str) {
    let words = || text.to_owned();
    set_up.title = words();
    set_up.operation = words();
    set_up.holder = Some(hostile_runs(text));
    set_up.machine = Some((words(), words()));
    set_up.cutter = Some(RunCutter {
        id: words(),
        name: words(),
        diameter: words(),
        known_from: words(),
        speed_note: words(),
        why: Some(words()),
    });
    set_up.table = Some(RunTable {
        measured: words(),
        heads: vec![words()],
        rows: vec![(words(), vec![words()], true)],
    });
    for setting in &mut set_up.settings {
        (setting.label, setting.shown, setting.rounding) = (words(), words(), words());
    }
    for step in &mut set_up.steps {
        step.act = hostile_runs(text);
        let marks = [
            Mark::Otherwise,
            Mark::Way,
            Mark::Until,
            Mark::Timed,
            Mark::Hold,
        ];
        step.after = marks.map(|mark| (mark, hostile_runs(text))).to_vec();
        step.why = hostile_runs(text);
        step.keys = vec![hostile_runs(text)];
        if let Some(check) = &mut step.check {
            check.measure = hostile_runs(text);
            check.if_low = hostile_runs(text);
            check.if_high = hostile_runs(text);
            (check.wanted, check.tool) = (words(), words());
            (check.low_shown, check.high_shown) = (words(), words());
        }
    }
}

/// The same page with a text in the place of every one that is free.
fn hostile_page(mut page: ProcedurePage, text: &str) -> ProcedurePage {
    let words = || text.to_owned();
    (page.family, page.use_when) = (words(), words());
    page.also_called = vec![words()];
    page.not_for = vec![words()];
    page.sources = vec![words()];
    let example = &mut page.example;
    (example.title, example.purpose, example.done_when) = (words(), words(), words());
    example.reviewed = words();
    example.sizes = vec![(words(), words())];
    example.ready = vec![(words(), vec![hostile_runs(text)])];
    example.close = vec![("place".to_owned(), vec![hostile_runs(text)])];
    example.warnings = vec![words()];
    example.notes = vec![words()];
    hostile_values(&mut example.values, text);
    hostile_troubles(&mut example.troubles, text);
    let set_ups = example.set_ups.iter_mut();
    set_ups.for_each(|one| hostile_set_up(one, text));
    page
}

/// The small site with a text in the place of every one that is free.
pub(crate) fn hostile_site(selected: &Selected, text: &str) -> SitePages<'static> {
    let words = || text.to_owned();
    let mut pages = site_pages(selected);
    pages.procedures = Box::new(vec![hostile_page(procedure_page(selected), text)]);
    (pages.shop, pages.date, pages.checked) = (words(), words(), words());
    pages.about = words();
    pages.sample = words();
    let history = ("stopped-housing".to_owned(), vec![words()]);
    pages.history = BTreeMap::from([history]);
    (pages.limits.long, pages.limits.short) = (words(), words());
    pages.clashes = vec![(words(), words(), words())];
    pages.job = pages.job.map(|job| hostile(job, text));
    for rule in pages.cautions.iter_mut().flat_map(|page| &mut page.rules) {
        (rule.id, rule.when) = (words(), words());
        rule.operations = vec![words()];
        rule.sources = vec![words()];
    }
    for note in &mut pages.notes {
        (note.title, note.markdown) = (words(), words());
        note.about = vec![words()];
    }
    for term in &mut pages.terms {
        (term.term, term.american, term.means, term.source) = (words(), words(), words(), words());
        term.also = vec![words()];
    }
    pages
}
