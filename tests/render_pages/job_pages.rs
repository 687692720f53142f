//! The sheets of the job in hand as pages of the site: a screen is not spoken to as paper is, and each
//! page leads to the sheets before and after it.

use faceside::render::{checklist_html, site};
use faceside::search::Speech;
use faceside::shop::Paper;

use super::{fixture, selected};

/// The parts of a page that stand on one medium only, joined.
fn only(page: &str, medium: &str) -> String {
    let open = format!("<div class=\"on-{medium}\">");
    let parts = page.split(&open).skip(1);
    let parts = parts.map(|part| part.split("\n</div>").next().unwrap());
    parts.collect::<Vec<_>>().join(" ")
}

/// Pages of the job in the order of work, by path.
fn pages() -> Vec<(String, String)> {
    let files = site(&fixture::site_pages(&selected())).unwrap();
    let jobs = files
        .into_iter()
        .filter(|(name, _)| name.starts_with("jobs/"));
    jobs.map(|(name, bytes)| (name, String::from_utf8(bytes).unwrap()))
        .collect()
}

#[test]
fn a_screen_has_words_of_its_own_where_paper_speaks_to_a_pen() {
    let pages = pages();
    let lists = pages.iter().filter(|(name, _)| name.contains("/0"));
    let mut seen = 0;
    for (name, page) in lists {
        for words in ["use once", "Circle a number", "ask ____", "complete"] {
            assert!(only(page, "paper").contains(words), "{name}: {words}");
            assert!(!only(page, "screen").contains(words), "{name}: {words}");
        }
        for words in [
            "planned on",
            "This page keeps no marks.",
            "ask before you go on.",
        ] {
            assert!(only(page, "screen").contains(words), "{name}: {words}");
            assert!(!only(page, "paper").contains(words), "{name}: {words}");
        }
        seen += 1;
    }
    assert_eq!(seen, 4);
    let files = checklist_html(&fixture::job(&selected()), Paper::A4, &Speech::default());
    for (name, html) in files.unwrap() {
        let body = html.split("<body").nth(1).unwrap();
        assert!(!body.contains("planned on"), "{name}");
        assert!(!body.contains("on-screen"), "{name}");
    }
}

/// Addresses in the list of neighbours, by what they are to the page.
fn neighbours(page: &str) -> Vec<(String, String)> {
    let list = page.split("<nav class=\"neighbours").nth(1).unwrap();
    let list = list.split("</nav>").next().unwrap();
    let rows = list.split("<li><span>").skip(1).map(|row| {
        let (relation, rest) = row.split_once("</span> <a href=\"").unwrap();
        let (address, _) = rest.split_once('"').unwrap();
        (relation.to_owned(), address.to_owned())
    });
    rows.collect()
}

#[test]
fn each_sheet_leads_to_the_one_before_and_the_one_after() {
    let pages = pages();
    assert!(pages.len() >= 6);
    let (mut before, mut name) = (None, "overview.html".to_owned());
    let mut seen: Vec<String> = Vec::new();
    loop {
        let own = |(path, _): &&(String, String)| path.ends_with(&format!("/{name}"));
        let (_, page) = pages.iter().find(own).unwrap();
        let found = neighbours(page);
        let leads = |relation: &str| {
            let row = found.iter().find(|(one, _)| one == relation);
            row.map(|(_, address)| address.clone())
        };
        assert_eq!(leads("before"), before, "{name}");
        // The second page has the whole job before it.
        let whole = (seen.len() > 1).then(|| "overview.html".to_owned());
        assert_eq!(leads("the whole job"), whole, "{name}");
        assert!(!seen.contains(&name), "{name} comes again");
        seen.push(name.clone());
        before = Some(name.clone());
        let Some(after) = leads("after") else { break };
        name = after;
    }
    assert_eq!(seen.len(), pages.len());
    // The sheets come in the order of their numbers, 01 before 02.
    let numbered = seen
        .iter()
        .filter(|name| name.starts_with(|c: char| c.is_ascii_digit()));
    assert!(numbered.is_sorted());
}
