//! How long the whole site takes; `cargo bench --bench site` prints the figures, which depend on
//! the machine and are no test.
//!
//! The shop is made here: 10,000 procedures (the built-in ones in turn, with another id, title,
//! purpose and revision) and 10,000 notes (the built-in ones in turn, with another id, title and
//! order of paragraphs), in a temporary folder. Then, in one run:
//!
//! * `site`: the program itself, from its start to its end, on all cores;
//! * the bare cost of the same work on one core: pulldown-cmark on the text of every note; tera on
//!   the same templates (`block.html`, `page.html`) with the content of every procedure, contexts
//!   made beforehand; every byte that the site holds written to files of the same names. Beside it
//!   the two libraries that the same site also needs: serde_yaml on every procedure into its plain
//!   value, and tantivy on the texts of every entry with its own English words;
//! * one note, and one procedure, changed while `site --watch` runs: from the change until it is
//!   told that the pages are built, the quiet that is waited for included;
//! * memory: the most that `site` held at a time (VmHWM of its process) against all bytes of the
//!   site, which is what would be held if every page were kept until the end.
//!
//! Without `--bench` (as `cargo test --benches` starts it) the shop has twenty of each. A number
//! among the arguments is how many instead.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a bench prints its table, reads files, and stops by a panic"
)]

use std::cell::Cell;
use std::fs;
use std::hint::black_box;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use faceside::cli::site_pages;
use faceside::render::fill_procedures;
use faceside::store::{Workshop, entries};
use pulldown_cmark::{Options, Parser, html::push_html};
use tantivy::TantivyDocument;
use tantivy::directory::RamDirectory;
use tantivy::schema::{IndexRecordOption, Schema, TextFieldIndexing, TextOptions};
use tera::{Context, Kwargs, State, Tera};

const FULL: usize = 10_000;
const SHORT: usize = 20;

/// Words that make titles and texts differ, so that the index has more than the library's words.
const PLACES: [&str; 12] = [
    "slipway",
    "boathouse",
    "sail loft",
    "chart room",
    "oar rack",
    "oilskin locker",
    "galley",
    "tender",
    "jetty",
    "mooring shed",
    "pennant chest",
    "tiller bench",
];

fn library(folder: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("procedures")
        .join(folder);
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| !path.ends_with("README.md"))
        .collect();
    files.sort();
    files
        .iter()
        .map(|path| fs::read_to_string(path).unwrap())
        .collect()
}

/// A file with the values of some of its keys changed.
fn changed(text: &str, change: impl Fn(&str, &str) -> Option<String>) -> String {
    let line = |line: &str| {
        let new = line
            .split_once(": ")
            .and_then(|(key, value)| change(key, value).map(|value| format!("{key}: {value}\n")));
        new.unwrap_or_else(|| format!("{line}\n"))
    };
    text.lines().map(line).collect()
}

fn make(shop: &Path, many: usize) {
    let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures/shop");
    for folder in ["procedures", "notes"] {
        fs::create_dir_all(shop.join(folder)).unwrap();
    }
    for name in ["shop.yaml", "machines.yaml", "cutters.yaml"] {
        fs::copy(here.join(name), shop.join(name)).unwrap();
    }
    let procedures = [library("joints"), library("machines")].concat();
    let notes = library("notes");
    for at in 0..many {
        let place = PLACES[at % PLACES.len()];
        let text = changed(&procedures[at % procedures.len()], |key, value| match key {
            "procedure" => Some(format!("{value}-{at}")),
            "title" => Some(format!("{value}, {place} {at}")),
            "purpose" => Some(format!("{} For the {place}.", value.trim_matches('"'))),
            "revision" => Some((at % 9 + 1).to_string()),
            _ => None,
        });
        fs::write(shop.join(format!("procedures/p{at}.yaml")), text).unwrap();
        let text = &notes[at % notes.len()];
        let (head, body) = text[4..].split_once("\n---\n").unwrap();
        let head = changed(head, |key, value| match key {
            "note" => Some(format!("{value}-{at}")),
            "title" => Some(format!("{value}, {place} {at}")),
            _ => None,
        });
        let mut parts: Vec<&str> = body.trim().split("\n\n").collect();
        let turn = at % parts.len();
        parts.rotate_left(turn);
        let text = format!(
            "---\n{head}---\n{}\n\nSeen at the {place}, {at}.\n",
            parts.join("\n\n")
        );
        fs::write(shop.join(format!("notes/n{at}.md")), text).unwrap();
    }
}

fn program(shop: &Path, out: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_faceside"));
    command
        .arg("site")
        .arg("--shop")
        .arg(shop)
        .arg("--out")
        .arg(out);
    command
}

/// The most memory that a process has held so far, in bytes; Linux tells it.
fn held(child: &Child) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{}/status", child.id())).ok()?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))?;
    let kilobytes: u64 = line.trim().trim_end_matches(" kB").parse().ok()?;
    Some(kilobytes * 1024)
}

/// Seconds and most bytes held of one whole run.
fn whole(shop: &Path, out: &Path) -> (f64, u64) {
    let begun = Instant::now();
    let mut child = program(shop, out).stdout(Stdio::null()).spawn().unwrap();
    let mut most = 0;
    loop {
        most = held(&child).map_or(most, |now| now.max(most));
        if let Some(ended) = child.try_wait().unwrap() {
            assert!(ended.success(), "the site cannot be built");
            return (begun.elapsed().as_secs_f64(), most);
        }
        thread::sleep(Duration::from_millis(5));
    }
}

/// Names below a folder, in order.
fn names(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    let mut open = vec![folder.to_owned()];
    while let Some(inner) = open.pop() {
        for entry in fs::read_dir(inner).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path)
            } else {
                all.push(path)
            }
        }
    }
    all.sort();
    all
}

/// Seconds that some work takes.
fn seconds(work: impl FnOnce()) -> f64 {
    let begun = Instant::now();
    work();
    begun.elapsed().as_secs_f64()
}

/// pulldown-cmark alone.
fn markdown(workshop: &Workshop) -> f64 {
    seconds(|| {
        for note in workshop.notes.values() {
            let mut html = String::new();
            push_html(
                &mut html,
                Parser::new_ext(&note.body, Options::ENABLE_TABLES),
            );
            black_box(html);
        }
    })
}

/// tera alone: the blocks of every procedure, and the frame around every page.
fn templates(workshop: &Workshop) -> f64 {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("site/templates");
    let mut tera = Tera::default();
    tera.autoescape_on([".html"]);
    // Ours keeps a number with its unit, which is no work of the library's.
    tera.register_filter("whole", |text: &str, _: Kwargs, _: &State<'_>| {
        text.to_owned()
    });
    let files = ["pictogram.html", "block.html", "page.html"]
        .map(|name| (name, fs::read_to_string(folder.join(name)).unwrap()));
    tera.add_raw_templates(files).unwrap();
    let pages = site_pages(workshop);
    let mut frame = Context::new();
    for name in [
        "root", "shop", "date", "checked", "limits", "up", "over", "title", "window",
    ] {
        frame.insert(name, "words of the page");
    }
    for name in ["foot", "running"] {
        frame.insert(name, "\"words of the page\"");
    }
    let part = serde_json::json!({"name": "Procedures", "path": "procedures.html", "current": ""});
    frame.insert("parts", &vec![part; 8]);
    frame.insert("live", &true);
    let blocks = Cell::new(0.0);
    let fill = |context: &Context| {
        let mut text = Ok(String::new());
        let taken = seconds(|| text = tera.render("block.html", context));
        blocks.set(blocks.get() + taken);
        Ok(text.unwrap())
    };
    let mut framed = 0.0;
    let put = |content: String| {
        framed += seconds(|| {
            frame.insert("content", &content);
            black_box(tera.render("page.html", &frame).unwrap());
        });
    };
    fill_procedures(&pages, fill, put).unwrap();
    let spent = blocks.get() + framed;
    frame.insert("content", &"<p>text</p>".repeat(200));
    spent
        + seconds(|| {
            for _ in &pages.notes {
                black_box(tera.render("page.html", &frame).unwrap());
            }
        })
}

/// Every byte of the site once more, to files of the same names.
fn written(site: &Path, copy: &Path) -> (f64, u64) {
    let files: Vec<(PathBuf, Vec<u8>)> = names(site)
        .into_iter()
        .map(|path| {
            (
                copy.join(path.strip_prefix(site).unwrap()),
                fs::read(&path).unwrap(),
            )
        })
        .collect();
    let bytes = files.iter().map(|(_, bytes)| bytes.len() as u64).sum();
    for (path, _) in &files {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
    }
    (
        seconds(|| {
            files
                .iter()
                .for_each(|(path, bytes)| fs::write(path, bytes).unwrap())
        }),
        bytes,
    )
}

/// serde_yaml alone.
fn yaml(shop: &Path) -> f64 {
    let texts: Vec<String> = names(&shop.join("procedures"))
        .iter()
        .map(|path| fs::read_to_string(path).unwrap())
        .collect();
    seconds(|| {
        for text in &texts {
            black_box(serde_yaml::from_str::<serde_yaml::Value>(text).unwrap());
        }
    })
}

/// tantivy alone: an index in memory of the same entries, cut into words as tantivy does.
fn tantivy(workshop: &Workshop) -> f64 {
    let entries = entries(workshop);
    let mut schema = Schema::builder();
    let indexing = TextFieldIndexing::default()
        .set_tokenizer("en_stem")
        .set_index_option(IndexRecordOption::WithFreqsAndPositions);
    let options = TextOptions::default().set_indexing_options(indexing);
    let [title, also, summary, body] = ["title", "also", "summary", "body"]
        .map(|name| schema.add_text_field(name, options.clone()));
    let schema = schema.build();
    seconds(|| {
        let mut writer = tantivy::Index::builder()
            .schema(schema)
            .single_segment_index_writer(RamDirectory::create(), 50_000_000)
            .unwrap();
        for entry in &entries {
            let mut document = TantivyDocument::default();
            document.add_text(title, &entry.title);
            document.add_text(summary, &entry.summary);
            for (field, texts) in [(also, &entry.also), (body, &entry.body)] {
                texts.iter().for_each(|text| document.add_text(field, text));
            }
            writer.add_document(document).unwrap();
        }
        black_box(writer.finalize().unwrap());
    })
}

/// Seconds from the change of a file until the pages are told to be built again.
fn again(shop: &Path, out: &Path, files: [&str; 2]) -> [f64; 2] {
    let mut child = program(shop, out)
        .arg("--watch")
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    // The address, then the first build.
    lines.nth(1).unwrap().unwrap();
    let taken = files.map(|file| {
        let path = shop.join(file);
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, text.replacen("title: ", "title: The other ", 1)).unwrap();
        seconds(|| {
            let line = lines.next().unwrap().unwrap();
            assert!(line.contains(" files: "), "{line}");
        })
    });
    child.kill().unwrap();
    child.wait().unwrap();
    taken
}

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let full = arguments.iter().any(|one| one == "--bench");
    let named = arguments.iter().find_map(|one| one.parse().ok());
    let many: usize = named.unwrap_or(if full { FULL } else { SHORT });
    let top = tempfile::tempdir().unwrap();
    let [shop, out, copy] = ["shop", "site", "copy"].map(|name| top.path().join(name));
    make(&shop, many);
    println!("{many} procedures and {many} notes");

    let (site, most) = whole(&shop, &out);
    let (workshop, _) = Workshop::open(Some(&shop), None).unwrap();
    let (pulldown, tera) = (markdown(&workshop), templates(&workshop));
    let search = tantivy(&workshop);
    drop(workshop);
    let (writing, bytes) = written(&out, &copy);
    let yaml = yaml(&shop);
    let bare = pulldown + tera + writing;
    println!("site, all cores           {site:>9.2} s");
    println!("bare, one core: markdown  {pulldown:>9.2} s");
    println!("                templates {tera:>9.2} s");
    println!("                writing   {writing:>9.2} s");
    println!(
        "                together  {bare:>9.2} s   site over it {:.2}",
        site / bare
    );
    let all = bare + yaml + search;
    println!(
        "with YAML ({yaml:.2} s) and search ({search:.2} s) {all:.2} s   site over it {:.2}",
        site / all
    );
    let megabytes = |bytes: u64| bytes as f64 / 1e6;
    println!(
        "memory: {:.0} MB at most, the site has {:.0} MB: {:.2} times",
        megabytes(most),
        megabytes(bytes),
        most as f64 / bytes as f64
    );
    let scripts = names(&out).into_iter().filter(|path| {
        let name = path.file_name().unwrap().to_string_lossy();
        name.starts_with("search-")
    });
    let sizes: Vec<u64> = scripts
        .map(|path| fs::metadata(path).unwrap().len())
        .collect();
    println!(
        "search index: {:.1} MB in {} scripts",
        megabytes(sizes.iter().sum()),
        sizes.len()
    );
    let [note, procedure] = again(&shop, &out, ["notes/n7.md", "procedures/p7.yaml"]);
    for (what, taken) in [("note", note), ("procedure", procedure)] {
        let share = 100.0 * taken / site;
        println!("one {what} changed: {taken:.2} s, {share:.1} % of the whole");
    }
}
