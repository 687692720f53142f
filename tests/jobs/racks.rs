//! Random jobs of oar racks, and their sheets in the demo shop.

use std::fmt::Write;

use faceside::diag::Source;
use faceside::jobs::{Checklist, Job, Sheets, plan};
use faceside::procedure::Workplace;
use faceside::shop::{Machine, Minutes};
use faceside::store::Workshop;
use proptest::prelude::*;

thread_local! {
    pub(super) static SHOP: Workshop = Workshop::open(None, None).map_err(|f| format!("{f:?}")).unwrap().0;
}

/// A part of a random job.
#[derive(Debug, Clone)]
pub(super) struct Rack {
    pub(super) procedure: &'static str,
    pub(super) shelf_mm_10: u32,
    pub(super) from_end_mm: u32,
    pub(super) pieces: u32,
    pub(super) handed: bool,
}

pub(super) fn rack() -> impl Strategy<Value = Rack> {
    let procedure = prop_oneof![
        Just("through-housing"),
        Just("stopped-housing"),
        Just("sliding-dovetail"),
        Just("one-sided-sliding-dovetail")
    ];
    // Few thicknesses, so that parts often share a set-up.
    let shelf = prop_oneof![Just(176_u32), Just(177), Just(192)];
    let from_end = prop_oneof![Just(60_u32), Just(80)];
    (procedure, shelf, from_end, 1_u32..4).prop_map(
        |(procedure, shelf_mm_10, from_end_mm, pieces)| Rack {
            procedure,
            shelf_mm_10,
            from_end_mm,
            pieces,
            handed: procedure == "stopped-housing",
        },
    )
}

pub(super) fn text(racks: &[Rack]) -> String {
    let mut text = "job: oars\ntitle: Oar racks\nparts:\n".to_owned();
    for (at, rack) in racks.iter().enumerate() {
        let thick = format!("{}.{} mm", rack.shelf_mm_10 / 10, rack.shelf_mm_10 % 10);
        let pieces = match rack.handed {
            true => format!("{{left: {0}, right: {0}}}", rack.pieces),
            false => rack.pieces.to_string(),
        };
        let measured = match rack.procedure {
            "one-sided-sliding-dovetail" => format!(
                "tail: {}.9 mm, tail_width: 320 mm, inside_width: 560 mm, side: 22 mm, \
                 side_width: 320 mm, side_length: 900 mm, from_end: {} mm",
                rack.shelf_mm_10 / 10 + 1,
                rack.from_end_mm + 60
            ),
            "sliding-dovetail" => format!(
                "tail: {}.2 mm, tail_width: 400 mm, shoulder_length: 410 mm, side: 27 mm, \
                 side_width: 400 mm, side_length: 1500 mm, centre: {} mm",
                rack.shelf_mm_10 / 10 + 2,
                rack.from_end_mm + 90
            ),
            _ => format!(
                "shelf: {thick}, side: 18.3 mm, side_width: 320 mm, side_length: 900 mm, \
                 from_end: {} mm, inside_width: 560 mm",
                rack.from_end_mm
            ),
        };
        writeln!(
            text,
            "  - part: Rack {at}\n    procedure: {}\n    pieces: {pieces}\n    measured: {{{measured}}}",
            rack.procedure
        )
        .unwrap();
    }
    text
}

pub(super) fn planned(text: &str) -> Sheets {
    SHOP.with(|shop| planned_at(text, &shop.machines))
}

/// The same in a shop with other machines.
pub(super) fn planned_at(text: &str, machines: &[Machine]) -> Sheets {
    SHOP.with(|shop| {
        let at = Workplace {
            machines,
            ..shop.place()
        };
        let job = Job::read(&Source::new("oars.yaml", text)).unwrap();
        plan(&job, &shop.procedures, at, "2026-11-25").unwrap_or_else(|f| panic!("{f:?}"))
    })
}

pub(super) fn machines(minutes: [u32; 5]) -> Vec<Machine> {
    let [cutter, height, fence, stop, speed] = minutes;
    let minutes = Minutes {
        cutter,
        height,
        fence,
        stop,
        speed,
    };
    let with = |machine: &Machine| Machine {
        minutes,
        ..machine.clone()
    };
    SHOP.with(|shop| shop.machines.iter().map(with).collect())
}

/// What one part alone needs: titles of its set-ups in order, by hand.
pub(super) fn alone(rack: &Rack) -> Vec<(String, Vec<String>)> {
    let sheets = planned(&text(std::slice::from_ref(rack)));
    let hands = if rack.handed {
        vec!["left", "right"]
    } else {
        vec![""]
    };
    let of = |hand: &str| {
        let mine = |list: &&Checklist| list.pieces.iter().any(|piece| piece.hand == hand);
        let lists = sheets.checklists.iter().filter(mine);
        lists.map(|list| list.set_up.title.clone()).collect()
    };
    hands
        .into_iter()
        .map(|hand| (hand.to_owned(), of(hand)))
        .collect()
}
