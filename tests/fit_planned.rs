//! `faceside fit` without a print of what is asked for: planned now from values that are typed, and
//! the same as from a print; clear where it refuses. And the test cut written down, in JSON too.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use serde_json::{Value as Json, json};
use util::{Folder, demo_shop};

/// The oilskin rack of the demo's job (`procedures/shop/jobs/boathouse-lockers.yaml`).
const RACK: [&str; 8] = [
    "through-housing",
    "shelf=11.7",
    "side=18.3",
    "side_width=320 mm",
    "side_length=1100mm",
    "from_end=80",
    "inside_width=62 cm",
    "cutter=straight-8",
];

/// Asks for the rack, with more.
fn rack<'a>(more: &[&'a str]) -> Vec<&'a str> {
    let rack = RACK.iter().copied();
    ["fit"]
        .into_iter()
        .chain(rack)
        .chain(more.iter().copied())
        .collect()
}

/// The lines of the record; none where nothing was written down.
fn lines(folder: &Folder) -> Vec<Json> {
    let Ok(files) = std::fs::read_dir(folder.path().join("record")) else {
        return Vec::new();
    };
    let paths = files.map(|file| file.unwrap().path());
    let files = paths.filter(|path| path.extension().is_some_and(|end| end == "jsonl"));
    let texts: String = files
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect();
    texts
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

#[test]
fn what_was_not_printed_is_planned_from_its_values_and_comes_to_the_same() {
    let folder = demo_shop();
    // Shelf 11.7 mm and a hand press of 0.1 mm: 11.8 mm. Read 11.65: wood 0.15; safe 0.15 - 0.05
    // (caliper) - 0.05 (fence) + 0.05 (limit) = 0.1 mm.
    let value = ["check=4", "value=11.65"];
    folder
        .run(&rack(&value))
        .code(0)
        .says("through-housing, Widen the housings: width of the housing")
        .says("Planned now for")
        .says("shelf 11.70 mm")
        .says("straight-8")
        .says("cautions are on what `faceside print` gives")
        .says("larger by 0.10 mm");
    let asked = rack(&[&value[..], &["--json"]].concat());
    let now = folder.run(&asked).json();
    assert_eq!(
        (&now["sheet"], &now["wanted_mm"]),
        (&Json::Null, &json!(11.8))
    );
    assert_eq!(now["by_mm"], 0.1);
    assert!(
        !folder.path().join("record").exists(),
        "asking writes nothing"
    );

    folder.run(&["print"]).code(0);
    let printed = folder.run(&["fit"]).out();
    let line = printed
        .lines()
        .find(|line| line.contains("Widen the housings"))
        .unwrap();
    let place: Vec<&str> = line.split_whitespace().take(2).collect();
    let asked = ["fit", place[0], place[1], "value=11.65", "--json"];
    let then = folder.run(&asked).json();
    for key in [
        "wanted_mm",
        "low_mm",
        "high_mm",
        "planned_mm",
        "setting",
        "machine",
        "by_mm",
        "what",
    ] {
        assert_eq!(now[key], then[key], "{key}");
    }
    // Now there is a print of another rack as well; the values that are given count.
    let thicker = ["fit", "through-housing", "shelf=12.7"];
    let asked = [&thicker[..], &rack(&[])[3..], &["check=4", "--json"]].concat();
    assert_eq!(folder.run(&asked).json()["wanted_mm"], 12.8);
}

#[test]
fn a_bare_number_has_the_shops_unit_and_a_word_needs_no_number_of_the_value() {
    let folder = demo_shop();
    // 0.46 in is 11.684 mm; with the 0.1 mm of a hand press 11.784 mm.
    let inches = [
        "fit",
        "through-housing",
        "shelf=0.46",
        "side=0.72",
        "side_width=12.6",
        "side_length=43.3",
        "from_end=3.15",
        "inside_width=24.4",
        "cutter=straight-8",
        "check=4",
        "--units",
        "in",
        "--json",
    ];
    let json = folder.run(&inches).json();
    assert!(
        (json["wanted_mm"].as_f64().unwrap() - 11.784).abs() < 1e-6,
        "{json}"
    );
    // Of its values only the width is tried in its mate.
    let felt = folder.run(&rack(&["feel=starts and binds"]));
    felt.code(0)
        .says("Widen the housings: width of the housing");
}

#[test]
fn what_is_not_given_or_cannot_be_meant_is_refused() {
    let folder = demo_shop();
    let refused = |arguments: &[&str], code: i32, words: &[&str]| {
        let run = folder.run(arguments);
        run.code(code);
        for words in words {
            run.complains(words);
        }
    };
    refused(
        &["fit"],
        2,
        &["nothing was printed here", "name a procedure"],
    );
    let way = "faceside fit through-housing shelf=... side=...";
    refused(
        &["fit", "through-housing"],
        2,
        &["nothing was printed here", way],
    );
    refused(&["fit", "through-housing", "value=11.65"], 2, &[way]);
    // Every value that is lacking, the cutter among them: none is picked, none is an example's.
    let lacking = ["fit", "through-housing", "shelf=11.7", "check=4"];
    let all = [
        "`side` is not given",
        "`from_end` is not given",
        "`cutter` is not given",
        "6 errors",
    ];
    refused(&lacking, 1, &all);
    refused(
        &rack(&["chek=4"]),
        2,
        &["takes no `chek`", "did you mean `check`"],
    );
    refused(
        &["fit", "through-housing", "shelff=11.7"],
        2,
        &["did you mean `shelf`"],
    );
    refused(
        &rack(&["value=11.65"]),
        2,
        &["which value is meant", "check=4 (Widen the housings"],
    );
    refused(&rack(&["check=9"]), 2, &["`check` is `9`"]);
    refused(
        &rack(&["sheet=2"]),
        2,
        &["`sheet` is a checklist of the last print"],
    );
    refused(&rack(&["shelf=12"]), 1, &["`shelf` is given twice"]);
    refused(&rack(&["check=4", "value=wide"]), 2, &["wide"]);
    let thin = [
        &["fit", "through-housing", "shelf=1.17"],
        &rack(&[])[3..],
        &["check=4"],
    ]
    .concat();
    refused(&thin, 1, &["it may be 4.00 mm to 34.00 mm"]);
    // Half of 18.3 mm is 9.15 mm: a share of 0.55 is more, and the procedure refuses it.
    refused(
        &rack(&["share=0.55", "check=4"]),
        1,
        &["more than half of the side"],
    );
    folder.run(&["print"]).code(0);
    let not_printed = ["fit", "tongue-and-groove", "value=6"];
    let words = [
        "nothing of `tongue-and-groove`",
        "print its job",
        "faceside fit tongue-and-groove",
    ];
    refused(&not_printed, 2, &words);
    assert!(lines(&folder).is_empty());
}

#[test]
fn with_a_person_the_test_cut_is_written_down_in_json_too() {
    let folder = demo_shop();
    let cut = ["check=4", "value=11.65", "by=BK"];
    folder.run(&rack(&cut)).code(0).says("Recorded 20");
    let asked = rack(&[&cut[..], &["--json"]].concat());
    let answer = folder.run(&asked).json();
    let lines = lines(&folder);
    assert_eq!(lines.len(), 2);
    let mark = answer["recorded"].as_str().unwrap();
    assert!(mark.ends_with("-2"), "{mark}");
    for line in &lines {
        assert_eq!(line["kind"], "test-cut");
        assert_eq!(
            (&line["work"]["job"], &line["work"]["sheets"]),
            (&Json::Null, &Json::Null)
        );
        assert_eq!(line["work"]["cutter"], "straight-8");
        assert_eq!(line["work"]["stock"]["shelf"], "11.70 mm");
        assert_eq!(line["measured"]["value_mm"], 11.65);
    }
    assert_eq!(lines[0]["measured"], lines[1]["measured"]);
    // Without a person nothing is written, and the answer says so.
    let asked = rack(&["check=4", "value=11.65", "--json"]);
    assert_eq!(folder.run(&asked).json()["recorded"], Json::Null);
    assert_eq!(self::lines(&folder).len(), 2);
    // It counts where the record is asked.
    folder
        .run(&["search", "through housing"])
        .says("last cut here: 20");
}
