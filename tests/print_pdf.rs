//! The checklists of the demo job, and of every procedure's own example, as a browser prints them:
//! headless Chromium makes the PDF, poppler's `pdftotext` and `pdftoppm` read it back.
//!
//! A stylesheet cannot prove that a caution stays with its step (`procedures.md` 6.2: without a
//! rule, one was left alone at a page's foot), so the finished pages are checked.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod example_job;
mod util;

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use example_job::example_job;
use faceside::jobs::plan;
use faceside::render::{checklist_html, sheets_json};
use faceside::shop::Paper;
use faceside::store::Workshop;
use serde_json::Value as Json;
use util::Folder;

/// Prints a page as a browser does, without the browser's own head and foot.
fn pdf(html: &Path, out: &Path) {
    let profile = tempfile::tempdir().unwrap();
    let status = Command::new("chromium")
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
        ])
        .args([
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
        ])
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .arg("--no-pdf-header-footer")
        .arg(format!("--print-to-pdf={}", out.display()))
        .arg(format!("file://{}", html.display()))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .expect("chromium is needed: `apt-get install chromium poppler-utils`");
    assert!(status.success(), "chromium on {}", html.display());
}

/// The text of each page, white space folded.
fn pages(pdf: &Path) -> Vec<String> {
    let out = Command::new("pdftotext")
        .arg("-raw")
        .arg(pdf)
        .arg("-")
        .output()
        .unwrap();
    assert!(out.status.success(), "pdftotext on {}", pdf.display());
    let text = String::from_utf8(out.stdout).unwrap();
    let pages = text.trim_end_matches('\u{c}').split('\u{c}');
    pages
        .map(|page| page.split_whitespace().collect::<Vec<_>>().join(" "))
        .collect()
}

/// Words with no white space at all: a line break in the middle of a word costs nothing.
fn tight(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

fn text<'j>(json: &'j Json, key: &str) -> &'j str {
    json[key].as_str().unwrap_or_default()
}

/// Fails unless every step of the sheet stands on one page with its cautions before it.
fn steps_keep_their_cautions(sheet: &Json, pages: &[String]) -> usize {
    let pages: Vec<String> = pages.iter().map(|page| tight(page)).collect();
    let (mut page, mut from, mut seen) = (0, 0, 0);
    for (number, step) in sheet["steps"].as_array().unwrap().iter().enumerate() {
        let act = tight(&format!("{}{}", number + 1, text(step, "do")));
        let name = format!(
            "sheet {}, step {}: {}",
            sheet["number"],
            number + 1,
            text(step, "do")
        );
        let at = loop {
            assert!(page < pages.len(), "{name}: not found");
            match pages[page][from..].find(&act) {
                Some(at) => break from + at,
                None => (page, from) = (page + 1, 0),
            }
        };
        let before = &pages[page][from..at];
        for caution in step["cautions"].as_array().unwrap() {
            let full = tight(text(caution, "hazard"));
            let brief = caution["brief"].as_str().map(tight);
            let stands = before.contains(&full) || brief.is_some_and(|b| before.contains(&b));
            let id = text(caution, "id");
            assert!(
                stands,
                "{name}: caution `{id}` is not before it on page {}",
                page + 1
            );
            seen += 1;
        }
        from = at + act.len();
    }
    seen
}

/// Fails unless each page says which it is, and what a sheet is and is not.
fn pages_identify_themselves(name: &str, pages: &[String]) {
    let count = pages.len();
    for (at, page) in pages.iter().enumerate() {
        let number = format!("page {} of {count}", at + 1);
        assert!(page.contains(&number), "{name}: no `{number}`");
        assert!(
            page.contains("Memory aid for trained persons."),
            "{name}: no limits, {number}"
        );
        assert!(
            page.contains("boathouse-lockers"),
            "{name}: no job, {number}"
        );
    }
}

/// Fails if any pixel has a colour: what is printed reads the same on a grey printer.
fn is_grey(pdf: &Path) {
    let out = Command::new("pdftoppm")
        .args(["-r", "30"])
        .arg(pdf)
        .output()
        .unwrap();
    assert!(out.status.success());
    let mut rest = out.stdout.as_slice();
    let mut checked = 0;
    while rest.starts_with(b"P6") {
        let head: Vec<&[u8]> = rest.splitn(4, |byte| *byte == b'\n').collect();
        let sizes = std::str::from_utf8(head[1]).unwrap();
        let size: usize = sizes
            .split(' ')
            .map(|n| n.parse::<usize>().unwrap())
            .product();
        let start = head[0].len() + head[1].len() + head[2].len() + 3;
        let pixels = &rest[start..start + size * 3];
        let coloured = pixels.chunks(3).find(|p| p.iter().max() > p.iter().min());
        assert_eq!(coloured, None, "{}", pdf.display());
        checked += size;
        rest = &rest[start + size * 3..];
    }
    assert!(checked > 10_000);
}

fn sheet_file(folder: &Path, number: u64) -> PathBuf {
    let wanted = format!("{number:02}-");
    let files = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    let mut found = files.filter(|path| {
        path.file_name()
            .unwrap()
            .to_string_lossy()
            .starts_with(&wanted)
    });
    found.next().unwrap()
}

fn print(paper: &str) -> (Folder, Json) {
    let folder = Folder::empty();
    let json = folder
        .run(&["print", "--json", "--out", "sheets", "--paper", paper])
        .code(0)
        .json();
    (folder, json)
}

#[test]
fn each_demo_checklist_prints_whole_on_a4() {
    let (folder, json) = print("A4");
    let sheets = folder.path().join("sheets");
    let lists = json["checklists"].as_array().unwrap();
    assert!(lists.len() > 10);
    let work = |half: usize| {
        let mut cautions = 0;
        for list in lists.iter().skip(half).step_by(2) {
            let html = sheet_file(&sheets, list["number"].as_u64().unwrap());
            let out = folder.path().join(format!("{}.pdf", list["number"]));
            pdf(&html, &out);
            let pages = pages(&out);
            pages_identify_themselves(&html.display().to_string(), &pages);
            cautions += steps_keep_their_cautions(list, &pages);
            is_grey(&out);
        }
        cautions
    };
    let cautions = std::thread::scope(|threads| {
        let other = threads.spawn(|| work(1));
        work(0) + other.join().unwrap()
    });
    assert!(cautions > 100, "only {cautions} cautions were looked for");
}

#[test]
fn the_whole_job_prints_on_letter() {
    let (folder, json) = print("Letter");
    let out = folder.path().join("all.pdf");
    pdf(&folder.path().join("sheets/all.html"), &out);
    let info = Command::new("pdfinfo").arg(&out).output().unwrap();
    let info = String::from_utf8(info.stdout).unwrap();
    // 8 1/2 x 11 in at 72 points an inch (ANSI paper size A, from memory).
    assert!(info.contains("612 x 792 pts"), "{info}");
    let pages = pages(&out);
    pages_identify_themselves("all.html", &pages);
    for list in json["checklists"].as_array().unwrap() {
        let title = format!("{}. {}", list["number"], text(list, "title"));
        assert!(
            pages.iter().any(|page| page.contains(&title)),
            "no sheet `{title}`"
        );
    }
}

/// The titles of a file's sheets in order, and how many pages each fills.
fn sheets_of(html: &str, pages: &[String]) -> Vec<(String, usize)> {
    let heads = html.split("<h1>").skip(1);
    let titles: Vec<&str> = heads
        .map(|rest| rest.split("</h1>").next().unwrap())
        .collect();
    let mut starts = Vec::new();
    let mut at = 0;
    for title in &titles {
        let wanted = tight(&title.replace("&#x27;", "'").replace("&amp;", "&"));
        let tells = |page: &String| {
            let page = tight(page);
            page.find(&wanted).is_some_and(|place| place < 600)
        };
        at += pages[at..]
            .iter()
            .position(tells)
            .unwrap_or_else(|| panic!("no page `{title}`"));
        starts.push(at);
        at += 1;
    }
    starts.push(pages.len());
    let counts = starts.windows(2).map(|pair| pair[1] - pair[0]);
    titles.into_iter().map(str::to_owned).zip(counts).collect()
}

/// Lines of each page that are not its head and foot.
fn lines_of_pages(pdf: &Path) -> Vec<usize> {
    let out = Command::new("pdftotext")
        .arg("-layout")
        .arg(pdf)
        .arg("-")
        .output()
        .unwrap();
    let text = String::from_utf8(out.stdout).unwrap();
    let pages = text.trim_end_matches('\u{c}').split('\u{c}');
    let lines = |page: &str| page.lines().filter(|line| !line.trim().is_empty()).count();
    // One line at the head, two at the foot.
    pages.map(|page| lines(page).saturating_sub(3)).collect()
}

fn packages() -> PathBuf {
    let named = std::env::var_os("FACESIDE_NODE").map(PathBuf::from);
    let home = std::env::var_os("HOME").map(PathBuf::from);
    named.unwrap_or_else(|| home.unwrap_or_default().join(".cache/faceside-node"))
}

/// Prints files in one browser; what it measured, by file.
fn measured(files: &[PathBuf]) -> Json {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/print_pdf/print.mjs");
    let out = Command::new("node")
        .arg(script)
        .arg(packages())
        .args(files)
        .output()
        .unwrap();
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    serde_json::from_slice(&out.stdout).unwrap()
}

/// Each procedure's example printed: how many of its checklists stand on one page, and what a
/// sheet must be on any page.
#[test]
fn the_checklists_of_every_procedure_stand_on_one_page_each() {
    let folder = Folder::empty();
    let shop = Workshop::open(None, None).unwrap().0;
    let mut jobs = Vec::new();
    for procedure in shop.procedures.values() {
        let job = example_job(procedure, shop.place());
        let job = plan(&job, &shop.procedures, shop.place(), "2026-11-25").unwrap();
        let files = checklist_html(&job, Paper::A4, &shop.speech()).unwrap();
        let (_, all) = files
            .into_iter()
            .find(|(name, _)| name == "all.html")
            .unwrap();
        let path = folder.path().join(format!("{}.html", procedure.id));
        std::fs::write(&path, &all).unwrap();
        jobs.push((path, all, sheets_json(&job)));
    }
    assert!(jobs.len() >= 44);
    let (one, other) = jobs.split_at(jobs.len() / 2);
    let paths = |jobs: &[(PathBuf, _, _)]| jobs.iter().map(|job| job.0.clone()).collect::<Vec<_>>();
    let (one, other) = (paths(one), paths(other));
    let told = std::thread::scope(|threads| {
        let other = threads.spawn(|| measured(&other));
        [measured(&one), other.join().unwrap()]
    });
    let mut short = Vec::new();
    let (mut single, mut all_lists, mut all_pages, mut cautions) = (0, 0, 0, 0);
    for (path, html, json) in &jobs {
        let name = path.display().to_string();
        let told = told.iter().find_map(|told| told.get(&name)).unwrap();
        // What is worked from is read at arm's length: 12 pt at least (procedures.md 6.1).
        assert!(told["sizes"][0].as_f64().unwrap() >= 12.0, "{name}: {told}");
        // A sheet wider than its paper would be printed smaller by the browser.
        assert_eq!(told["out"], 0, "{name}");
        let pdf = path.with_extension("pdf");
        let pages = pages(&pdf);
        for (at, lines) in lines_of_pages(&pdf).into_iter().enumerate() {
            if lines < 4 {
                short.push(format!("{name}: page {} has {lines} lines", at + 1));
            }
        }
        let sheets = sheets_of(html, &pages);
        let mut at = 0;
        let mut lists = json["checklists"].as_array().unwrap().iter().peekable();
        for (title, count) in &sheets {
            // The pages of all parts of a set-up together.
            if let Some(list) = lists.peek() {
                let of_it = format!("{}. ", list["number"]);
                if title.starts_with(&of_it)
                    && !title.contains(", part ") | title.contains(", part 1 of")
                {
                    let parts = sheets.iter().filter(|(title, _)| title.starts_with(&of_it));
                    let high: usize = parts.map(|(_, count)| count).sum();
                    cautions += steps_keep_their_cautions(list, &pages[at..at + high]);
                    lists.next();
                }
            }
            at += count;
            if title
                .split_once(". ")
                .is_some_and(|(number, _)| number.parse::<u32>().is_ok())
            {
                all_lists += 1;
                single += usize::from(*count == 1);
            }
        }
        assert!(lists.next().is_none(), "{name}: a checklist was not found");
        all_pages += pages.len();
    }
    let share = f64::from(single as u32) / f64::from(all_lists);
    println!(
        "{single} of {all_lists} checklists stand on one page ({:.1} %), {all_pages} pages in all; \
         {cautions} cautions found before their steps",
        share * 100.0
    );
    assert!(share >= 0.8, "{single} of {all_lists}");
    assert!(short.is_empty(), "{}", short.join("\n"));
}
