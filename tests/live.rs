//! Live pages against the commands: what is typed into a page of the site in Chromium gives the same
//! figures, warnings and refusals as `faceside figure` and `faceside print`, to the last shown digit.
//!
//! Five hundred random inputs, seeded, in millimetres, inches and fractions, in range and out of it.
//! The pages run the module that the program holds (`site/static/live.wasm.gz`), or with
//! `FACESIDE_LIVE` the one in that file, which `.ci/run` builds from the sources.
#![cfg(feature = "program")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

#[path = "live/random.rs"]
mod random;
mod util;

use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::sync::OnceLock;

use base64::prelude::{BASE64_STANDARD, Engine};
use faceside::joints::{self, Calculator};
use faceside::procedure::{Procedure, example};
use faceside::render::worked;
use faceside::store::Workshop;
use random::{Random, Row};
use serde_json::{Value as Json, json};
use util::{Folder, here};

/// Inputs of each calculator and of each procedure.
const A_CALCULATOR: usize = 13;
const A_PROCEDURE: usize = 2;

/// Refused parts of a job; the command tells at most forty faults of a file.
const A_JOB: usize = 12;

/// What to do when page and command differ.
const HINT: &str = "the module of the pages is older than the sources: `bash .ci/live` builds it";

/// The site of the demo shop, built once, with the module that is to be tried.
fn site() -> PathBuf {
    static SITE: OnceLock<Folder> = OnceLock::new();
    let folder = SITE.get_or_init(|| {
        let folder = Folder::empty();
        folder.run(&["site", "--out", "site"]).code(0);
        if let Some(file) = std::env::var_os("FACESIDE_LIVE") {
            let module = fs::read(&file).unwrap_or_else(|error| panic!("FACESIDE_LIVE: {error}"));
            let module = BASE64_STANDARD.encode(module);
            let script = format!("window.facesideModule = \"{module}\";\n");
            fs::write(folder.path().join("site/live-module.js"), script).unwrap();
        }
        folder
    });
    folder.path().join("site")
}

/// What `tests/live/NAME.mjs` tells of the site when it is given `input`.
#[track_caller]
fn driven(name: &str, input: &Json) -> Json {
    let home = std::env::var_os("HOME").map(PathBuf::from);
    let packages = std::env::var_os("FACESIDE_NODE").map(PathBuf::from);
    let packages =
        packages.unwrap_or_else(|| home.unwrap_or_default().join(".cache/faceside-node"));
    let mut node = Command::new("node")
        .arg(here().join("tests/live").join(name))
        .arg(packages)
        .arg(site())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("node is needed; `.ci/run` installs it and its packages");
    let mut to = node.stdin.take().unwrap();
    to.write_all(input.to_string().as_bytes()).unwrap();
    drop(to);
    let output = node.wait_with_output().unwrap();
    assert!(output.status.success(), "{name} fails");
    serde_json::from_slice(&output.stdout).unwrap()
}

/// Types the rows into their pages; each page begins with its own example, which must come out as the
/// page was built, letter by letter.
fn typed(pages: &[(String, Row, Vec<Row>)]) -> Vec<Vec<Json>> {
    let visits = pages.iter().map(|(page, own, rows)| {
        let own = json!(own).as_object().cloned().unwrap();
        let own = own.into_iter().chain([("html".to_owned(), json!("yes"))]);
        let rows =
            std::iter::once(Json::Object(own.collect())).chain(rows.iter().map(|row| json!(row)));
        json!({"page": page, "rows": rows.collect::<Vec<_>>()})
    });
    let told = driven("type.mjs", &visits.collect());
    let told = told.as_array().unwrap().iter();
    told.map(|page| {
        let name = &page["page"];
        assert_eq!(page["wrong"], json!([]), "{name}");
        let seen = page["seen"].as_array().unwrap();
        assert!(
            page["began"]
                .as_object()
                .unwrap()
                .values()
                .all(|html| html != ""),
            "{name}"
        );
        assert_eq!(
            seen[0]["html"], page["began"],
            "{name}: its example; {HINT}"
        );
        assert_eq!(page["ended"], page["began"], "{name}: put back");
        let broken = seen.iter().find(|one| one["broken"] != json!(false));
        assert!(broken.is_none(), "{name}: {broken:?}");
        seen[1..].to_vec()
    })
    .collect()
}

fn workshop() -> Workshop {
    Workshop::open(None, None).unwrap().0
}

#[test]
fn calculator_pages_answer_as_the_command() {
    let mut random = Random::new(20_261_126);
    let workshop = workshop();
    let pages: Vec<_> = joints::ALL
        .iter()
        .map(|one| {
            let mut own: Row = worked::example(one);
            own.insert("units".to_owned(), "mm".to_owned());
            // Units one after the other: a page reads the shop anew when they change.
            let units = |at: usize| if at * 2 < A_CALCULATOR { "mm" } else { "in" };
            let rows =
                (0..A_CALCULATOR).map(|at| random.figure(one, &workshop.cutters, (at, units(at))));
            let rows: Vec<Row> = rows.collect();
            (format!("calculators/{}.html", one.name), own, rows)
        })
        .collect();
    let mut counts = BTreeMap::from([("answered", 0), ("refused", 0), ("amiss", 0)]);
    for ((one, (_, _, rows)), seen) in joints::ALL.iter().zip(&pages).zip(typed(&pages)) {
        for units in ["mm", "in"] {
            let of = |at: &usize| rows[*at]["units"] == units;
            let these: Vec<usize> = (0..rows.len()).filter(of).collect();
            let told = command(one, these.iter().map(|at| &rows[*at]), units);
            for (at, told) in these.iter().zip(&told) {
                let what = format!("{} {:?}", one.name, rows[*at]);
                let kind = same_figure(&seen[*at], told, &what);
                *counts.get_mut(kind).unwrap() += 1;
            }
        }
    }
    println!("{counts:?}");
    assert_eq!(
        counts.values().sum::<usize>(),
        joints::ALL.len() * A_CALCULATOR
    );
    assert!(counts.values().all(|count| *count >= 30), "{counts:?}");
}

/// What the command answers to rows.
fn command<'r>(
    calculator: &Calculator,
    rows: impl Iterator<Item = &'r Row>,
    units: &str,
) -> Vec<Json> {
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let names: Vec<_> = calculator.inputs.iter().map(|input| input.name).collect();
    let mut csv = names.join(",") + "\n";
    for row in rows {
        let cells = names
            .iter()
            .map(|name| row.get(*name).map_or(String::new(), |text| quoted(text)));
        csv += &(cells.collect::<Vec<_>>().join(",") + "\n");
    }
    let arguments = [
        "figure",
        calculator.name,
        "--rows",
        "--json",
        "--units",
        units,
    ];
    let run = Folder::empty().run_with(&arguments, csv);
    serde_json::from_str(&run.out())
        .unwrap_or_else(|_| panic!("{}\n{}", calculator.name, run.err()))
}

/// Holds a page against the command's answer; tells which kind of answer it is.
#[track_caller]
fn same_figure(page: &Json, told: &Json, what: &str) -> &'static str {
    if let Some(refused) = told.get("refused") {
        let facts = json!({"is": refused["is"], "may be": refused["may_be"], "instead": refused["instead"]});
        let rule = format!("Refused. {}", refused["what"].as_str().unwrap());
        assert_eq!(page["rules"], json!([rule]), "{what}; {HINT}");
        assert_eq!(page["facts"], facts, "{what}; {HINT}");
        assert_eq!(page["results"], json!({}), "{what}");
        assert_eq!(page["drawn"], 0, "{what}: what is refused is not drawn");
        return "refused";
    }
    if let Some(fault) = told.get("fault") {
        let rule = format!("Not worked out. {}", fault["message"].as_str().unwrap());
        assert_eq!(page["rules"][0], rule, "{what}; {HINT}");
        assert_eq!(page["results"], json!({}), "{what}");
        assert_eq!(page["drawn"], 0, "{what}");
        return "amiss";
    }
    let shown = |value: &Json| match value {
        Json::Array(items) => {
            let items = items.iter().map(|item| item["shown"].as_str().unwrap());
            items.collect::<Vec<_>>().join("; ")
        }
        one => one["shown"].as_str().unwrap().to_owned(),
    };
    let all = |values: &Json| -> BTreeMap<String, String> {
        let values = values.as_object().unwrap().iter();
        values
            .map(|(name, value)| (name.clone(), shown(value)))
            .collect()
    };
    assert_eq!(page["rules"], json!([]), "{what}; {HINT}");
    assert_eq!(
        page["results"],
        json!(all(&told["results"])),
        "{what}; {HINT}"
    );
    for (name, value) in all(&told["given"]) {
        assert_eq!(page["given"][&name], value, "{what}: {name}; {HINT}");
    }
    assert_eq!(page["beware"], told["warnings"], "{what}; {HINT}");
    assert_eq!(page["order"], told["notes"], "{what}; {HINT}");
    assert_eq!(page["faults"], json!({}), "{what}");
    "answered"
}

#[test]
fn procedure_pages_fill_as_print_does() {
    let mut random = Random::new(1_126_202);
    let workshop = workshop();
    let procedures: Vec<&Procedure> = workshop.usable().collect();
    let pages: Vec<_> = procedures
        .iter()
        .filter(|one| !(one.measures.is_empty() && one.choices.is_empty()))
        .map(|one| {
            let example = example(one, workshop.place());
            let texts = example.measured.iter().chain(&example.chosen);
            let mut own: Row = texts
                .map(|(name, (text, _))| (name.clone(), text.clone()))
                .collect();
            own.insert("units".to_owned(), "mm".to_owned());
            let rows = (0..A_PROCEDURE).map(|at| random.part(one, &own, &workshop.cutters, at));
            let rows: Vec<Row> = rows.collect();
            (format!("procedures/{}.html", one.id), own, rows)
        })
        .collect();
    let procedures = procedures
        .iter()
        .filter(|one| !(one.measures.is_empty() && one.choices.is_empty()));
    let (mut filled, mut refused) = (Vec::new(), Vec::new());
    for ((one, (_, _, rows)), seen) in procedures.zip(&pages).zip(typed(&pages)) {
        for (row, page) in rows.iter().zip(seen) {
            let part = Part {
                procedure: one,
                row,
                page,
            };
            let is_refused = part.page["setUps"] == json!([]);
            if is_refused {
                &mut refused
            } else {
                &mut filled
            }
            .push(part);
        }
    }
    let counts = format!("filled {}, refused {}", filled.len(), refused.len());
    println!("{counts}");
    assert_eq!(filled.len() + refused.len(), pages.len() * A_PROCEDURE);
    assert!(filled.len() >= 20 && refused.len() >= 10, "{counts}");
    for units in ["mm", "in"] {
        let of = |parts: &[Part]| -> Vec<usize> {
            let of = |at: &usize| parts[*at].row["units"] == units;
            (0..parts.len()).filter(of).collect()
        };
        let these: Vec<&Part> = of(&filled).into_iter().map(|at| &filled[at]).collect();
        let sheets = printed(&these, units).unwrap_or_else(|told| panic!("{told}\n{HINT}"));
        for (at, part) in these.iter().enumerate() {
            same_set_ups(part, &format!("P{at}"), &sheets);
        }
        let these: Vec<&Part> = of(&refused).into_iter().map(|at| &refused[at]).collect();
        for some in these.chunks(A_JOB) {
            let told = printed(some, units).expect_err(HINT);
            for (at, part) in some.iter().enumerate() {
                let rule = part.page["rules"][0].as_str().unwrap();
                let rule = rule.replacen("Refused. ", "", 1);
                let rule = rule.replacen("this part: ", &format!("P{at}: "), 1);
                let what = format!("{} {:?}", part.procedure.id, part.row);
                assert!(told.contains(&rule), "{what}\n{rule}\n{told}; {HINT}");
            }
        }
    }
}

/// A part as it was typed into the page of its procedure, and what that showed.
struct Part<'p> {
    procedure: &'p Procedure,
    row: &'p Row,
    page: Json,
}

/// The sheets of a job with these parts, or what the command complains of.
fn printed(parts: &[&Part], units: &str) -> Result<Json, String> {
    let shop = here().join("procedures/shop");
    let read = |name: &str| fs::read_to_string(shop.join(name)).unwrap();
    let parts = parts.iter().enumerate().map(|(at, part)| {
        let named = |names: &mut dyn Iterator<Item = &String>| -> Json {
            let given = names.filter_map(|name| Some((name.clone(), json!(part.row.get(name)?))));
            Json::Object(given.collect())
        };
        json!({
            "part": format!("P{at}"),
            "procedure": part.procedure.id,
            "pieces": 1,
            "measured": named(&mut part.procedure.measures.iter().map(|one| &one.name)),
            "chosen": named(&mut part.procedure.choices.iter().map(|one| &one.name)),
        })
    });
    let job = json!({"job": "j", "title": "J", "parts": parts.collect::<Vec<_>>()});
    let folder = Folder::empty()
        .file("shop.yaml", read("shop.yaml"))
        .file("machines.yaml", read("machines.yaml"))
        .file("cutters.yaml", read("cutters.yaml"))
        .file("jobs/j.yaml", job.to_string());
    let run = folder.run(&["print", "j", "--plain", "--json", "--units", units]);
    serde_json::from_str(&run.out()).map_err(|_| run.err())
}

/// Holds the set-ups of a page against those of the sheets that its part is on, which may stand in
/// another order.
#[track_caller]
fn same_set_ups(part: &Part, name: &str, sheets: &Json) {
    let text = |value: &Json| value.as_str().unwrap().trim().to_owned();
    let of_page = part.page["setUps"].as_array().unwrap().iter();
    let is_of_part = |sheet: &&Json| {
        let mut pieces = sheet["pieces"].as_array().unwrap().iter();
        pieces.any(|piece| piece.as_str().unwrap().split([',', ' ']).next() == Some(name))
    };
    let of_sheet = sheets["checklists"].as_array().unwrap().iter();
    let of_sheet = of_sheet.filter(is_of_part).map(|one| {
        let steps = one["steps"].as_array().unwrap();
        let settings = one["settings"].as_array().unwrap().iter();
        let settings = settings.map(|set| json!([text(&set["label"]), text(&set["shown"])]));
        let checks = steps.iter().map(|step| &step["check"]);
        let checks = checks.filter(|check| !check.is_null());
        let limits = checks.map(|check| json!([check["wanted"], check["low"], check["high"]]));
        json!({
            "title": one["title"],
            "settings": settings.collect::<Vec<_>>(),
            "acts": steps.iter().map(|step| text(&step["do"])).collect::<Vec<_>>(),
            "limits": limits.collect::<Vec<_>>(),
        })
        .to_string()
    });
    let mut of_page: Vec<String> = of_page.map(Json::to_string).collect();
    let mut of_sheet: Vec<String> = of_sheet.collect();
    of_page.sort();
    of_sheet.sort();
    let what = format!("{} {:?}", part.procedure.id, part.row);
    assert_eq!(of_page, of_sheet, "{what}; {HINT}");
}

/// A page by keyboard at 320 px with a fault, an answer, on paper, put back, and without scripts.
/// Gives what it showed and the text of the printed page.
fn looked_at(page: &str, field: &str, good: &str, bad: &str) -> (Json, String) {
    let asked = json!({"page": page, "field": field, "good": good, "bad": bad});
    let told = driven("look.mjs", &asked);
    assert_eq!(told["wrong"], json!([]), "{page}");
    assert_eq!(told["field"]["invalid"], "true", "{page}");
    let words = told["field"]["words"].as_str().unwrap();
    assert!(words.contains("is not a unit of length"), "{page}: {words}");
    assert_eq!(told["putBack"], told["began"], "{page}");
    assert_eq!(told["withoutScript"]["form"], json!(false), "{page}");
    let folder = Folder::empty();
    let pdf = BASE64_STANDARD
        .decode(told["pdf"].as_str().unwrap())
        .unwrap();
    let file = folder.path().join("page.pdf");
    fs::write(&file, pdf).unwrap();
    let text = Command::new("pdftotext")
        .arg("-layout")
        .arg(&file)
        .arg("-")
        .output();
    let text = text.expect("pdftotext is needed: `apt-get install poppler-utils`");
    (told, String::from_utf8(text.stdout).unwrap())
}

#[test]
fn a_calculator_page_prints_what_it_shows_and_stands_without_scripts() {
    // The housing is the thickness and the clearance: 18.25 + 0.10.
    let (told, paper) = looked_at("calculators/housing.html", "thickness", "18.25", "18.25 x");
    let text = |what: &str| told[what].as_str().unwrap().to_owned();
    assert!(text("answered").contains("18.35 mm") && !text("began").contains("18.35 mm"));
    assert!(text("amiss").contains("Not worked out") && !text("amiss").contains("Results"));
    assert!(
        paper.contains("18.35 mm") && paper.contains("As typed on this page"),
        "{paper}"
    );
    assert!(!paper.contains("Your own values"), "{paper}");
    let still = told["withoutScript"]["text"].as_str().unwrap();
    assert!(still.contains("The worked example"), "{still}");
    let words = |text: &str| {
        text.split_whitespace()
            .map(str::to_owned)
            .collect::<Vec<_>>()
            .join(" ")
    };
    let (wide, narrow) = (words(still), words(&text("began")));
    assert!(wide.contains("Results") && narrow.contains("Results"));
}

#[test]
fn a_procedure_page_prints_what_it_shows_and_stands_without_scripts() {
    let (told, paper) = looked_at(
        "procedures/through-housing.html",
        "shelf",
        "14.35 mm",
        "14.35 mmm",
    );
    let text = |what: &str| told[what].as_str().unwrap().to_owned();
    assert!(text("answered").contains("14.35 mm") && !text("began").contains("14.35 mm"));
    assert!(text("amiss").contains("Refused.") && !text("amiss").contains("Spindle speed"));
    assert!(paper.contains("14.35 mm"), "{paper}");
    assert!(paper.contains("as typed on this page"), "{paper}");
    assert!(!paper.contains("Your own values"), "{paper}");
    let still = told["withoutScript"]["text"].as_str().unwrap();
    assert!(still.contains("the worked example"), "{still}");
    assert!(still.contains("Spindle speed"), "{still}");
}
