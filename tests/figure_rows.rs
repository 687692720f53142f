//! `faceside figure CALCULATOR --rows`: the parts of a boathouse's lockers and benches from a CSV,
//! and every way in which a CSV can be other than it should.
//!
//! Figures: "joinery 5 #n" is row n of the project's check values, derived there apart from this
//! program; others are derived beside the check. Quotes, line ends: RFC 4180 (from memory).

#![allow(clippy::unwrap_used, reason = "a test and its helpers stop by a panic")]

mod util;

use serde_json::Value;
use util::{Folder, Run};

const HOUSING: [&str; 3] = ["figure", "housing", "--rows"];

#[track_caller]
fn rows(table: impl AsRef<[u8]>, more: &[&str]) -> Run {
    Folder::empty().run_with(&[&HOUSING, more].concat(), table)
}

/// The shift of each row in mm, from the answer as JSON.
#[track_caller]
fn shifts(run: &Run) -> Vec<Option<f64>> {
    let answer = run.json();
    let rows = answer.as_array().unwrap().iter();
    rows.map(|row| row["results"]["shift"]["mm"].as_f64())
        .collect()
}

/// Whether the table is answered with the one shift of 5.7 mm that `width` 17.7 mm and `cutter`
/// 12 mm have (joinery 5 #7: one shift of two passes, 17.7 - 12).
#[track_caller]
fn is_the_one(table: impl AsRef<[u8]>) {
    assert_eq!(shifts(rows(table, &["--json"]).code(0)), [Some(5.7)]);
}

/// Nothing is answered of a table of which nothing sure can be said.
#[track_caller]
fn is_no_table(table: impl AsRef<[u8]>, words: &str) {
    for more in [&[][..], &["--json"]] {
        let run = rows(&table, more);
        run.code(2).complains(words);
        assert_eq!(run.out(), "");
    }
}

/// joinery 5 #7: shifts 0.21 in, 0.3125 in, 5.7 mm; 0.703 in with 0.75 in is refused. In mm: 5.334
/// and 7.9375.
#[test]
fn each_row_is_worked_out() {
    let table = "\
part,width,cutter,overlap
bench end,0.710 in,1/2 in,
bench seat,1 in,0.375 in,1/16 in
locker side,\"17,7 mm\",12,
locker shelf,0.703 in,0.75 in,
";
    let run = rows(table, &["--json"]);
    let wanted = [Some(5.334), Some(7.9375), Some(5.7), None];
    assert_eq!(shifts(run.code(1)), wanted);
    let answer = run.json();
    assert_eq!(answer[0]["labels"]["part"], "bench end");
    assert_eq!(answer[1]["results"]["passes"]["count"], 3);
    assert_eq!(
        (&answer[0]["line"], &answer[3]["line"]),
        (&2.into(), &5.into())
    );
    assert_eq!(
        answer[3]["refused"]["what"],
        "the cutter is wider than the housing"
    );
    assert_eq!(run.err(), "");

    let run = rows(table, &[]);
    let out = run.code(1).out();
    let lines: Vec<&str> = out.lines().collect();
    assert_eq!(lines.len(), 5);
    let head = "part,cutter,overlap,width,passes,shift,offsets,refused,warnings,notes";
    assert_eq!(lines[0], head);
    // Usual values are told; half the shift to each side of the centre line, the first rounded up.
    assert!(
        lines[3].starts_with("locker side,12 mm,1.5 mm,17.70 mm,2,5.70 mm,-2.85 mm; 2.85 mm,"),
        "{out}"
    );
    assert!(
        lines[3].contains("Keep this order"),
        "the order of passes is told with each row"
    );
    let refused = "locker shelf,19.05 mm,,17.8562 mm,,,,the cutter is wider than the housing: is ";
    assert!(lines[4].starts_with(refused), "{out}");
    assert_eq!(run.err(), "");
}

#[test]
fn a_row_answers_as_the_command_alone_does() {
    let one = ["width=17.7mm", "cutter=12mm", "from=100mm", "--json"];
    let alone = Folder::empty().run(&[&HOUSING[..2], &one].concat()).json();
    let table = "width,from\n17.7,100\n";
    let mut row = rows(table, &["cutter=12mm", "--json"]).code(0).json()[0].take();
    let own = row.as_object_mut().unwrap();
    assert_eq!(own.remove("line"), Some(2.into()));
    assert_eq!(
        own.remove("labels"),
        Some(Value::Object(serde_json::Map::new()))
    );
    assert_eq!(row, alone);
}

#[test]
fn values_of_the_command_line_hold_for_all_rows() {
    let run = rows("width\n17.7\n18.2\n", &["cutter=12mm", "--json"]);
    let shifts = shifts(run.code(0));
    // 17.7 - 12 and 18.2 - 12.
    assert_eq!(shifts, [Some(5.7), Some(6.2)]);
    is_in_two_places("width,cutter\n17.7,12\n");
}

#[track_caller]
fn is_in_two_places(table: &str) {
    let run = rows(table, &["cutter=12mm"]);
    run.code(2)
        .complains("`cutter` is given on the command line and is a column")
        .complains("standard input:1:7");
    assert_eq!(run.out(), "");
}

#[test]
fn the_shops_unit_or_the_one_asked_for_is_that_of_bare_numbers() {
    let table = "width,cutter\n0.710,0.5\n";
    // joinery 5 #7: 0.21 in is 5.334 mm.
    let run = rows(table, &["--units", "in", "--json"]);
    assert_eq!(shifts(run.code(0)), [Some(5.334)]);
    assert_eq!(run.json()[0]["results"]["shift"]["shown"], "0.210 in");
}

#[test]
fn a_cell_that_cannot_be_read_has_its_place_and_the_other_rows_are_told() {
    let table = "part,width,cutter\nbench,17.7 mm,12 mm\nlocker,17.7 mn,12 mm\nrack,18 mm,900 mm\n\
                 shelf,18.2 mm,12 mm\n";
    let run = rows(table, &["--json"]);
    assert_eq!(shifts(run.code(2)), [Some(5.7), None, None, Some(6.2)]);
    run.complains("standard input:3:8")
        .complains("3 | locker,17.7 mn,12 mm\n")
        .complains("  |        ^^^^^^^\n")
        .complains("standard input:4:12")
        .complains("`cutter` must be ")
        .complains("2 errors");
    let answer = run.json();
    assert_eq!(answer[1]["fault"]["code"], "quantity-unit");
    assert_eq!(answer[1]["results"], Value::Null);
    let out = rows(table, &[]).code(2).out();
    let locker = out.lines().nth(2).unwrap();
    assert!(
        locker.starts_with("locker,") && locker.contains(",cannot be read: width: "),
        "{out}"
    );
    assert_eq!(out.lines().count(), 5);
}

#[test]
fn what_a_row_lacks_is_told_at_the_row() {
    let run = rows(
        "part,width,cutter\nbench,17.7,\nrack,17.7,12\n",
        &["--json"],
    );
    assert_eq!(shifts(run.code(2)), [None, Some(5.7)]);
    run.complains("`housing` needs `cutter`")
        .complains("standard input:2:1");
}

#[test]
fn letters_of_any_alphabet_count_as_one_column() {
    let run = rows("label,width,cutter\nBänk å,x,12\n", &[]);
    run.code(2)
        .complains("standard input:2:8")
        .complains("Bänk å,x,12");
}

#[test]
fn line_ends_marks_and_quotes_of_spreadsheets_are_read() {
    is_the_one("width,cutter\n17.7 mm,12 mm\n");
    is_the_one("width,cutter\n17.7 mm,12 mm");
    is_the_one("width,cutter\r\n17.7 mm,12 mm\r\n");
    is_the_one("\u{feff}width,cutter\r\n17.7 mm,12 mm\r\n");
    is_the_one("width,cutter\r17.7 mm,12 mm\r");
    is_the_one("\"width\",\"cutter\"\r\n\"17,7 mm\",\"12 mm\"\r\n");
    is_the_one(" width , cutter \n 17.7 mm , 12 mm \n");
    is_the_one("\n\nwidth,cutter\n\n17.7 mm,12 mm\n\n\n");
    // A row of empty cells, as a spreadsheet leaves at the end, is none.
    is_the_one("width,cutter,from\n17.7 mm,12 mm,\n,,\n\"\",,\n");
    // 23/32 in are 18.25625 mm; less 12 mm 6.25625 mm. A bare inch mark opens no quotes.
    let run = rows("width,cutter\n23/32\",12 mm\n", &["--json"]);
    assert_eq!(shifts(run.code(0)), [Some(6.25625)]);
}

#[test]
fn lines_are_counted_as_an_editor_counts_them() {
    let run = rows(
        "\r\n\r\nlabel,width,cutter\r\n\r\nrack,17.7,12\r\n,,\r\nbench,x,12\r\n",
        &["--json"],
    );
    let answer = run.code(2).json();
    assert_eq!(
        (&answer[0]["line"], &answer[1]["line"]),
        (&5.into(), &7.into())
    );
    run.complains("standard input:7:7");
}

#[test]
fn a_line_with_other_cells_than_the_head_is_a_fault_of_that_line() {
    let table = "part,width,cutter\na,17.7\nb,19,5,12\nc,17.7,12\n";
    let run = rows(table, &["--json"]);
    assert_eq!(shifts(run.code(2)), [None, None, Some(5.7)]);
    run.complains("this line has 2 cells, the head line 3")
        .complains("standard input:2:1")
        .complains("this line has 4 cells, the head line 3")
        .complains("standard input:3:1")
        .complains("stands in quotes");
    // An empty last cell after a comma is a cell.
    is_the_one("width,cutter,from\n17.7,12,");
}

#[test]
fn quotes_that_do_not_close_are_told() {
    is_no_table(
        "width,cutter\n\"17.7,12\n18,12\n",
        "opened here and never closed",
    );
    is_no_table("width,cutter\n17.7,\"12", "standard input:2:6");
    let run = rows("width,cutter\n\"17.7\"mm,12\n17.7,12\n", &["--json"]);
    assert_eq!(shifts(run.code(2)), [None, Some(5.7)]);
    run.complains("do not close at its end")
        .complains("standard input:2:1");
}

#[test]
fn what_is_no_table_is_refused_whole() {
    is_no_table("", "holds no table");
    is_no_table("\n\r\n,,\n", "holds no table");
    is_no_table("width,cutter\n", "no rows");
    is_no_table(b"width,cutter\n17.7,12 \xe9\n", "standard input:2:9");
    is_no_table(b"\xff\xfew\0i\0d\0t\0h\0", "not text in UTF-8");
    is_no_table("width,cutter\n17.7,\0\n", "not text in UTF-8");
    is_no_table("width;cutter\n17,7;12\n", "parted by commas");
    is_no_table("width,cuter\n17.7,12\n", "did you mean `cutter`?");
    is_no_table("width,cutter,fenced\n17.7,12,1\n", "standard input:1:14");
    is_no_table("width,cutter,\n17.7,12,1\n", "a column has no name");
    is_no_table(
        "width,cutter,width\n17.7,12,1\n",
        "two columns are called `width`",
    );
    is_no_table("width,=cmd()\n17.7,12\n", "`housing` takes no `=cmd()`");
}

#[test]
fn ten_megabytes_are_read_and_no_more() {
    let head = "width,cutter\n17.7,12\n";
    let blank = "\n".repeat(10_000_000 - head.len());
    is_the_one(head.to_owned() + &blank);
    let more = head.to_owned() + &blank + "\n";
    let run = rows(&more, &[]);
    run.code(2).complains("more than 10 MB");
    assert_eq!(run.out(), "");
}

#[test]
fn many_faults_are_told_in_part_and_counted() {
    let table = "width,cutter\n".to_owned() + &"x,12\n".repeat(25);
    let run = rows(&table, &[]);
    run.code(2)
        .complains("standard input:21:1")
        .complains("5 more faults are not shown");
    assert!(!run.err().contains("standard input:22:1"));
    assert_eq!(run.out().matches("cannot be read: width").count(), 25);
}

#[test]
fn labels_are_copied_as_they_are() {
    let table = "label,part,width,cutter\n\"a \"\"b\"\", c\",-3,17.7,12\nÅ1,\"+4,5\",17.7,12\n";
    let out = rows(table, &[]).code(0).out();
    let lines: Vec<&str> = out.lines().collect();
    assert!(lines[0].starts_with("label,part,"), "{out}");
    assert!(lines[1].starts_with("\"a \"\"b\"\", c\",-3,"), "{out}");
    assert!(lines[2].starts_with("Å1,\"+4,5\","), "{out}");
}

/// Cells that begin with = + - @ are run by spreadsheets as formulas (known practice of CSV
/// injection, from memory).
#[test]
fn a_label_that_a_spreadsheet_would_run_is_refused() {
    for label in [
        "=1+2", "=3", "+cmd", "-2+3", "@SUM(A1)", "-", "\"=a,b\"", " =1", "＝1+2",
    ] {
        let table = format!("part,width,cutter\n{label},17.7,12\nbench,17.7,12\n");
        let run = rows(&table, &[]);
        run.code(2)
            .complains("would take this label for a formula")
            .complains("standard input:2:1");
        let out = run.out();
        let row = out.lines().nth(1).unwrap();
        assert!(row.starts_with(",12 mm,"), "the label is left out: {row}");
    }
    for label in ["\"a\nb\"", "a\u{1b}[2J", "a\tb", "a\u{9b}"] {
        let table = format!("part,width,cutter\n{label},17.7,12\n");
        rows(&table, &[]).code(2).complains("a label is one line");
    }
    // No cell of the answer begins with what the labels may not begin with but a figure of ours.
    let table = "part,width,cutter\n=x,=y,@z\n";
    let out = rows(table, &[]).code(2).out();
    for cell in out.lines().skip(1).flat_map(|line| line.split(',')) {
        assert!(
            !cell.trim_matches('"').starts_with(['=', '+', '@']),
            "{out}"
        );
    }
}

#[test]
fn rows_need_a_calculator_that_is_known() {
    let folder = Folder::empty();
    folder
        .run(&["figure", "--rows"])
        .code(2)
        .complains("CALCULATOR");
    folder
        .run_with(&["figure", "dado", "--rows"], "width\n1\n")
        .code(2)
        .complains("did you mean `housing`");
}

/// joinery 5 #2 and #3: exposure 5.51862 mm; the same cutter in stock of 0.703 in, or a wider
/// one, leaves no end cut, so it is refused.
#[test]
fn other_calculators_take_rows_too() {
    let table = "part,stock,cutter\nrail,19 mm,12.7 mm\nthin,0.703 in,0.75 in\n";
    let more = ["angle=14deg", "depth=9.5mm", "--json"];
    let run = Folder::empty().run_with(
        &[&["figure", "sliding-dovetail", "--rows"], &more[..]].concat(),
        table,
    );
    let answer = run.code(1).json();
    let exposure = answer[0]["results"]["exposure"]["mm"].as_f64().unwrap();
    assert!((exposure - 5.51862).abs() < 1e-5, "{exposure}");
    assert!(answer[0]["fit"]["lines"].is_array() || answer[0]["fit"]["influences"].is_array());
    assert!(answer[1]["refused"]["what"].is_string());
}

// C1 controls steer some terminals: U+009B begins a sequence there.
#[test]
fn no_sign_of_a_cell_steers_the_terminal() {
    let run = rows(
        "label,width,cutter\nrack,17\u{9b}31m,12 mm\nbench,17.7\u{7f},12 mm\n",
        &[],
    );
    run.code(2)
        .complains("standard input:2:6")
        .complains("standard input:3:7");
    let json = rows("label,width,cutter\nrack,17\u{9b}31m,12 mm\n", &["--json"]);
    for text in [run.out(), run.err(), json.out(), json.err()] {
        let steers = |c: char| c.is_control() && c != '\n';
        assert!(!text.contains(steers), "{text:?}");
    }
}
