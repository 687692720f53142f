//! The schema of a procedure file, held against files as an editor would: every procedure of the
//! library is valid by it, a wrong key or word is not; and the page that is made from it.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::path::PathBuf;

use faceside::procedure::{levels, schema, schema_text};
use serde_json::{Value, json};
use util::{Folder, here};

fn read(path: &PathBuf) -> Value {
    serde_yaml::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

fn sample() -> Value {
    read(&here().join("procedures/start/procedures/first-procedure.yaml"))
}

/// What an editor would mark.
fn marks(file: &Value) -> Vec<String> {
    let validator = jsonschema::draft7::new(&schema()).unwrap();
    let errors = validator.iter_errors(file);
    errors
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect()
}

#[test]
fn the_schema_is_one_itself() {
    assert!(jsonschema::draft7::meta::is_valid(&schema()));
    assert_eq!(
        serde_json::from_str::<Value>(&schema_text()).unwrap(),
        schema()
    );
}

#[test]
fn every_procedure_is_valid() {
    let mut count = 0;
    for folder in ["joints", "machines", "start/procedures"] {
        for entry in fs::read_dir(here().join("procedures").join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|ending| ending == "yaml") {
                assert_eq!(
                    marks(&read(&path)),
                    Vec::<String>::new(),
                    "{}",
                    path.display()
                );
                count += 1;
            }
        }
    }
    assert!(count > 35, "{count}");
}

/// A change of the sample, and what the editor's words must hold.
type Slip = (fn(&mut Value), &'static str);

#[test]
fn what_the_reader_refuses_an_editor_marks() {
    let slips: [Slip; 12] = [
        (|file| file["titel"] = json!("Groove"), "titel"),
        (|file| file["ready"]["tool"] = json!("none"), "tool"),
        (
            |file| file["set_ups"][1]["steps"][0]["dose"] = json!("cut"),
            "dose",
        ),
        (|file| file["measure"]["board"]["note"] = json!("x"), "note"),
        (
            |file| drop(file.as_object_mut().unwrap().remove("close")),
            "close",
        ),
        (
            |file| file["measure"]["board"]["kind"] = json!("lenght"),
            "lenght",
        ),
        (
            |file| file["choose"]["cutter"]["shape"] = json!("strait"),
            "strait",
        ),
        (|file| file["measure"] = json!("nothing"), "nothing"),
        (
            |file| file["procedure"] = json!("First Procedure"),
            "First Procedure",
        ),
        (|file| file["reviewed"] = json!("in November"), "November"),
        (|file| file["also_called"] = Value::Null, "null"),
        (
            |file| file["set_ups"][1]["steps"][0] = json!({"use": "fit-cutter", "do": "Fit it."}),
            "valid",
        ),
    ];
    assert_eq!(marks(&sample()), Vec::<String>::new());
    for (slip, words) in slips {
        let mut file = sample();
        slip(&mut file);
        let told = marks(&file).join("\n");
        assert!(told.contains(words), "{words}: {told}");
    }
}

#[test]
fn every_key_has_a_meaning() {
    let levels = levels();
    assert_eq!(levels[0].name, "procedure");
    assert_eq!(levels[0].keys[0].name, "procedure", "in the order of files");
    let definitions = schema()["definitions"].as_object().unwrap().len();
    assert_eq!(
        levels.len(),
        definitions + 1,
        "the whole, and each group of keys"
    );
    for level in &levels {
        assert!(level.what.ends_with('.'), "{}", level.name);
        assert!(!level.keys.is_empty(), "{}", level.name);
        for key in &level.keys {
            let means = &key.means;
            assert!(means.ends_with('.'), "{}.{}: {means}", level.name, key.name);
            assert!(!key.holds.is_empty(), "{}.{}", level.name, key.name);
        }
    }
}

#[test]
fn the_site_holds_the_schema_and_the_page_made_from_it() {
    let folder = Folder::empty();
    folder.run(&["site", "--out", "pages"]).code(0);
    assert_eq!(folder.read("pages/procedure.schema.json"), schema_text());
    let page = folder.read("pages/writing.html");
    for level in levels() {
        assert!(
            page.contains(&format!("<h2>{}</h2>", level.name)),
            "{}",
            level.name
        );
        for key in level.keys {
            assert!(
                page.contains(&format!(">{}</td>", key.name)),
                "{}",
                key.name
            );
        }
    }
    assert!(
        page.contains("Change 1: write"),
        "the sample stands there whole"
    );
    assert!(page.contains("href=\"procedure.schema.json\""));
    assert!(
        folder
            .read("pages/index.html")
            .contains("href=\"writing.html\"")
    );
}

#[test]
fn the_first_line_of_the_sample_names_the_schema_beside_it() {
    let folder = Folder::empty();
    folder.run(&["start", "loft"]).code(0);
    let text = folder.read("loft/procedures/first-procedure.yaml");
    let first = text.lines().next().unwrap();
    let name = first
        .strip_prefix("# yaml-language-server: $schema=")
        .unwrap();
    assert_eq!(
        folder.read(&format!("loft/procedures/{name}")),
        schema_text()
    );
}
