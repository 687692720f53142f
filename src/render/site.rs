//! The site as files: one page a procedure, machine, note and calculator, and lists of them.
//!
//! The job that is being worked on has its sheets among them, as they would be printed.
//! Pages open from a folder: every address is relative, nothing is fetched, no script is needed;
//! one searches (`site_search`), one works out other values (`src/live`).
//! Names of files come from ids and are made of small letters, digits and hyphens only; two ids
//! that come to the same name are a fault.

use std::sync::{Mutex, PoisonError};

use base64::prelude::{BASE64_STANDARD, Engine};
use serde::Serialize;
use tera::Context;

use super::about;
use super::block::{Block, Sheet, heading};
use super::built::{Built, Made, Sink, told};
use super::inert::{css_string, json_in_page, slug};
use super::listed::{self, Listed};
use super::markdown::note_html;
use super::pages::{self, CautionPage, Head, NotePage, ProcedurePage, SitePages};
use super::places::Places;
use super::procedure_page;
use super::set_up::joined;
use super::templates::{LIVE, MODULE, STYLE, Templates};
use super::woods::{self, Wood};
use super::writing::{self, writing};
use super::{html, lists, machine, screen, sheet, speech};
use crate::cores::try_each;
use crate::diag::{Code, Fault, Faults};
use crate::jobs::Sheets;
use crate::joints::Calculator;
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
    over: String,
    title: String,
    /// What tells it from an older one of the same title: id and revision; may be empty.
    mark: String,
    content: String,
    /// The page above it, from the site's folder; empty where the list of parts tells it.
    up: String,
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

/// What one page is about.
enum Subject<'p> {
    Home,
    /// One of [`PARTS`].
    Part(usize),
    People,
    Cautions(&'p CautionPage),
    Calculator(&'static Calculator),
    Wood(&'p Wood),
    /// A sheet of the job in hand.
    Sheet(&'p Sheets, &'p Sheet),
}

impl Subject<'_> {
    /// Path within the site's folder.
    fn path(&self) -> String {
        let (folder, name) = match self {
            Self::Home => return "index.html".to_owned(),
            Self::Part(at) => return PARTS[*at].1.to_owned(),
            Self::People => return PEOPLE.to_owned(),
            Self::Cautions(one) => ("cautions", slug(&one.machine)),
            Self::Calculator(one) => ("calculators", slug(one.name)),
            Self::Wood(one) => ("woods", one.word.to_owned()),
            Self::Sheet(job, one) => return format!("{}{}.html", lists::of_job(job), one.slug),
        };
        format!("{folder}/{name}.html")
    }
}

/// All files of the site: path within its folder, bytes.
///
/// # Errors
/// As those of [`site_into`].
pub fn site(pages: &SitePages) -> Result<Vec<(String, Vec<u8>)>, Faults> {
    struct Files(Mutex<Vec<(String, Vec<u8>)>>);
    impl Sink for Files {
        fn put(&self, path: &str, bytes: Vec<u8>) -> Result<(), Fault> {
            let mut files = self.0.lock().unwrap_or_else(PoisonError::into_inner);
            files.push((path.to_owned(), bytes));
            Ok(())
        }

        fn keep(&self, _: &str) -> Result<bool, Fault> {
            Ok(false)
        }
    }
    let files = Files(Mutex::default());
    site_into(pages, &Built::default(), &files)?;
    let mut files = files.0.into_inner().unwrap_or_else(PoisonError::into_inner);
    files.sort();
    Ok(files)
}

/// Makes all files of the site and gives each to `sink`, on all cores, so that few are held at a
/// time. Pages of procedures and notes that would come out as in the site before are kept.
///
/// # Errors
/// What keeps a procedure from being filled, of all procedures; a note's link that leads nowhere, a
/// drawing that cannot be made, two pages of one name, a template that cannot be filled; and those
/// of `sink`.
pub fn site_into(pages: &SitePages, before: &Built, sink: &impl Sink) -> Result<Built, Faults> {
    let manual = Manual::new(pages)?;
    let woods = woods::woods();
    let sheets = sheets(pages)?;
    let others = subjects(pages, &woods, &sheets);
    let procedures: Vec<usize> = (0..manual.heads.len()).collect();
    let mut built = Built::default();
    let own = procedures.iter().map(|at| manual.procedure_path(*at));
    let notes = pages.notes.iter().map(note_path);
    for path in own.chain(notes).chain(others.iter().map(Subject::path)) {
        let none = Made {
            from: None,
            listed: None,
        };
        if built.pages.insert(path.clone(), none).is_some() {
            let message = format!("two pages would be written to `{path}`");
            return Err(Fault::error(Code::DUPLICATE_ID, message)
                .hint("give one another id")
                .into());
        }
    }
    let shared = [
        ("manual.css", STYLE.as_bytes().to_vec()),
        (writing::SCHEMA, pages.schema.as_bytes().to_vec()),
    ];
    for (path, bytes) in shared.into_iter().chain(live_scripts(pages)) {
        sink.put(path, bytes)?;
        built.files += 1;
    }
    built.files += built.pages.len();

    let made = try_each(&procedures, |at| manual.procedure(*at, before, sink))?;
    let mut faults = Faults::new();
    let mut listed = Vec::new();
    for (at, made) in made.into_iter().enumerate() {
        match made {
            Ok(made) => {
                listed.extend(made.listed.clone());
                built.pages.insert(manual.procedure_path(at), made);
            }
            Err(told) => faults.extend(told),
        }
    }
    if faults.any_error() {
        return Err(faults);
    }
    let made = try_each(&pages.notes, |one| manual.note(one, before, sink))?;
    for (one, made) in pages.notes.iter().zip(made) {
        built.pages.insert(note_path(one), made);
    }
    try_each(&others, |subject| {
        let page = made_of(subject, &manual, &listed, &woods)?;
        manual.put(&subject.path(), &page, sink)
    })?;
    Ok(built)
}

/// What all pages are made with.
struct Manual<'p> {
    pages: &'p SitePages<'p>,
    templates: Templates,
    places: Places<'p>,
    heads: Vec<Head>,
    /// Tells what every page is made from.
    common: u64,
    /// Tells what links in texts can lead to.
    ids: u64,
}

impl<'p> Manual<'p> {
    fn new(pages: &'p SitePages) -> Result<Self, Fault> {
        let limits = (&pages.limits.short, &pages.limits.long);
        let unit = format!("{:?}", pages.floor.shop.units);
        let days = (&pages.date, &pages.checked);
        let places = Places::of(pages);
        Ok(Self {
            pages,
            templates: Templates::new()?,
            ids: told(places.ids()),
            places,
            heads: pages.procedures.heads(),
            common: told((&pages.shop, days, limits, &pages.floor.files, unit)),
        })
    }

    fn procedure_path(&self, at: usize) -> String {
        listed::address("", &self.heads[at].id)
    }

    /// A procedure's page, made or kept.
    fn procedure(
        &self,
        at: usize,
        before: &Built,
        sink: &impl Sink,
    ) -> Result<Result<Made, Faults>, Fault> {
        let path = self.procedure_path(at);
        let head = &self.heads[at];
        let links = (
            self.places.notes_on(&head.id),
            self.places.all_of(&head.after),
        );
        let history = history_of(self.pages, &head.id);
        let own = self.pages.procedures.made_from(at);
        let from = own.map(|own| told((self.common, own, links, history)));
        if let Some(same) = before.same(&path, from)
            && sink.keep(&path)?
        {
            return Ok(Ok(same.clone()));
        }
        let one = match self.pages.procedures.page(at) {
            Ok(one) => one,
            Err(faults) => return Ok(Err(faults)),
        };
        let page = procedure(&self.templates, (self.pages, &self.places), &one)?;
        self.put(&path, &page, sink)?;
        let listed = Some(Listed::of(&one));
        Ok(Ok(Made { from, listed }))
    }

    /// A note's page, made or kept.
    fn note(&self, one: &NotePage, before: &Built, sink: &impl Sink) -> Result<Made, Fault> {
        let path = note_path(one);
        let about = self.places.all_of(&one.about);
        let own = (&one.title, &one.markdown, about);
        let from = Some(told((self.common, own, self.ids)));
        if let Some(same) = before.same(&path, from)
            && sink.keep(&path)?
        {
            return Ok(same.clone());
        }
        let page = note((&self.templates, &self.pages.speech), &self.places, one)?;
        self.put(&path, &page, sink)?;
        let listed = None;
        Ok(Made { from, listed })
    }

    /// Puts a page into its frame and gives it away.
    fn put(&self, path: &str, page: &Page, sink: &impl Sink) -> Result<(), Fault> {
        let text = frame(&self.templates, self.pages, path, page)?;
        sink.put(path, text.into_bytes())
    }
}

fn note_path(one: &NotePage) -> String {
    format!("notes/{}.html", slug(&one.id))
}

/// The pages beside those of procedures and notes: home, the lists, then the entries of each.
fn subjects<'p>(pages: &'p SitePages, woods: &'p [Wood], sheets: &'p [Sheet]) -> Vec<Subject<'p>> {
    let mut all = vec![Subject::Home];
    all.extend((0..PARTS.len()).map(Subject::Part));
    all.extend((!pages.people.is_empty()).then_some(Subject::People));
    all.extend(pages.cautions.iter().map(Subject::Cautions));
    all.extend(pages.calculators.iter().copied().map(Subject::Calculator));
    all.extend(woods.iter().map(Subject::Wood));
    if let Some(job) = &pages.job {
        all.extend(sheets.iter().map(|one| Subject::Sheet(job, one)));
    }
    all
}

/// The sheets of the job in hand, each whole: a screen has no pages.
fn sheets(pages: &SitePages) -> Result<Vec<Sheet>, Fault> {
    let Some(job) = &pages.job else {
        return Ok(Vec::new());
    };
    sheet::refuse_unfilled(job)?;
    Ok(screen::sheets(job, &pages.speech))
}

/// What the live pages share: their script, the module packed as text, the shop's files. A page that
/// is opened from a folder cannot fetch, but it can have a script.
fn live_scripts(pages: &SitePages) -> [(&'static str, Vec<u8>); 3] {
    let module = BASE64_STANDARD.encode(MODULE);
    let files = json_in_page(&pages.floor.files);
    [
        ("live.js", LIVE.to_owned()),
        (
            "live-module.js",
            format!("window.facesideModule = \"{module}\";\n"),
        ),
        ("live-shop.js", format!("window.facesideShop = {files};\n")),
    ]
    .map(|(name, text)| (name, text.into_bytes()))
}

fn frame(
    templates: &Templates,
    pages: &SitePages,
    own: &str,
    page: &Page,
) -> Result<String, Fault> {
    let mut context = Context::new();
    let folder = own.split_once('/').map(|(folder, _)| folder);
    let root = "../".repeat(own.matches('/').count());
    let parts = PARTS.map(|(name, path)| Part {
        name,
        path,
        current: match folder {
            None if path == own => "page",
            Some(folder) if path.strip_suffix(".html") == Some(folder) => "true",
            _ => "",
        },
    });
    let part = parts.iter().find(|part| part.current == "true");
    let up = part.map_or(&*page.up, |part| part.path);
    let limits = pages.speech.say(&pages.limits.short);
    let is_home = page.title == pages.shop;
    let name = if is_home { &page.over } else { &page.title };
    let window = joined(&[name, &page.mark, &pages.shop], " · ");
    context.insert("root", &root);
    context.insert("shop", &pages.shop);
    context.insert("date", &pages.date);
    context.insert("checked", &pages.checked);
    context.insert("limits", &*limits);
    context.insert("parts", &parts);
    context.insert("up", up);
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
    (over, title): (&str, &str),
    mut blocks: Vec<Block>,
) -> Result<Page, Fault> {
    speech::blocks(&mut blocks, speech);
    let heads = (&*speech.say(over), &*speech.say(title));
    as_it_stands(templates, heads, &blocks)
}

/// A page whose words are ids, or are chosen for the region already.
fn as_it_stands(
    templates: &Templates,
    (over, title): (&str, &str),
    blocks: &[Block],
) -> Result<Page, Fault> {
    Ok(Page {
        over: over.to_owned(),
        title: title.to_owned(),
        mark: String::new(),
        up: String::new(),
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

fn made_of(
    subject: &Subject,
    manual: &Manual,
    listed: &[Listed],
    woods: &[Wood],
) -> Result<Page, Fault> {
    let (pages, templates) = (manual.pages, &manual.templates);
    let spoken = (templates, &pages.speech);
    match subject {
        Subject::Home => {
            let home = lists::home(pages, listed, &PARTS);
            page(spoken, ("Workshop manual", &pages.shop), home)
        }
        Subject::Part(at) => part(*at, manual, listed, woods),
        Subject::People => {
            let heads = (pages.shop.as_str(), "Who may do what");
            as_it_stands(templates, heads, &pages.people)
        }
        Subject::Cautions(one) => {
            let heads = ("Machines and cautions", &*title(&one.machine));
            page(spoken, heads, machine::page(pages, listed, one))
        }
        Subject::Calculator(one) => {
            let mut used = lists::callers(listed, one.name);
            for (words, _, _) in &mut used {
                *words = pages.speech.say(words).into_owned();
            }
            let blocks = pages::calculator(one, used, &pages.floor);
            as_it_stands(templates, ("Calculator", one.name), &blocks)
        }
        Subject::Wood(one) => as_it_stands(templates, ("Wood", one.name), &woods::page(one, "../")),
        Subject::Sheet(job, one) => {
            let overview = lists::overview(job);
            // What stands above a title says where it leads.
            let (up, over) = if subject.path() == overview {
                ("index.html", pages.shop.clone())
            } else {
                (overview.as_str(), pages.speech.say(&job.title).into_owned())
            };
            Ok(Page {
                mark: joined(&[&one.running.job, &one.running.revision], ", "),
                up: up.to_owned(),
                ..as_it_stands(templates, (&over, &one.title), &one.blocks)?
            })
        }
    }
}

/// One of the lists.
fn part(at: usize, manual: &Manual, listed: &[Listed], woods: &[Wood]) -> Result<Page, Fault> {
    let (pages, templates, places) = (manual.pages, &manual.templates, &manual.places);
    let heads = (pages.shop.as_str(), PARTS[at].0);
    let spoken = (templates, &pages.speech);
    let plain = |blocks: &[Block]| as_it_stands(templates, heads, blocks);
    match PARTS[at].1 {
        "procedures.html" => page(spoken, heads, lists::procedures(listed)),
        "cautions.html" => page(spoken, heads, lists::machines(pages)),
        "calculators.html" => plain(&lists::calculators(pages)),
        "woods.html" => plain(&woods::list(woods)),
        "notes.html" => plain(&lists::notes(pages, places)),
        "words.html" => plain(&pages::terms(pages)),
        "about.html" => about(spoken, heads, (pages, places), listed),
        _ => plain(&writing(&pages.sample)),
    }
}

fn about(
    spoken: (&Templates, &Speech),
    heads: (&str, &str),
    (pages, places): (&SitePages, &Places),
    listed: &[Listed],
) -> Result<Page, Fault> {
    let mut made = page(spoken, heads, about::standing(pages, listed))?;
    let cited = [heading("Sources of the cautions"), about::cited(pages)];
    let cited = html::blocks(spoken.0, &cited)?;
    let text = note_html(&pages.about, &pages.speech, &|scheme, name| {
        places.address("", scheme, name)
    })?;
    made.content = format!("<div class=\"note\">{text}</div>{}{cited}", made.content);
    Ok(made)
}

/// Makes the blocks of the page of every procedure by `fill`, page by page; what comes of a page is
/// given to `page`. A bench gives the template engine alone the same to do by this.
///
/// # Errors
/// A procedure that cannot be filled, a drawing that cannot be made; and those of `fill`.
pub fn fill_procedures(
    pages: &SitePages,
    mut fill: impl FnMut(&Context) -> Result<String, Fault>,
    mut page: impl FnMut(String),
) -> Result<(), Faults> {
    let places = Places::of(pages);
    for at in 0..pages.procedures.heads().len() {
        let one = pages.procedures.page(at)?;
        let mut blocks = procedure_blocks(pages, &places, &one);
        speech::blocks(&mut blocks, &pages.speech);
        page(html::blocks_by(&blocks, &mut fill)?);
    }
    Ok(())
}

fn procedure_blocks(pages: &SitePages, places: &Places, one: &ProcedurePage) -> Vec<Block> {
    let id = &one.example.procedure;
    let (first, notes) = (places.all_of(&one.after), places.notes_on(id));
    procedure_page::procedure(one, first, notes, history_of(pages, id), &pages.floor)
}

/// How a procedure was last cut here, as far as that is told.
fn history_of<'p>(pages: &'p SitePages, id: &str) -> &'p [String] {
    pages.history.get(id).map_or(&[], Vec::as_slice)
}

fn procedure(
    templates: &Templates,
    (pages, places): (&SitePages, &Places),
    one: &ProcedurePage,
) -> Result<Page, Fault> {
    let id = &one.example.procedure;
    let blocks = procedure_blocks(pages, places, one);
    let heads = (&*title(&one.family), one.example.title.as_str());
    let mut made = page((templates, &pages.speech), heads, blocks)?;
    made.mark = format!("{id}, revision {}", one.example.revision);
    Ok(made)
}

fn note(spoken: (&Templates, &Speech), places: &Places, one: &NotePage) -> Result<Page, Fault> {
    let about = places.all_of(&one.about);
    let mut blocks = Vec::new();
    if !about.is_empty() {
        blocks.push(heading("Bears on"));
        blocks.push(Block::Links { rows: about });
    }
    let mut made = page(spoken, ("Note", &one.title), blocks)?;
    let text = note_html(&one.markdown, spoken.1, &|scheme, name| {
        places.address("../", scheme, name)
    })
    .map_err(|fault| fault.hint(format!("the link stands in the note `{}`", one.id)))?;
    made.content = format!("<div class=\"note\">{text}</div>{}", made.content);
    Ok(made)
}
