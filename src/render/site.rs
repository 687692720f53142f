//! The site as files: one page a procedure, machine, note and calculator, and lists of them.
//!
//! Pages open from a folder: every address is relative, nothing is fetched, no script is needed.
//! Names of files come from ids and are made of small letters, digits and hyphens only; two ids
//! that come to the same name are a fault.

use std::collections::BTreeSet;

use tera::Context;

use super::block::{Block, heading, words};
use super::html;
use super::inert::slug;
use super::markdown::note_html;
use super::pages::{self, SitePages, bullets};
use super::speech;
use super::templates::{STYLE, Templates};
use super::writing::{self, writing};
use crate::diag::{Code, Fault};
use crate::search::Speech;

/// Parts of the manual, as every page lists them.
const PARTS: [(&str, &str); 7] = [
    ("Procedures", "procedures.html"),
    ("Cautions", "cautions.html"),
    ("Notes", "notes.html"),
    ("Words", "words.html"),
    ("Calculators", "calculators.html"),
    ("About the figures", "about.html"),
    ("Writing a procedure", "writing.html"),
];

/// A page before it is put into its frame.
struct Page {
    path: String,
    over: String,
    title: String,
    content: String,
}

/// All files of the site: path within its folder, bytes.
///
/// # Errors
/// A note's link that leads nowhere, a drawing that cannot be made, two pages of one name, a
/// template that cannot be filled.
pub fn site(pages: &SitePages) -> Result<Vec<(String, Vec<u8>)>, Fault> {
    let templates = Templates::new()?;
    let mut all = vec![home(&templates, pages)?];
    all.extend(lists(&templates, pages)?);
    all.extend(entries(&templates, pages)?);
    let mut files = vec![
        ("manual.css".to_owned(), STYLE.as_bytes().to_vec()),
        (writing::SCHEMA.to_owned(), pages.schema.as_bytes().to_vec()),
    ];
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

fn frame(templates: &Templates, pages: &SitePages, page: &Page) -> Result<String, Fault> {
    let mut context = Context::new();
    let root = if page.path.contains('/') { "../" } else { "" };
    context.insert("root", root);
    context.insert("shop", &pages.shop);
    context.insert("date", &pages.date);
    context.insert("limits", &*pages.speech.say(&pages.limits.short));
    context.insert("links", &PARTS);
    context.insert("here", &page.path);
    context.insert("over", &page.over);
    context.insert("title", &page.title);
    context.insert("content", &page.content);
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
        content: html::blocks(templates, blocks)?,
    })
}

fn home(templates: &Templates, pages: &SitePages) -> Result<Page, Fault> {
    let mut blocks = vec![Block::Para {
        text: words(
            "How joints are cut in this shop: the steps, the numbers for a machine, the cautions \
             before each step.",
        ),
    }];
    blocks.extend(procedure_list(pages));
    blocks.push(heading("The rest of the manual"));
    let rest = PARTS.iter().skip(1);
    blocks.push(Block::Links {
        rows: rest
            .map(|(title, path)| ((*title).to_owned(), (*path).to_owned(), String::new()))
            .collect(),
    });
    blocks.push(Block::Rule {
        name: "Limits".to_owned(),
        text: pages.limits.long.clone(),
    });
    page(
        (templates, &pages.speech),
        "index.html",
        ("Workshop manual", &pages.shop),
        blocks,
    )
}

/// Procedures by family, in the order in which families are met.
fn procedure_list(pages: &SitePages) -> Vec<Block> {
    let mut families: Vec<&str> = Vec::new();
    for one in &pages.procedures {
        if !families.contains(&one.family.as_str()) {
            families.push(&one.family);
        }
    }
    let mut blocks = Vec::new();
    for family in families {
        blocks.push(heading(family));
        let own = pages.procedures.iter().filter(|one| one.family == family);
        let rows = own.map(|one| {
            let example = &one.example;
            let address = format!("procedures/{}.html", slug(&example.procedure));
            (example.title.clone(), address, example.purpose.clone())
        });
        blocks.push(Block::Links {
            rows: rows.collect(),
        });
    }
    blocks
}

fn lists(templates: &Templates, pages: &SitePages) -> Result<Vec<Page>, Fault> {
    let shop = pages.shop.as_str();
    let machines = pages.cautions.iter().map(|one| {
        let address = format!("cautions/{}.html", slug(&one.machine));
        (one.machine.replace('-', " "), address, String::new())
    });
    let notes = pages.notes.iter().map(|one| {
        let address = format!("notes/{}.html", slug(&one.id));
        let title = pages.speech.say(&one.title).into_owned();
        (title, address, one.about.join(", "))
    });
    let calculators = pages.calculators.iter().map(|one| {
        let address = format!("calculators/{}.html", slug(one.name));
        (one.name.to_owned(), address, one.summary.to_owned())
    });
    let links = |rows: Vec<(String, String, String)>| [Block::Links { rows }];
    let plain = |(title, path): (&str, &str), blocks: &[Block]| {
        as_it_stands(templates, path, (shop, title), blocks)
    };
    Ok(vec![
        page(
            (templates, &pages.speech),
            PARTS[0].1,
            (shop, PARTS[0].0),
            procedure_list(pages),
        )?,
        page(
            (templates, &pages.speech),
            PARTS[1].1,
            (shop, PARTS[1].0),
            links(machines.collect()).to_vec(),
        )?,
        plain(PARTS[2], &links(notes.collect()))?,
        plain(PARTS[3], &pages::terms(pages))?,
        plain(PARTS[4], &links(calculators.collect()))?,
        about(templates, pages)?,
        as_it_stands(
            templates,
            PARTS[6].1,
            (shop, PARTS[6].0),
            &writing(&pages.sample),
        )?,
    ])
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
        rows: vec![("sources checked".to_owned(), pages.checked.clone())],
    });
    blocks.push(Block::Rule {
        name: "Limits".to_owned(),
        text: pages.limits.long.clone(),
    });
    let spoken = (templates, &pages.speech);
    let mut made = page(spoken, PARTS[5].1, (&pages.shop, PARTS[5].0), blocks)?;
    let text = note_html(&pages.about, &pages.speech, &|scheme, name| {
        address(pages, "", scheme, name)
    })?;
    made.content = text + &made.content;
    Ok(made)
}

fn entries(templates: &Templates, pages: &SitePages) -> Result<Vec<Page>, Fault> {
    let mut all = Vec::new();
    let spoken = (templates, &pages.speech);
    for one in &pages.procedures {
        let first = one.after.iter().filter_map(|id| {
            let found = pages.procedures.iter();
            let mut found = found.filter(|other| &other.example.procedure == id);
            let title = found.next()?.example.title.clone();
            Some((title, format!("{}.html", slug(id))))
        });
        let blocks = pages::procedure(one, first.collect());
        let path = format!("procedures/{}.html", slug(&one.example.procedure));
        let heads = (one.family.as_str(), one.example.title.as_str());
        all.push(page(spoken, &path, heads, blocks)?);
    }
    for one in &pages.cautions {
        let path = format!("cautions/{}.html", slug(&one.machine));
        let title = format!("Cautions: {}", one.machine.replace('-', " "));
        let blocks = pages::cautions(one);
        all.push(page(spoken, &path, ("Cautions", &title), blocks)?);
    }
    for one in &pages.notes {
        let path = format!("notes/{}.html", slug(&one.id));
        let mut made = page(spoken, &path, ("Note", &one.title), Vec::new())?;
        made.content = note_html(&one.markdown, &pages.speech, &|scheme, name| {
            address(pages, "../", scheme, name)
        })
        .map_err(|fault| fault.hint(format!("the link stands in the note `{}`", one.id)))?;
        all.push(made);
    }
    for one in &pages.calculators {
        let path = format!("calculators/{}.html", slug(one.name));
        let blocks = pages::calculator(one);
        let heads = ("Calculator", one.name);
        all.push(as_it_stands(templates, &path, heads, &blocks)?);
    }
    Ok(all)
}

/// The address of a page in the shop's own scheme; a caution leads to the page of its machine.
/// None when nothing has that name; a procedure that this shop cannot use has no page.
fn address(pages: &SitePages, root: &str, scheme: &str, name: &str) -> Option<Option<String>> {
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
