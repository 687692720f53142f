//! The site as files: one page a procedure, machine, note and calculator, and lists of them.
//!
//! Pages open from a folder: every address is relative, nothing is fetched, no script is needed;
//! one searches (`site_search`), one works out other values (`src/live`).
//! Names of files come from ids and are made of small letters, digits and hyphens only; two ids
//! that come to the same name are a fault.

use std::collections::{BTreeMap, BTreeSet};

use base64::prelude::{BASE64_STANDARD, Engine};
use serde::Serialize;
use tera::Context;

use super::block::{Block, heading};
use super::inert::{css_string, slug};
use super::markdown::note_html;
use super::pages::{self, SitePages, bullets, table};
use super::procedure_page;
use super::set_up::joined;
use super::templates::{LIVE, MODULE, STYLE, Templates};
use super::writing::{self, writing};
use super::{html, lists, machine, speech, woods};
use crate::diag::{Code, Fault};
use crate::search::Speech;

/// Parts of the manual, as every page lists them.
const PARTS: [(&str, &str); 8] = [
    ("Procedures", "procedures.html"),
    ("Machines and cautions", "cautions.html"),
    ("Calculators", "calculators.html"),
    ("Woods", "woods.html"),
    ("Notes", "notes.html"),
    ("Words", "words.html"),
    ("About the figures", "about.html"),
    ("Writing a procedure", "writing.html"),
];

/// The page of people, where there is one.
pub(super) const PEOPLE: &str = "people.html";

/// A page before it is put into its frame.
struct Page {
    path: String,
    over: String,
    title: String,
    /// What tells it from an older one of the same title: id and revision; may be empty.
    mark: String,
    content: String,
    /// Whether it takes values from its reader.
    live: bool,
}

/// A part in the list of parts: its name, its page, and what it is to the page that is open:
/// `page` itself, `true` when that lies in it, or empty.
#[derive(Serialize)]
struct Part {
    name: &'static str,
    path: &'static str,
    current: &'static str,
}

/// All files of the site: path within its folder, bytes.
///
/// # Errors
/// A note's link that leads nowhere, a drawing that cannot be made, two pages of one name, a
/// template that cannot be filled.
pub fn site(pages: &SitePages) -> Result<Vec<(String, Vec<u8>)>, Fault> {
    let templates = Templates::new()?;
    let mut all = lists(&templates, pages)?;
    all.extend(entries(&templates, pages)?);
    let mut files = vec![
        ("manual.css".to_owned(), STYLE.as_bytes().to_vec()),
        (writing::SCHEMA.to_owned(), pages.schema.as_bytes().to_vec()),
    ];
    files.extend(live_scripts(pages));
    let mut seen = BTreeSet::new();
    for page in &all {
        if !seen.insert(page.path.clone()) {
            let message = format!("two pages would be written to `{}`", page.path);
            return Err(Fault::error(Code::DUPLICATE_ID, message).hint("give one another id"));
        }
        let text = frame(&templates, pages, page)?;
        files.push((page.path.clone(), text.into_bytes()));
    }
    Ok(files)
}

/// What the live pages share: their script, the module packed as text, the shop's files. A page that
/// is opened from a folder cannot fetch, but it can have a script.
fn live_scripts(pages: &SitePages) -> [(String, Vec<u8>); 3] {
    let module = BASE64_STANDARD.encode(MODULE);
    let files = &pages.floor.files;
    [
        ("live.js", LIVE.to_owned()),
        (
            "live-module.js",
            format!("window.facesideModule = \"{module}\";\n"),
        ),
        ("live-shop.js", format!("window.facesideShop = {files};\n")),
    ]
    .map(|(name, text)| (name.to_owned(), text.into_bytes()))
}

fn frame(templates: &Templates, pages: &SitePages, page: &Page) -> Result<String, Fault> {
    let mut context = Context::new();
    let folder = page.path.split_once('/').map(|(folder, _)| folder);
    let root = if folder.is_some() { "../" } else { "" };
    let parts = PARTS.map(|(name, path)| Part {
        name,
        path,
        current: match folder {
            None if path == page.path => "page",
            Some(folder) if path.strip_suffix(".html") == Some(folder) => "true",
            _ => "",
        },
    });
    let up = parts.iter().find(|part| part.current == "true");
    let limits = pages.speech.say(&pages.limits.short);
    let is_home = page.title == pages.shop;
    let name = if is_home { &page.over } else { &page.title };
    let window = joined(&[name, &page.mark, &pages.shop], " · ");
    context.insert("root", root);
    context.insert("shop", &pages.shop);
    context.insert("date", &pages.date);
    context.insert("checked", &pages.checked);
    context.insert("limits", &*limits);
    context.insert("parts", &parts);
    context.insert("up", up.map_or("", |part| part.path));
    context.insert("over", &page.over);
    context.insert("title", &page.title);
    context.insert("window", &window);
    context.insert("foot", &css_string(&limits));
    context.insert("running", &css_string(&window));
    context.insert("content", &page.content);
    context.insert("live", &page.live);
    templates.fill("page.html", &context)
}

/// A page in the words of the region.
fn page(
    (templates, speech): (&Templates, &Speech),
    path: &str,
    (over, title): (&str, &str),
    mut blocks: Vec<Block>,
) -> Result<Page, Fault> {
    speech::blocks(&mut blocks, speech);
    let heads = (&*speech.say(over), &*speech.say(title));
    as_it_stands(templates, path, heads, &blocks)
}

/// A page whose words are ids, or are chosen for the region already.
fn as_it_stands(
    templates: &Templates,
    path: &str,
    (over, title): (&str, &str),
    blocks: &[Block],
) -> Result<Page, Fault> {
    Ok(Page {
        path: path.to_owned(),
        over: over.to_owned(),
        title: title.to_owned(),
        mark: String::new(),
        content: html::blocks(templates, blocks)?,
        live: blocks
            .iter()
            .any(|block| matches!(block, Block::Form { .. })),
    })
}

/// An id or a name as a title: `router-table` is `Router table`.
pub(super) fn title(id: &str) -> String {
    let words = id.replace('-', " ");
    let mut letters = words.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}

fn lists(templates: &Templates, pages: &SitePages) -> Result<Vec<Page>, Fault> {
    let shop = pages.shop.as_str();
    let spoken = (templates, &pages.speech);
    let told = |at: usize, blocks| page(spoken, PARTS[at].1, (shop, PARTS[at].0), blocks);
    let plain = |at: usize, blocks: &[Block]| {
        as_it_stands(templates, PARTS[at].1, (shop, PARTS[at].0), blocks)
    };
    let home = lists::home(pages, &PARTS);
    let people = (!pages.people.is_empty())
        .then(|| as_it_stands(templates, PEOPLE, (shop, "Who may do what"), &pages.people));
    let mut all = vec![
        page(spoken, "index.html", ("Workshop manual", shop), home)?,
        told(0, lists::procedures(pages))?,
        told(1, lists::machines(pages))?,
        plain(2, &lists::calculators(pages))?,
        plain(3, &woods::list(&woods::woods()))?,
        plain(4, &lists::notes(pages))?,
        plain(5, &pages::terms(pages))?,
        about(templates, pages)?,
        as_it_stands(
            templates,
            PARTS[7].1,
            (shop, PARTS[7].0),
            &writing(&pages.sample),
        )?,
    ];
    all.extend(people.transpose()?);
    Ok(all)
}

fn about(templates: &Templates, pages: &SitePages) -> Result<Page, Fault> {
    let mut blocks = bullets(
        "What this manual does not do",
        &[
            "It does not know the state of a machine.".to_owned(),
            "Nothing in it is certified.".to_owned(),
            "Its sources were last checked on the day below; a law may have changed since."
                .to_owned(),
        ],
    );
    blocks.push(Block::Facts {
        rows: vec![
            ("sources checked".to_owned(), pages.checked.clone()),
            ("pages built".to_owned(), pages.date.clone()),
        ],
    });
    blocks.push(Block::Rule {
        name: "Limits".to_owned(),
        text: pages.limits.long.clone(),
    });
    blocks.push(heading("Procedures: revision and review"));
    let reviewed = pages.procedures.iter().map(|one| {
        let example = &one.example;
        let revision = example.revision.to_string();
        vec![example.title.clone(), revision, example.reviewed.clone()]
    });
    blocks.push(table(
        &["procedure", "revision", "reviewed"],
        reviewed.collect(),
    ));
    let spoken = (templates, &pages.speech);
    let mut made = page(spoken, PARTS[6].1, (&pages.shop, PARTS[6].0), blocks)?;
    let cited = [heading("Sources of the cautions"), cited(pages)];
    let cited = html::blocks(templates, &cited)?;
    let text = note_html(&pages.about, &pages.speech, &|scheme, name| {
        address(pages, "", scheme, name)
    })?;
    made.content = format!("<div class=\"note\">{text}</div>{}{cited}", made.content);
    Ok(made)
}

/// Every source that cautions cite, with the machines whose cautions cite it.
fn cited(pages: &SitePages) -> Block {
    let mut rows: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for page in &pages.cautions {
        for source in page.rules.iter().flat_map(|rule| &rule.sources) {
            let machines = rows.entry(source).or_default();
            machines.insert(page.machine.replace('-', " "));
        }
    }
    let row = |(source, machines): (&str, BTreeSet<String>)| {
        let machines: Vec<String> = machines.into_iter().collect();
        vec![source.to_owned(), machines.join(", ")]
    };
    table(
        &["source, its status", "cautions of"],
        rows.into_iter().map(row).collect(),
    )
}

fn entries(templates: &Templates, pages: &SitePages) -> Result<Vec<Page>, Fault> {
    let mut all = Vec::new();
    let spoken = (templates, &pages.speech);
    for one in &pages.procedures {
        let id = &one.example.procedure;
        let first = one
            .after
            .iter()
            .filter_map(|id| lists::linked(pages, id, "../"));
        let blocks = procedure_page::procedure(
            one,
            first.collect(),
            lists::notes_on(pages, id),
            &pages.floor,
        );
        let path = format!("procedures/{}.html", slug(id));
        let heads = (&*title(&one.family), one.example.title.as_str());
        let mut made = page(spoken, &path, heads, blocks)?;
        made.mark = format!("{id}, revision {}", one.example.revision);
        all.push(made);
    }
    for one in &pages.cautions {
        let path = format!("cautions/{}.html", slug(&one.machine));
        let heads = ("Machines and cautions", &*title(&one.machine));
        all.push(page(spoken, &path, heads, machine::page(pages, one))?);
    }
    for one in &pages.notes {
        all.push(note(spoken, pages, one)?);
    }
    for one in &pages.calculators {
        let path = format!("calculators/{}.html", slug(one.name));
        let mut used = lists::callers(pages, one.name);
        for (words, _, _) in &mut used {
            *words = pages.speech.say(words).into_owned();
        }
        let blocks = pages::calculator(one, used, &pages.floor);
        all.push(as_it_stands(
            templates,
            &path,
            ("Calculator", one.name),
            &blocks,
        )?);
    }
    for one in &woods::woods() {
        let path = format!("woods/{}.html", one.word);
        let blocks = woods::page(one, "../");
        all.push(as_it_stands(templates, &path, ("Wood", one.name), &blocks)?);
    }
    Ok(all)
}

fn note(
    spoken: (&Templates, &Speech),
    pages: &SitePages,
    one: &pages::NotePage,
) -> Result<Page, Fault> {
    let path = format!("notes/{}.html", slug(&one.id));
    let about = one
        .about
        .iter()
        .filter_map(|id| lists::linked(pages, id, "../"));
    let about: Vec<_> = about.collect();
    let mut blocks = Vec::new();
    if !about.is_empty() {
        blocks.push(heading("Bears on"));
        blocks.push(Block::Links { rows: about });
    }
    let mut made = page(spoken, &path, ("Note", &one.title), blocks)?;
    let text = note_html(&one.markdown, &pages.speech, &|scheme, name| {
        address(pages, "../", scheme, name)
    })
    .map_err(|fault| fault.hint(format!("the link stands in the note `{}`", one.id)))?;
    made.content = format!("<div class=\"note\">{text}</div>{}", made.content);
    Ok(made)
}

/// The address of a page in the shop's own scheme; a caution leads to the page of its machine.
/// None when nothing has that name; a procedure that this shop cannot use has no page.
pub(super) fn address(
    pages: &SitePages,
    root: &str,
    scheme: &str,
    name: &str,
) -> Option<Option<String>> {
    let folder = |folder: &str, name: &str| Some(format!("{root}{folder}/{}.html", slug(name)));
    match scheme {
        "procedure" => {
            let shown = pages
                .procedures
                .iter()
                .any(|one| one.example.procedure == name);
            let left_out = || pages.left_out.iter().any(|id| id == name).then_some(None);
            shown.then(|| folder("procedures", name)).or_else(left_out)
        }
        "figure" => {
            let mut all = pages.calculators.iter();
            all.any(|one| one.name == name)
                .then(|| folder("calculators", name))
        }
        "note" => {
            let mut all = pages.notes.iter();
            all.any(|one| one.id == name).then(|| folder("notes", name))
        }
        "caution" => {
            let holds = |page: &&pages::CautionPage| {
                page.machine == name || page.rules.iter().any(|rule| rule.id == name)
            };
            let page = pages.cautions.iter().find(holds)?;
            Some(folder("cautions", &page.machine))
        }
        _ => None,
    }
}
