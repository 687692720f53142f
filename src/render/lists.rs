//! The pages that lead to others: home and the lists of procedures, machines, notes, calculators.

use super::block::{Block, section, words};
use super::inert::slug;
use super::listed::Listed;
use super::pages::{Links, SitePages};
use super::places::Places;
use super::site::{PEOPLE, title};
use crate::jobs::Sheets;

/// Families of procedures in the order of a book on joints; others follow by name.
const FAMILIES: [&str; 10] = [
    "housings",
    "sliding dovetails",
    "rebates and tongues",
    "halvings and bridles",
    "mortises and tenons",
    "corners and drawers",
    "edges and dowels",
    "frames",
    "machine work",
    "shop aids",
];

/// The first page: the job in hand, every procedure by its family, the other parts, the limits.
pub(super) fn home(pages: &SitePages, listed: &[Listed], parts: &[(&str, &str)]) -> Vec<Block> {
    let mut blocks = vec![Block::Para {
        text: words(
            "How joints are cut in this shop: the steps, the numbers for a machine, the cautions \
             before each step.",
        ),
    }];
    if let Some(job) = &pages.job {
        blocks.push(section("The job in hand", "job"));
        let sheets = match job.checklists.len() {
            1 => "1 sheet".to_owned(),
            many => format!("{many} sheets"),
        };
        let remark = format!("{sheets} in the order of work, the numbers of {}", job.date);
        blocks.push(Block::Links {
            rows: vec![(job.title.clone(), overview(job), remark)],
        });
    }
    blocks.extend(families(listed, |_| String::new()));
    blocks.push(section("The rest of the manual", "rest"));
    let remark = |path: &str| match path {
        "cautions.html" => "what the shop has of each kind, and what is to be minded there",
        "notes.html" => "woods, faults and their cures, habits of the shop",
        "woods.html" => "how far each moves and how stiff it is, with the sources",
        "words.html" => "the words of the trade on both sides of the Atlantic",
        "calculators.html" => "what each takes, gives, refuses and warns of",
        "about.html" => "where the figures come from, how well each is known, the dates",
        _ => "",
    };
    let row = |(name, path): &(&str, &str)| {
        (
            (*name).to_owned(),
            (*path).to_owned(),
            remark(path).to_owned(),
        )
    };
    let people = (!pages.people.is_empty()).then(|| {
        let remark = "how far everybody is, and until when";
        (
            "Who may do what".to_owned(),
            PEOPLE.to_owned(),
            remark.to_owned(),
        )
    });
    blocks.push(Block::Links {
        rows: parts.iter().skip(1).map(row).chain(people).collect(),
    });
    blocks.push(Block::Rule {
        name: "Limits".to_owned(),
        text: pages.limits.long.clone(),
    });
    blocks
}

/// The folder of a job's sheets within the site's.
pub(super) fn of_job(job: &Sheets) -> String {
    format!("jobs/{}/", slug(&job.job))
}

/// The first page of a job.
pub(super) fn overview(job: &Sheets) -> String {
    format!("{}overview.html", of_job(job))
}

/// Every procedure with what it is for.
pub(super) fn procedures(listed: &[Listed]) -> Vec<Block> {
    families(listed, |one| one.purpose.clone())
}

fn families(listed: &[Listed], remark: impl Fn(&Listed) -> String) -> Vec<Block> {
    let mut names: Vec<&str> = listed.iter().map(|one| &*one.family).collect();
    names.sort_unstable();
    names.dedup();
    let place = |name: &&str| FAMILIES.iter().position(|one| one == name);
    names.sort_by_key(|name| place(name).unwrap_or(FAMILIES.len()));
    let family = |name: &str| {
        let own = listed.iter().filter(|one| one.family == name);
        let rows = own.map(|one| {
            let (words, address) = one.link("");
            (words, address, remark(one))
        });
        Block::Family {
            name: name.to_owned(),
            id: slug(name),
            rows: rows.collect(),
        }
    };
    names.into_iter().map(family).collect()
}

/// Machines with what the shop has of each.
pub(super) fn machines(pages: &SitePages) -> Vec<Block> {
    let row = |kind: &str, rules: usize| {
        let own = pages.machines.iter().filter(|one| one.kind == kind);
        let own = own.filter(|one| !one.name.eq_ignore_ascii_case(&title(kind)));
        let mut remark: Vec<String> = own.map(|one| one.name.clone()).collect();
        remark.push(match rules {
            1 => "1 caution".to_owned(),
            many => format!("{many} cautions"),
        });
        let address = format!("cautions/{}.html", slug(kind));
        (title(kind), address, remark.join(", "))
    };
    let rows = pages.cautions.iter();
    vec![Block::Links {
        rows: rows.map(|one| row(&one.machine, one.rules.len())).collect(),
    }]
}

/// Notes with what they bear on, in the words of the region already.
pub(super) fn notes(pages: &SitePages, places: &Places) -> Vec<Block> {
    let rows = pages.notes.iter().map(|one| {
        let about = one.about.iter().filter_map(|id| places.linked(id, ""));
        let about: Vec<String> = about.map(|(words, _, _)| words).collect();
        let address = format!("notes/{}.html", slug(&one.id));
        let say = |text: &str| pages.speech.say(text).into_owned();
        (say(&one.title), address, say(&about.join("; ")))
    });
    vec![Block::Links {
        rows: rows.collect(),
    }]
}

/// Calculators by family, in the order of their table.
pub(super) fn calculators(pages: &SitePages) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut family = "";
    for one in &pages.calculators {
        if one.family != family {
            family = one.family;
            blocks.push(section(family, &slug(family)));
            blocks.push(Block::Links { rows: Vec::new() });
        }
        let address = format!("calculators/{}.html", slug(one.name));
        if let Some(Block::Links { rows }) = blocks.last_mut() {
            rows.push((one.name.to_owned(), address, one.summary.to_owned()));
        }
    }
    blocks
}

/// Procedures that call a calculator.
pub(super) fn callers(listed: &[Listed], calculator: &str) -> Links {
    let callers = listed.iter().filter(|one| one.calls(calculator));
    callers
        .map(|one| {
            let (words, address) = one.link("../");
            (words, address, String::new())
        })
        .collect()
}
