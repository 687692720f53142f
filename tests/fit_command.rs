//! `faceside fit` on the demo's sheets, and the record where it is needed: in search and on paper.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use faceside::shoplog::Printed;
use util::{Folder, demo_shop};

/// A shop folder with the demo's files, its job printed.
fn shop() -> Folder {
    let folder = demo_shop();
    folder.run(&["print"]).code(0);
    folder
}

/// The checklist of that set-up in the last print: `sheet=7`.
fn sheet(folder: &Folder, set_up: &str) -> String {
    let printed: Printed = serde_json::from_str(&folder.read("record/last-print.json")).unwrap();
    let mut sheets = printed.checklists.iter();
    let sheet = sheets.find(|sheet| sheet.set_up == set_up).unwrap();
    format!("sheet={}", sheet.number)
}

#[test]
fn a_narrow_housing_is_widened_and_the_move_is_told_in_steps() {
    let folder = shop();
    let sheet = sheet(&folder, "Widen the housings");
    // The demo's rack: shelf 11.7 mm, hand press 0.1 mm: 11.8 mm wanted. Read 11.65: wood 0.15;
    // safe 0.15 - 0.05 (caliper) - 0.05 (fence) + 0.05 (limit) = 0.1 mm.
    let fit = ["fit", &sheet, "check=1", "value=11.65"];
    let run = folder.run(&fit);
    run.code(0)
        .says("Isolate the machine")
        .says("larger by 0.10 mm")
        .says("same test piece");
    let json = folder.run(&[&fit[..], &["--json"]].concat()).json();
    assert_eq!(json["next"], "move");
    assert_eq!(json["by_mm"], 0.1);
    assert_eq!(json["setting"], "fence");
    let stop = folder.run(&["fit", &sheet, "check=1", "value=11.8 mm"]);
    stop.code(0).says("Stop: it is good");
    let mate = folder.run(&[
        "fit",
        &sheet,
        "check=1",
        "value=11.8",
        "feel=starts and binds",
    ]);
    mate.code(0).says("the mate is at fault");
    let over = folder.run(&["fit", &sheet, "check=1", "value=11.95"]);
    over.code(0).says("does not come back");
    // 0.6 mm is missing; scale (0.05 + 0.05), reading and cutter (0.05 each) explain 0.2.
    let cutter = folder.run(&["fit", &sheet, "check=1", "value=11.2"]);
    cutter.code(0).says("measure the cutter");
    assert!(!folder.read("record/last-print.json").is_empty());
    folder.run(&["record", "list"]).says("Nothing like that");
}

#[test]
fn what_cannot_be_meant_is_refused() {
    let empty = Folder::empty();
    empty
        .run(&["fit", "through-housing", "value=1"])
        .code(2)
        .complains("nothing was printed");
    let folder = shop();
    folder
        .run(&["fit", "through-housin", "value=1"])
        .code(2)
        .complains("`through-housing`");
    folder
        .run(&["fit", "through-housing", "value=11"])
        .code(2)
        .complains("`faceside fit` lists");
    let marked = sheet(&folder, "Measure and mark the sides");
    folder
        .run(&["fit", &marked, "check=1", "value=11"])
        .code(2)
        .complains("no setting");
    let depth = sheet(&folder, "Cut the housings to depth");
    let feel = ["fit", &depth, "check=1", "feel=slides"];
    folder
        .run(&feel)
        .code(2)
        .complains("tells nothing of the depth");
    folder
        .run(&["fit", &depth, "confidence=2"])
        .code(2)
        .complains("0.5 to 0.999");
}

#[test]
fn three_test_cuts_of_the_record_propose_a_first_setting_beside_the_plain_figure() {
    let folder = shop();
    let sheet = sheet(&folder, "Widen the housings");
    // 11.80 mm wanted with limits of 0.05 mm. The fence is set in steps of 0.05 mm and comes back
    // within 0.05 mm, the caliper reads to 0.05 mm (reading and cutter): 0.2 mm may be off, so 0.15 mm
    // is left on, and a fence that is nearer cuts less.
    let none = folder.run(&["fit", &sheet, "check=1"]);
    none.code(0)
        .says("under three test cuts")
        .says("0.20 mm off")
        .says("smaller than the plain figure by 0.15 mm");
    let json = folder.run(&["fit", &sheet, "check=1", "--json"]).json();
    assert_eq!(
        (&json["learned"], &json["by_mm"]),
        (&serde_json::Value::Null, &(-0.15).into())
    );
    let number = sheet.trim_start_matches("sheet=");
    let cuts: String = ["11.95", "12.00", "12.05"]
        .map(|value| {
            format!(
                "{{\"record\": \"test-cut\", \"by\": \"BK\", \"sheet\": \"{number}\", \
                 \"check\": \"1\", \"value\": \"{value}\", \"wood\": \"larch\"}}\n"
            )
        })
        .concat();
    folder.run_with(&["record", "--lines"], cuts).code(0);
    let run = folder.run(&["fit", &sheet, "check=1"]);
    // Over the wanted 11.8 by 0.15, 0.2, 0.25 with the fence as planned: it cuts 0.2 more.
    run.code(0)
        .says("Plain figure: fence")
        .says("cuts 0.20 mm more");
    run.says("With 95 % confidence")
        .says("smaller than the plain figure");
    // A new cutter starts anew.
    let new = [
        "record",
        "cutter",
        "by=BK",
        "cutter=straight-8",
        "size=8",
        "state=new",
    ];
    folder.run(&new).code(0);
    folder
        .run(&["fit", &sheet, "check=1"])
        .code(0)
        .says("under three test cuts");
}

#[test]
fn how_it_was_last_cut_stands_in_search_and_on_the_sheets_without_people() {
    let folder = shop();
    let sheet = sheet(&folder, "Widen the housings");
    let by = "by=QZ7";
    let fit = ["fit", &sheet, "check=1", "value=11.65", "wood=larch", by];
    folder.run(&fit).code(0).says("Recorded 20");
    let note = [
        "record",
        "note",
        by,
        "about=through-housing",
        "text=the left end tears",
    ];
    folder.run(&note).code(0);
    let found = folder.run(&["search", "through housing"]);
    found
        .code(0)
        .says("last cut here: 20")
        .says("larch")
        .says("1 test cut");
    found.says("the left end tears");
    assert!(!found.out().contains("QZ7"));
    let printed = folder.run(&["print", "--out", "sheets"]);
    printed.code(0).says("Last cut here").says("straight-8");
    assert!(!printed.out().contains("QZ7"));
    let page = folder.read("sheets/all.html");
    assert!(page.contains("Last cut here") && page.contains("the left end tears"));
    assert!(!page.contains("QZ7"));
    on_the_site(&folder);
}

/// The site says nothing of what was cut here, nor of people, unless it is told to.
fn on_the_site(folder: &Folder) {
    let procedure = "procedures/through-housing.html";
    let pages = |asked: &[&str]| {
        let out = ["site", "--out", "pages"];
        folder.run(&[&out, asked].concat()).code(0);
        let job = folder.path().join("pages/jobs/boathouse-lockers");
        let sheets = std::fs::read_dir(job).unwrap();
        let sheets = sheets.map(|file| std::fs::read_to_string(file.unwrap().path()).unwrap());
        let sheet = sheets.filter(|page| page.contains("Last cut here"));
        (
            folder.read(&format!("pages/{procedure}")),
            sheet.collect::<Vec<_>>(),
        )
    };
    let (page, sheets) = pages(&[]);
    assert!(!page.contains("Last cut here") && sheets.is_empty());
    let (page, sheets) = pages(&["--with-record"]);
    assert_eq!(sheets.len(), 1, "one set-up was cut");
    assert!(sheets[0].contains("Widen the housings"));
    for page in [&page, &sheets[0]] {
        let begin = page.rfind(">Last cut here<").unwrap();
        let line = &page[begin..begin + page[begin..].find("</ul>").unwrap()];
        for part in [
            "larch",
            "straight-8",
            "fence",
            "1 test cut",
            "the left end tears",
        ] {
            assert!(line.contains(part), "no `{part}` in {line}");
        }
        assert!(!page.contains("QZ7"));
    }
    assert!(page.contains("Widen the housings: 20") && page.contains("#last-cut"));
    let (page, sheets) = pages(&["--with-record", "--with-people"]);
    assert!(page.contains(" by QZ7: larch") && sheets[0].contains(" by QZ7: larch"));
}
