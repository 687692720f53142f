//! `faceside record`: asked one by one or given in one line, filled from the last print, corrected,
//! listed, counted, exported; and clear where it refuses.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use faceside::diag::Source;
use faceside::shoplog::{Event, Printed, read};
use util::{Folder, demo_shop};

/// The one file of the record.
fn record(folder: &Folder) -> String {
    let files = std::fs::read_dir(folder.path().join("record")).unwrap();
    let mut files = files.map(|file| file.unwrap().path());
    let file = files.find(|path| path.extension().is_some_and(|end| end == "jsonl"));
    std::fs::read_to_string(file.unwrap()).unwrap()
}

/// The events of the record as they stand, corrections not followed.
fn events(folder: &Folder) -> Vec<serde_json::Value> {
    let text = record(folder);
    assert!(read(&Source::new("record", text.as_str())).1.is_empty());
    let lines = text.lines().map(|line| serde_json::from_str(line).unwrap());
    lines.collect()
}

/// The last print, and the number of its first checklist that is titled so.
fn printed(folder: &Folder, set_up: &str) -> (Printed, String) {
    folder.run(&["print"]).code(0);
    let printed: Printed = serde_json::from_str(&folder.read("record/last-print.json")).unwrap();
    let mut sheets = printed.checklists.iter();
    let sheet = sheets.find(|sheet| sheet.set_up == set_up);
    let number = sheet.unwrap().number.to_string();
    (printed, number)
}

#[test]
fn a_checklist_of_the_last_print_tells_all_but_the_reading() {
    let folder = demo_shop();
    let (printed, number) = printed(&folder, "Widen the housings");
    let sheet = format!("sheet={number}");
    let check = [
        "record",
        "test-cut",
        "by=BK",
        "check=1",
        "value=11.85",
        &sheet,
    ];
    folder.run(&check).code(0).says("Recorded 20");
    let event = &events(&folder)[0];
    let on_paper = printed.sheet(number.parse().unwrap()).unwrap();
    assert_eq!(event["kind"], "test-cut");
    let work = &event["work"];
    assert_eq!(work["job"], "boathouse-lockers");
    assert_eq!(work["sheets"], printed.sheets);
    assert_eq!(work["procedure"], on_paper.procedure);
    assert_eq!(work["machine"], "router-table-1");
    assert_eq!(work["cutter"], "straight-8");
    assert_eq!(work["stock"]["shelf"], "11.70 mm");
    // The demo's rack: shelf 11.7 mm and a hand press of 0.1 mm want a housing of 11.8 mm, and its
    // limits are 0.05 mm to either side (through-housing.yaml).
    let measured = &event["measured"];
    assert_eq!(measured["what"], "width of the housing in the test piece");
    assert_eq!(measured["value_mm"], 11.85);
    assert_eq!(measured["wanted_mm"], 11.8);
    assert_eq!(measured["limits"]["low_mm"], 11.75);
    assert_eq!(measured["limits"]["high_mm"], 11.85);
    assert_eq!(measured["tool"], "caliper");
}

#[test]
fn another_setting_than_planned_is_kept_beside_the_planned_one() {
    let folder = demo_shop();
    let (printed, number) = printed(&folder, "Widen the housings");
    let sheet = format!("sheet={number}");
    let cut = [
        "record",
        "test-cut",
        "by=BK",
        "feel=Starts and binds",
        "set=fence 88.2",
        &sheet,
    ];
    folder
        .run(&cut)
        .code(0)
        .says("starts and binds")
        .says("fence 88.20 mm");
    let settings = events(&folder)[0]["work"]["settings"].clone();
    let fence = settings
        .as_array()
        .unwrap()
        .iter()
        .find(|one| one["name"] == "fence");
    let fence = fence.unwrap();
    assert_eq!(fence["set_mm"], 88.2);
    let sheet = printed.sheet(number.parse().unwrap()).unwrap();
    let planned = sheet
        .settings
        .iter()
        .find(|one| one.name == "fence")
        .unwrap()
        .planned;
    assert_eq!(fence["planned_mm"], planned.unwrap().to_mm());
    assert_ne!(fence["planned_mm"], fence["set_mm"]);
}

#[test]
fn what_is_not_given_is_asked_and_a_wrong_answer_is_asked_again() {
    let folder = demo_shop();
    // Who (a name is no id), procedure (a slip), set-up, machine, cutter, wood, settings, pieces,
    // test cuts, note.
    let answers = "Bosun K.\nBK\nthrough-housin\nthrough-housing\n\nrouter-table-1\n\nlarch\n\nfour\n4\n2\n\n";
    let run = folder.run_with(&["record", "run"], answers);
    run.code(0)
        .says("Recorded 20")
        .says("4 pieces, 2 test cuts");
    run.complains("id or initials")
        .complains("did you mean `through-housing`?");
    run.complains("`four` is not a whole number");
    let event = &events(&folder)[0];
    assert_eq!(event["work"]["wood"], "larch");
    assert_eq!(event["by"], "BK");
}

#[test]
fn the_end_of_the_answers_writes_nothing_where_something_is_needed() {
    let folder = demo_shop();
    folder
        .run_with(&["record", "run"], "BK\nthrough-housing\n")
        .code(2)
        .complains("`pieces`");
    folder
        .run(&["record", "note", "by=BK"])
        .code(2)
        .complains("`text` is not given");
    assert!(!folder.path().join("record").exists());
}

#[test]
fn what_is_no_name_here_is_refused_with_the_nearest() {
    let folder = demo_shop();
    let refused = |arguments: &[&str], words: &str| {
        let run = folder.run(&[&["record"], arguments].concat());
        run.code(2).complains(words);
    };
    refused(
        &["note", "by=BK", "text=x", "about=stoped-housing"],
        "`stopped-housing`",
    );
    refused(
        &["near-miss", "text=x", "machine=router-tabel-1"],
        "`router-table-1`",
    );
    refused(
        &[
            "cutter",
            "by=BK",
            "cutter=strait-12",
            "size=12",
            "state=same",
        ],
        "`straight-12`",
    );
    refused(
        &[
            "cutter",
            "by=BK",
            "cutter=straight-12",
            "size=12",
            "state=sharp",
        ],
        "state of a cutter",
    );
    refused(
        &[
            "cutter",
            "by=BK",
            "cutter=straight-12",
            "size=1,250",
            "state=same",
        ],
        "size:",
    );
    refused(&["note", "by=BK", "txt=x"], "did you mean `text`?");
    refused(&["note", "by=BK", "text"], "is not a name and a value");
    refused(&["test-cut", "by=BK", "sheet=1"], "there is no print");
    refused(
        &[
            "test-cut",
            "by=BK",
            "procedure=through-housing",
            "feel=loose",
        ],
        "word for a fit",
    );
    refused(&["strike", "mark=2026-9", "by=BK", "why=x"], "has no line");
    refused(
        &[
            "note",
            "by=BK",
            "text=x",
            "--corrects",
            "seven",
            "--why",
            "x",
        ],
        "record-mark",
    );
    refused(&["list", "procedur=x"], "did you mean `procedure`?");
    assert!(!folder.path().join("record").exists());
}

#[test]
fn a_correction_leaves_the_old_line_readable_and_the_list_shows_what_holds() {
    let folder = demo_shop();
    folder
        .run(&["record", "note", "by=BK", "text=the fence crept"])
        .code(0);
    folder
        .run(&["record", "note", "by=BK", "text=typed twice"])
        .code(0);
    let listed = folder.run(&["record", "list"]).out();
    let marks: Vec<_> = listed
        .lines()
        .map(|line| line.split(' ').next().unwrap())
        .collect();
    let why = ["--why", "the stop it was"];
    let corrected = [
        "record",
        "note",
        "by=BK",
        "text=the stop crept",
        "--corrects",
        marks[0],
    ];
    folder.run(&[&corrected[..], &why].concat()).code(0);
    let mark = format!("mark={}", marks[1]);
    folder
        .run(&["record", "strike", "by=CD", &mark, "why=typed twice"])
        .code(0);
    let run = folder.run(&["record", "list"]);
    run.code(0).says("the stop crept").says("corrected by");
    assert!(!run.out().contains("typed twice") && !run.out().contains("the fence"));
    let text = record(&folder);
    assert!(text.contains("the fence crept") && text.contains("typed twice"));
    assert_eq!(text.lines().count(), 4);
}

#[test]
fn the_table_is_csv_that_another_reader_takes_apart() {
    let folder = demo_shop();
    let text = "text=\"tight\", said the apprentice;\nthen loose";
    folder.run(&["record", "note", "by=BK", text]).code(0);
    let cut = [
        "record",
        "test-cut",
        "by=BK",
        "procedure=bridle",
        "value=1/2 in",
        "what=slot",
    ];
    folder
        .run(&[&cut[..], &["low=12.6", "high=12.8"]].concat())
        .code(0);
    let csv = folder.run(&["record", "export"]).out();
    let (mut rows, mut row, mut cell) = (Vec::new(), Vec::new(), [0; 4096]);
    let (mut reader, mut rest) = (csv_core::Reader::new(), csv.as_bytes());
    loop {
        let (result, read, written) = reader.read_field(rest, &mut cell);
        rest = &rest[read..];
        match result {
            csv_core::ReadFieldResult::Field { record_end } => {
                row.push(String::from_utf8_lossy(&cell[..written]).into_owned());
                if record_end {
                    rows.push(std::mem::take(&mut row));
                }
            }
            csv_core::ReadFieldResult::End => break,
            csv_core::ReadFieldResult::InputEmpty => {}
            csv_core::ReadFieldResult::OutputFull => panic!("a cell of over 4 kB"),
        }
    }
    assert_eq!(rows.len(), 3);
    assert!(rows.iter().all(|row| row.len() == rows[0].len()));
    let at = |name: &str| rows[0].iter().position(|head| head == name).unwrap();
    assert!(rows[1][at("said")].contains("\"tight\", said the apprentice;"));
    // One half inch is 12.7 mm by definition of the inch.
    assert_eq!(rows[2][at("value_mm")], "12.7");
    assert_eq!(rows[2][at("verdict")], "good");
}

#[test]
fn counts_are_of_what_holds() {
    let folder = demo_shop();
    let run = |pieces: &str| {
        let pieces = format!("pieces={pieces}");
        let run = [
            "record",
            "run",
            "by=BK",
            "procedure=bridle",
            "test_cuts=2",
            &pieces,
        ];
        folder.run(&run).code(0);
    };
    run("4");
    run("60");
    let last = folder.run(&["record", "list", "last=1"]).out();
    let mark = format!("mark={}", last.split(' ').next().unwrap());
    folder
        .run(&["record", "strike", "by=BK", "why=no", &mark])
        .code(0);
    run("3");
    // The run of 60 is struck out: 4 and 3 pieces in two runs, with two test cuts each.
    let counted = folder.run(&["record", "summary", "--json"]).json();
    assert_eq!(counted["summary"].as_array().unwrap().len(), 1);
    let one = &counted["summary"][0];
    assert_eq!((&one["runs"], &one["pieces"]), (&2.into(), &7.into()));
    assert_eq!(one["test_cuts"], 4);
}

#[test]
fn lines_on_standard_input_are_entries_and_a_bad_one_harms_no_other() {
    let folder = demo_shop();
    let input = concat!(
        "{\"record\": \"note\", \"by\": \"BK\", \"text\": \"one\"}\n",
        "\n",
        "{\"record\": \"note\", \"by\": \"BK\"}\n",
        "{\"record\": \"poem\", \"by\": \"BK\"}\n",
        "not JSON\n",
        "{\"record\": \"near-miss\", \"text\": \"the piece lifted\", \"machine\": \"jointer-1\"}\n",
    );
    let run = folder.run_with(&["record", "--lines"], input);
    run.code(1);
    for words in ["line 3: ", "line 4: ", "line 5: "] {
        run.complains(words);
    }
    assert_eq!(run.out().matches("Recorded ").count(), 2);
    let kinds: Vec<_> = events(&folder)
        .iter()
        .map(|event| event["kind"].clone())
        .collect();
    assert_eq!(kinds, ["note", "near-miss"]);
}

#[test]
fn without_a_shop_the_record_is_beside_what_the_demo_prints() {
    let folder = Folder::empty();
    folder
        .run(&["record", "note", "by=BK", "text=a trial"])
        .code(0);
    folder.run(&["record", "list"]).code(0).says("a trial");
    assert!(folder.path().join("out/record").is_dir());
    // A print to a folder of its own leaves nothing else.
    let other = Folder::empty();
    other.run(&["print", "--out", "sheets"]).code(0);
    assert!(!other.path().join("out").exists());
}

#[test]
fn a_last_print_that_cannot_be_read_is_told_and_then_asked_for() {
    let folder = demo_shop().file("record/last-print.json", "{");
    let run = folder.run(&["record", "note", "by=BK", "text=x"]);
    run.code(0).complains("print the job again");
    let json = folder.run(&["record", "note", "by=BK", "text=y", "--json"]);
    assert!(json.json()["recorded"].as_str().unwrap().ends_with("-2"));
}

/// Whoever reads the record tells of a line that was set aside, in the same words and once.
#[test]
fn a_broken_line_is_told_by_all_that_read_the_record() {
    let folder = demo_shop();
    let note = ["record", "note", "by=BK", "text=the fence creeps"];
    folder.run(&note).code(0);
    let broken = format!("{}{{\"v\":1,\"n\":2,\"at\n", record(&folder));
    let folder = folder.file("record/2026.jsonl", broken);
    let lesson = ["train", "through-housing", "--person", "A07", "--by", "I02"];
    let told = folder.run(&["record", "list"]).err();
    assert!(told.contains("set aside"), "{told}");
    for (command, code) in [
        (&["search", "housing"][..], 0),
        (&["print", "--plain"], 0),
        (&["site", "--out", "site", "--with-record"], 0),
        (
            &["site", "--out", "site", "--with-record", "--with-people"],
            0,
        ),
        (&["train", "--timetable"], 0),
        (&["train", "--person", "A07"], 2),
        (&lesson, 0),
        (&[&lesson[..], &["--questions"]].concat(), 0),
        (&[&lesson[..], &["--sign", "taught"]].concat(), 1),
    ] {
        let run = folder.run_with(command, "");
        run.code(code);
        let err = run.err();
        let first = told.trim_end().rsplit_once("\n\n").unwrap().0;
        assert_eq!(err.matches(first).count(), 1, "{command:?}\n{err}\n{told}");
    }
}

#[test]
fn every_event_that_is_written_can_be_read() {
    let folder = demo_shop();
    folder.run(&["record", "near-miss", "text=x"]).code(0);
    let fault = [
        "record",
        "sheet-fault",
        "by=BK",
        "procedure=bridle",
        "step=3",
        "text=unclear",
    ];
    folder.run(&fault).code(0);
    let reading = [
        "record",
        "reading",
        "by=BK",
        "procedure=bridle",
        "what=slot",
        "value=12.7",
    ];
    let limits = ["low=12.6", "high=12.7", "tool=caliper"];
    folder
        .run(&[&reading[..], &limits].concat())
        .code(0)
        .says("good");
    let source = Source::new("record", record(&folder));
    for entry in read(&source).0 {
        let faceside::shoplog::What::Known(event) = entry.what else {
            panic!("{:?}", entry.what);
        };
        assert!(!matches!(event, Event::Note { .. }));
    }
}
