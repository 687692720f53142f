//! What the commands do when something is not as they would have it: no shop, a shop that cannot
//! be opened, a job with a fault, a reader that leaves, a folder that is somebody else's; and that
//! every answer in JSON and every exit code is what it is said to be.

#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::io::Read;
use std::path::Path;
use std::process::Stdio;

use serde_json::Value;
use util::{Folder, Run, here, program};

const DOVETAIL: [&str; 6] = [
    "figure",
    "sliding-dovetail",
    "stock=19mm",
    "cutter=12.7mm",
    "angle=14deg",
    "depth=9.5mm",
];

#[track_caller]
fn with(arguments: &[&str], more: &[&str]) -> Run {
    Folder::empty().run(&[arguments, more].concat())
}

/// The demo shop in a folder of its own, under `shop`.
fn boathouse() -> Folder {
    let demo = here().join("procedures/shop");
    let mut folder = Folder::empty();
    for name in [
        "shop.yaml",
        "machines.yaml",
        "cutters.yaml",
        "people.yaml",
        "jobs/boathouse-lockers.yaml",
    ] {
        let text = std::fs::read(demo.join(name)).unwrap();
        folder = folder.file(&format!("shop/{name}"), text);
    }
    folder
}

fn files_of(folder: &Path) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// Lesson sheets that lie in the folder of a print are kept: the next print there is refused, with
/// what is in the way and what to do.
#[test]
fn a_print_replaces_nothing_but_an_earlier_print() {
    let folder = boathouse();
    let print = ["print", "--shop", "shop", "--out", "wall"];
    folder.run(&print).code(0);
    folder.run(&print).code(0);
    let lesson = ["train", "through-housing", "--sheet", "--out", "wall"];
    folder
        .run(&[&lesson[..], &["--shop", "shop"]].concat())
        .code(0);
    let sheet = "wall/lesson-through-housing.html";
    let kept = folder.read(sheet);
    folder
        .run(&print)
        .code(1)
        .complains("`lesson-through-housing.html`")
        .complains("name a new or an empty folder");
    assert_eq!(folder.read(sheet), kept);
    folder
        .run(&["site", "--shop", "shop", "--out", "site"])
        .code(0);
    folder
        .run(&["print", "--shop", "shop", "--out", "site"])
        .code(1)
        .complains("was made by `faceside site`");
    folder
        .run(&["site", "--shop", "shop", "--out", "site"])
        .code(0);
}

#[test]
fn every_command_works_in_an_empty_folder() {
    for arguments in [
        &["search", "housing"][..],
        &["print", "--plain"],
        &["train", "stopped-housing", "--sheet"],
        &["figure"],
        &["figure", "housing"],
        &["check"],
    ] {
        let folder = Folder::empty();
        let run = folder.run(arguments);
        run.code(0);
        assert!(!run.out().is_empty(), "{arguments:?}");
        assert_eq!(run.err(), "", "{arguments:?}");
        assert!(
            files_of(folder.path()).is_empty(),
            "{arguments:?} writes nothing"
        );
    }
}

#[test]
fn a_slip_in_the_name_of_a_cutter_gets_the_nearest_one() {
    let demo = here().join("procedures/shop/jobs/boathouse-lockers.yaml");
    let text = std::fs::read_to_string(demo).unwrap();
    assert!(text.contains("cutter: straight-8}"));
    let text = text.replace("cutter: straight-8}", "cutter: straigt-8}");
    let folder = Folder::empty().file("lockers.yaml", text);
    let run = folder.run(&["print", "lockers.yaml", "--plain"]);
    run.code(1)
        .complains("no cutter has the id `straigt-8`")
        .complains("did you mean `straight-8`?")
        .complains("lockers.yaml:");
    assert_eq!(run.out(), "", "nothing is printed of a job with a fault");
}

#[test]
fn names_that_nothing_is_like_get_the_list() {
    with(&["figure", "xyzzy"], &[])
        .code(2)
        .complains("`faceside figure` lists them");
    with(&["print", "xyzzy"], &[])
        .code(2)
        .complains("boathouse-lockers");
    with(&["train", "xyzzy", "--sheet"], &[])
        .code(2)
        .complains("stopped-housing");
}

#[test]
fn a_refusal_as_json_says_what_is_what_may_be_and_what_instead() {
    let deep = ["stock=19mm", "cutter=12.7mm", "angle=14deg", "depth=40mm"];
    let run = with(&["figure", "sliding-dovetail", "--json"], &deep);
    let answer = run.code(1).json();
    assert_eq!(answer["calculator"], "sliding-dovetail");
    for key in ["what", "is", "may_be", "instead"] {
        let words = answer["refused"][key].as_str().unwrap();
        assert!(!words.is_empty(), "{key}");
    }
    assert_eq!(answer["results"], Value::Null);
}

#[test]
fn the_other_answers_parse_as_json_with_their_version() {
    for (arguments, key) in [
        (&["search", "housing", "--json"][..], "hits"),
        (&["check", "--json"], "faults"),
        (&["print", "--json"], "checklists"),
    ] {
        let answer = with(arguments, &[]).code(0).json();
        assert_eq!(answer["version"], 1, "{arguments:?}");
        assert!(answer[key].is_array(), "{arguments:?}: {key}");
    }
}

#[test]
fn check_answers_in_json_even_when_the_shop_cannot_be_opened() {
    let folder = boathouse().file("shop/machines.yaml", "machine: router\n");
    let run = folder.run(&["check", "--shop", "shop", "--json"]);
    let answer = run.code(1).json();
    let fault = &answer["faults"][0];
    for key in ["code", "severity", "message", "place", "hints"] {
        assert!(!fault[key].is_null(), "{key}");
    }
    assert_eq!(fault["place"]["file"], "shop/machines.yaml");
    assert_eq!(fault["place"]["line"], 1);
    assert_eq!(run.err(), "");
}

#[test]
fn exit_codes_tell_done_findings_and_usage_apart() {
    with(&["search", "housing"], &[]).code(0);
    with(&["search", "xyzzyplugh"], &[])
        .code(1)
        .says("Nothing is known of");
    with(&["search"], &[]).code(2);
    with(&DOVETAIL, &[]).code(0);
    with(&DOVETAIL, &["depth=9mm"])
        .code(2)
        .complains("`depth` is given twice");
    with(&["figure", "sliding-dovetail", "stock"], &[])
        .code(2)
        .complains("write it like");
    with(&["check", "nowhere.yaml"], &[])
        .code(1)
        .complains("nowhere.yaml");
    with(&["train", "stopped-housing"], &[])
        .code(2)
        .complains("--person");
}

#[test]
fn a_shop_that_is_told_must_be_one() {
    let folder = Folder::empty().file("loft/readme.txt", "sails");
    for told in ["nowhere", "loft"] {
        let run = folder.run(&["check", "--shop", told]);
        run.code(1)
            .complains(&format!("`{told}` holds no `shop.yaml`"));
        assert_eq!(run.out(), "", "the demo shop is never taken in its place");
    }
}

#[test]
fn the_environment_names_the_shop_and_the_command_line_goes_before_it() {
    let folder = boathouse().file("loft/readme.txt", "sails");
    let run = |shop: &str, more: &[&str]| {
        let output = program()
            .args(["print", "--json"])
            .args(more)
            .env("FACESIDE_SHOP", shop)
            .current_dir(folder.path())
            .output()
            .unwrap();
        (
            output.status.code(),
            String::from_utf8(output.stderr).unwrap(),
        )
    };
    assert_eq!(run("shop", &[]), (Some(0), String::new()));
    let (code, told) = run("loft", &[]);
    assert_eq!(code, Some(1));
    assert!(told.contains("`loft` holds no `shop.yaml`"), "{told}");
    assert_eq!(run("loft", &["--shop", "shop"]), (Some(0), String::new()));
}

#[test]
fn a_shop_is_found_from_a_folder_below_it_and_named_from_there() {
    let folder = boathouse()
        .file("shop/notes/varnish.md", "# Varnish\n")
        .file("shop/drawings/rack.txt", "");
    let output = program()
        .arg("check")
        .current_dir(folder.path().join("shop/drawings"))
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(1));
    let told = String::from_utf8(output.stderr).unwrap();
    assert!(told.contains("--> ../notes/varnish.md:1:1"), "{told}");
}

#[test]
fn a_folder_is_checked_as_a_shop() {
    let folder = boathouse();
    folder.run(&["check", "shop"]).code(0).says("in order");
    let folder = folder.file("shop/notes/varnish.md", "# Varnish\n");
    folder
        .run(&["check", "shop"])
        .code(1)
        .complains("shop/notes/varnish.md:1:1");
}

#[test]
fn every_file_of_a_shop_can_be_checked_alone() {
    let folder = boathouse();
    for name in [
        "shop.yaml",
        "machines.yaml",
        "cutters.yaml",
        "people.yaml",
        "jobs/boathouse-lockers.yaml",
    ] {
        let run = folder.run(&["check", &format!("shop/{name}")]);
        run.code(0).says("1 file checked: in order");
        assert_eq!(run.err(), "", "{name}");
    }
    let library = here().join("procedures");
    for name in [
        "cautions/router-table.yaml",
        "cautions/matrix.yaml",
        "cautions/limits.yaml",
        "notes/tear-out.md",
        "terms.yaml",
        "joints/stopped-housing.yaml",
    ] {
        let path = library.join(name);
        let run = folder.run(&["check", path.to_str().unwrap()]);
        run.code(0);
        assert_eq!(run.err(), "", "{name}");
    }
}

/// 1 in is 25.4 mm by definition: 19.05 mm is 3/4 in.
#[test]
fn units_say_how_a_bare_number_is_read_and_what_is_shown() {
    let inches = ["stock=3/4", "cutter=1/2", "angle=14deg", "depth=3/8"];
    let run = with(
        &["figure", "sliding-dovetail", "--units", "in", "--json"],
        &inches,
    );
    let answer = run.code(0).json();
    let stock = &answer["given"]["stock"];
    assert!((stock["mm"].as_f64().unwrap() - 19.05).abs() < 1e-9);
    assert!(stock["shown"].as_str().unwrap().contains("in"), "{stock}");
    with(&["figure", "sliding-dovetail"], &inches)
        .code(2)
        .complains("has no unit");
    with(&["figure", "--units", "ft"], &[])
        .code(2)
        .complains("mm");
}

#[test]
fn every_code_is_explained() {
    for (code, words) in faceside::diag::Code::ALL {
        with(&["check", "--explain", code.name()], &[])
            .code(0)
            .says(code.name())
            .says(words.trim());
    }
}

#[test]
fn a_reader_that_leaves_ends_the_program_quietly() {
    for arguments in [&["print", "--plain"][..], &["print", "--json"], &["figure"]] {
        let mut child = program()
            .args(arguments)
            .current_dir(Folder::empty().path().parent().unwrap())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // One byte is read, then the pipe is shut: what `| head -1` does.
        let mut pipe = child.stdout.take().unwrap();
        pipe.read_exact(&mut [0]).unwrap();
        drop(pipe);
        let output = child.wait_with_output().unwrap();
        assert_eq!(String::from_utf8_lossy(&output.stderr), "", "{arguments:?}");
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
    }
}

#[test]
fn pages_are_written_whole_and_replaced_whole() {
    let folder = Folder::empty();
    folder.run(&["print", "--out", "sheets"]).code(0);
    let first = files_of(&folder.path().join("sheets"));
    let pages: Vec<_> = first
        .iter()
        .filter(|name| name.ends_with(".html"))
        .collect();
    assert!(pages.len() > 1, "{first:?}");
    for page in pages {
        let text = folder.read(&format!("sheets/{page}"));
        assert!(text.trim_end().ends_with("</html>"), "{page}");
    }
    folder.run(&["print", "--out", "sheets"]).code(0);
    assert_eq!(files_of(&folder.path().join("sheets")), first);
    // The lock stays, so that two programs never write at once; nothing half-made does.
    assert_eq!(files_of(folder.path()), [".sheets.lock", "sheets"]);
}

#[test]
fn a_job_with_a_fault_leaves_the_old_pages_as_they_are() {
    let folder = boathouse();
    let shop = ["--shop", "shop", "--out", "sheets"];
    folder
        .run(&[&["print", "boathouse-lockers"][..], &shop].concat())
        .code(0);
    let before = folder.read("sheets/all.html");
    let job = folder.read("shop/jobs/boathouse-lockers.yaml");
    let folder = folder.file(
        "shop/jobs/boathouse-lockers.yaml",
        job.replacen("shelf: 17.6 mm", "shelf: 176 mm", 1),
    );
    folder
        .run(&[&["print", "boathouse-lockers"][..], &shop].concat())
        .code(1)
        .complains("`shelf` is `176 mm`");
    assert_eq!(folder.read("sheets/all.html"), before);
}
