//! Cutters chosen from the drawer: by `faceside figure` without a cutter, and for the parts of a
//! job; by the drawer of the demo shop and by drawers made here.
//!
//! Which cutter takes how many passes is derived beside each check from joinery 3.5:
//! 1 + ceil((w - d) / (d - 1.5)) side by side, ceil(h / (d / 2)) one below the other.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test and its helpers stop by a panic"
)]

mod util;

use std::fs;

use serde_json::Value;
use util::{Folder, here};

const CUT: [&str; 4] = ["figure", "housing", "width=17.7mm", "depth=6mm"];

/// The demo's shop with this drawer and one job of one part without a named cutter.
fn shop(cutters: &str) -> Folder {
    let demo = |name: &str| fs::read_to_string(here().join("procedures/shop").join(name)).unwrap();
    Folder::empty()
        .file("shop.yaml", demo("shop.yaml"))
        .file("machines.yaml", demo("machines.yaml"))
        .file("cutters.yaml", cutters)
        .file(
            "jobs/locker.yaml",
            "job: locker\ntitle: One locker\nparts:\n  - part: Locker, sides\n    \
             procedure: through-housing\n    pieces: 2\n    measured: {shelf: 17.6 mm, side: \
             18.3 mm, side_width: 320 mm, side_length: 1100 mm, from_end: 80 mm, inside_width: \
             620 mm}\n",
        )
}

fn straight(id: &str, size: &str, more: &str) -> String {
    format!(
        "- cutter: {id}\n  name: {id} cutter\n  shape: straight\n  marked: {size}\n  \
         cutting_length: 25 mm\n  shank: 8 mm\n  flutes: 2\n{more}"
    )
}

const FAST: &str = "  marked_speed: 24000 rpm\n";
const MEASURED: &str =
    "  marked_speed: 24000 rpm\n  measured: {size: 13.00 mm, on: 2026-11-02, with: caliper}\n";

// Demo drawer: 15.7 mm takes 2 x 1 passes and is measured; 12.7 mm takes 2 x 1 and is not;
// 11.95 mm takes 2 side by side and 6 / 5.975, so 2 below: 4; 8 mm 3 x 2; 6 mm 4 x 2.
#[test]
fn the_drawer_of_the_demo_is_ranked_and_explained() {
    let run = Folder::empty().run(&CUT);
    let text = run.code(0).out();
    let places: Vec<_> = [
        "straight-16)",
        "straight-12-7)",
        "straight-12)",
        "straight-8)",
        "straight-6)",
    ]
    .map(|id| text.find(id).unwrap_or_else(|| panic!("no {id} in {text}")))
    .to_vec();
    assert!(places.is_sorted(), "{text}");
    run.says("bears no maximum speed")
        .says("next: faceside figure housing width=17.7mm depth=6mm cutter=straight-16");
    for line in text.lines().filter(|line| !line.starts_with("next")) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let json: Value =
        serde_json::from_str(&Folder::empty().run(&[&CUT[..], &["--json"]].concat()).out())
            .unwrap();
    let fit = json["cutters"]["fit"].as_array().unwrap();
    let passes: Vec<_> = fit
        .iter()
        .map(|one| one["passes"].as_i64().unwrap())
        .collect();
    assert_eq!(passes, [2, 2, 4, 6, 8]);
    assert_eq!(fit[0]["cutters"][0]["id"], "straight-16");
    assert_eq!(
        json["cutters"]["unfit"][0]["name"],
        "18 mm straight, without a mark"
    );
    assert_eq!(json["cutters"]["buy"], Value::Null);
}

#[test]
fn what_to_type_next_can_be_typed() {
    let out = Folder::empty().run(&CUT).out();
    let next = out
        .lines()
        .find_map(|line| line.strip_prefix("next: faceside "))
        .unwrap();
    let words: Vec<_> = next.split(' ').collect();
    // 15.7 mm as measured, not 16 as marked: shift 17.7 - 15.7 = 2 mm.
    Folder::empty()
        .run(&words)
        .code(0)
        .says("15.7 mm")
        .says("2.00 mm");
}

#[test]
fn none_that_can_is_a_finding_with_what_to_buy() {
    let folder = Folder::empty();
    let run = folder.run(&["figure", "housing", "width=5.5mm", "depth=4mm"]);
    // The widest usual size under 5.5 mm is 5 mm.
    run.code(1)
        .says("no cutter in the drawer can make this cut")
        .says("Buy or borrow 5.00 mm (0.197 in) straight");
    let run = folder.run(&["figure", "housing", "width=2mm", "depth=1mm"]);
    run.code(1).says("No usual size can make it either.");
}

#[test]
fn a_cutter_is_named_by_its_id_with_its_angle() {
    let folder = Folder::empty();
    let figure = |cutter: &str| {
        folder.run(&[
            "figure",
            "sliding-dovetail",
            "stock=19mm",
            "depth=9.5mm",
            cutter,
        ])
    };
    figure("cutter=dovetail-12-7")
        .code(0)
        .says("12.65 mm")
        .says("14 deg");
    figure("cutter=dovetail-127")
        .code(2)
        .complains("did you mean `dovetail-12-7`?");
    figure("cutter=straight-12")
        .code(2)
        .complains("a dovetail cutter is wanted");
    let twice = ["figure", "sliding-dovetail", "stock=19mm", "depth=9.5mm"];
    for more in [
        ["cutter=dovetail-12-7", "angle=7deg"],
        ["angle=7deg", "cutter=dovetail-12-7"],
    ] {
        folder
            .run(&[&twice[..], &more].concat())
            .code(2)
            .complains("`angle` is given twice");
    }
    folder
        .run_with(
            &["figure", "housing", "--rows"],
            "part,width,cutter\nbench,17.7 mm,straight-12\nlocker,17.7 mm,dovetail-14\n",
        )
        .code(2)
        .says("bench,11.95 mm")
        .complains("standard input:3:16");
}

#[test]
fn asked_for_where_a_cutter_may_be_left_out_and_refused_where_there_is_none() {
    let folder = Folder::empty();
    let tenon = ["figure", "tenon", "stock=22mm", "width=60mm", "length=20mm"];
    folder.run(&tenon).code(0).says("thickness");
    // Mortise 21.5 mm deep: a cutter's edges must reach that, and 8 mm has 20 mm.
    folder
        .run(&[&tenon[..], &["--cutters"]].concat())
        .says("edges are 20.00 mm (0.787 in) long")
        .says("best first");
    folder
        .run(&["figure", "housing", "--cutters"])
        .code(2)
        .complains("`housing` needs `width`");
    folder
        .run(&["figure", "rebate", "stock=18mm", "mate=15mm", "--cutters"])
        .code(2)
        .complains("has no cutter to choose");
    folder
        .run(&[&CUT[..], &["cutter=12mm", "--cutters"]].concat())
        .code(2)
        .complains("has no cutter to choose");
}

fn picked(cutters: &str) -> String {
    let out = shop(cutters)
        .run(&["print", "locker", "--plain"])
        .code(0)
        .out();
    let words = out.split_whitespace().collect::<Vec<_>>().join(" ");
    let at = words.find("picked: ").unwrap_or_else(|| panic!("{words}"));
    let before = words[..at].rfind("[ ] ").unwrap();
    words[before..at + 160].to_owned()
}

// 17.7 mm and 5.9 mm deep: 16 mm takes 2 passes in one step, 10 mm 2 in two.
#[test]
fn a_job_takes_the_cutter_with_the_fewest_passes() {
    let drawer = straight("ten", "10 mm", FAST) + &straight("sixteen", "16 mm", FAST);
    let line = picked(&drawer);
    assert!(line.starts_with("[ ] sixteen cutter"), "{line}");
    assert!(line.contains("the best of"), "{line}");
    // Measured goes before marked where the passes are equal, and one without a speed is left.
    let drawer = straight("fourteen", "14 mm", FAST)
        + &straight("thirteen", "13 mm", MEASURED)
        + &straight("sixteen", "16 mm", "  marked_speed: none\n");
    let line = picked(&drawer);
    assert!(line.starts_with("[ ] thirteen cutter"), "{line}");
}

#[test]
fn a_job_without_a_fitting_cutter_says_why_of_each_and_what_to_buy() {
    let drawer = straight("twenty", "20 mm", FAST)
        + &straight("unmarked", "12 mm", "  marked_speed: none\n")
        + &straight("short", "12 mm", FAST).replace("25 mm", "2 mm");
    let folder = shop(&drawer);
    let run = folder.run(&["print", "locker", "--plain"]);
    run.code(1)
        .complains("no straight cutter in the drawer can make this cut")
        .complains("twenty cutter: it needs cutter.diameter <= shelf")
        .complains("unmarked cutter: it bears no maximum speed")
        .complains("short cutter: ")
        .complains("Buy or borrow 16.00 mm (0.630 in) straight, edges at least");
}
