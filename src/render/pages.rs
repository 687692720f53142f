//! What the pages of the site say: procedures, cautions, words, calculators, as blocks.
//!
//! The caller gathers [`SitePages`] from the shop; [`super::site()`] lays them out as files. A
//! procedure page shows its set-ups filled with the procedure's worked example, with the same
//! blocks as a printed checklist, reasons included.

use super::block::{Block, Panel, Row, heading, text, words};
use super::{set_up, worked};
use crate::caution::{Limits, SignalWord, Stands};
use crate::joints::{Absent, Calculator};
use crate::procedure::{FilledSetUp, plain};
use crate::search::Speech;

/// Everything that the site is made of.
#[derive(Debug, Clone)]
pub struct SitePages {
    /// Name of the shop.
    pub shop: String,
    /// Day of building, `YYYY-MM-DD`.
    pub date: String,
    /// Day on which the figures' sources were last checked.
    pub checked: String,
    /// What a sheet is and is not.
    pub limits: Limits,
    /// Procedures, in the order that they are listed.
    pub procedures: Vec<ProcedurePage>,
    /// Ids of procedures without a page, since the shop lacks a machine for them.
    pub left_out: Vec<String>,
    /// Cautions by machine.
    pub cautions: Vec<CautionPage>,
    /// Notes.
    pub notes: Vec<NotePage>,
    /// Words of the trade.
    pub terms: Vec<TermEntry>,
    /// Words that mean different things on the two sides: word, British, American.
    pub clashes: Vec<(String, String, String)>,
    /// Calculators.
    pub calculators: Vec<&'static Calculator>,
    /// Where the figures come from, as Markdown.
    pub about: String,
    /// A procedure file that shows how one is written.
    pub sample: String,
    /// The schema of a procedure file.
    pub schema: String,
    /// The words of the shop's region.
    pub speech: Speech,
}

/// A procedure with its worked example.
#[derive(Debug, Clone)]
pub struct ProcedurePage {
    /// Group that it is listed under: `housings`.
    pub family: String,
    /// Other names.
    pub also_called: Vec<String>,
    /// When to use it.
    pub use_when: String,
    /// What it is not for.
    pub not_for: Vec<String>,
    /// Ids of procedures that an apprentice learns first.
    pub after: Vec<String>,
    /// Where its content comes from.
    pub sources: Vec<String>,
    /// The procedure, filled with its example values.
    pub example: crate::procedure::Filled,
}

/// The cautions of one machine.
#[derive(Debug, Clone)]
pub struct CautionPage {
    /// Kind of machine: `router-table`; names the page.
    pub machine: String,
    /// Its rules.
    pub rules: Vec<CautionText>,
}

/// One caution as a rule.
#[derive(Debug, Clone)]
pub struct CautionText {
    /// Its id.
    pub id: String,
    /// Signal word.
    pub signal: SignalWord,
    /// Where it stands.
    pub stands: Stands,
    /// Operations that it holds for: `every`, or their names.
    pub operations: Vec<String>,
    /// Condition as written; empty when it holds always.
    pub when: String,
    /// Hazard, harm, how to avoid it.
    pub says: [String; 3],
    /// Sources as printed, with their status.
    pub sources: Vec<String>,
}

/// A note.
#[derive(Debug, Clone)]
pub struct NotePage {
    /// Its id; names the page.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Procedures and calculators that it bears on.
    pub about: Vec<String>,
    /// Its text.
    pub markdown: String,
}

/// A word of the trade.
#[derive(Debug, Clone)]
pub struct TermEntry {
    /// The word.
    pub term: String,
    /// Others for the same.
    pub also: Vec<String>,
    /// The American word; empty when it is the same.
    pub american: String,
    /// Whether an American shop reads that word in place of the term.
    pub shown: bool,
    /// What it means.
    pub means: String,
    /// Where that comes from.
    pub source: String,
}

/// A procedure's page; `learn_first` holds titles and addresses of what comes before it.
pub(super) fn procedure(page: &ProcedurePage, learn_first: Vec<(String, String)>) -> Vec<Block> {
    let example = &page.example;
    let mut blocks = vec![Block::Para {
        text: words(&example.purpose),
    }];
    blocks.push(facts(&[
        ("also called", page.also_called.join(", ")),
        ("use it when", page.use_when.clone()),
        ("not for", page.not_for.join(" ")),
        ("done when", example.done_when.clone()),
        ("revision", example.revision.to_string()),
        ("reviewed", example.reviewed.clone()),
    ]));
    if !learn_first.is_empty() {
        blocks.push(heading("Learn first"));
        let rows = learn_first.into_iter();
        blocks.push(Block::Links {
            rows: rows
                .map(|(title, address)| (title, address, String::new()))
                .collect(),
        });
    }
    if let Some(drawing) = &example.drawing {
        blocks.push(heading("The joint, to scale"));
        blocks.push(Block::Drawing {
            drawing: drawing.clone(),
            speech: Speech::default(),
        });
    }
    blocks.push(heading("Worked example"));
    blocks.push(set_up::values(&example.values, false));
    if !example.sizes.is_empty() {
        blocks.push(heading("Finished sizes, joints allowed for"));
        let rows = example.sizes.iter();
        let rows = rows.map(|(what, size)| vec![what.clone(), size.clone()]);
        blocks.push(table(&["what", "size"], rows.collect()));
    }
    blocks.extend(bullets("Mind", &example.warnings));
    blocks.extend(bullets("Order of the cuts", &example.notes));
    for (what, items) in &example.ready {
        blocks.push(heading(&format!("Get ready: {what}")));
        blocks.push(Block::Bullets {
            items: items.iter().map(|item| text(item)).collect(),
        });
    }
    let set_ups = example.set_ups.iter().enumerate();
    set_ups.for_each(|(at, one)| set_up_part(&mut blocks, at + 1, one));
    if let Some(troubles) = set_up::troubles(&example.troubles) {
        blocks.push(heading("If it goes wrong"));
        blocks.push(troubles);
    }
    let close = example.close.iter().flat_map(|(_, items)| items);
    let close: Vec<String> = close.map(|item| plain(item)).collect();
    blocks.extend(bullets("Before you leave the machine", &close));
    blocks.extend(bullets("Sources", &page.sources));
    blocks
}

fn set_up_part(blocks: &mut Vec<Block>, number: usize, one: &FilledSetUp) {
    blocks.push(heading(&format!("{number}. {}", one.title)));
    let machine = one
        .machine
        .as_ref()
        .map_or("at the bench", |(_, name)| name);
    blocks.push(facts(&[
        ("where", machine.to_owned()),
        ("operation", one.operation.replace('-', " ")),
        ("steps", one.steps.len().to_string()),
    ]));
    blocks.extend(set_up::standing(one));
    blocks.extend(set_up::holder(one));
    blocks.extend(set_up::settings(one));
    blocks.extend(one.plan.iter().map(|plan| Block::Drawing {
        drawing: plan.clone(),
        speech: Speech::default(),
    }));
    blocks.extend(one.table.iter().map(set_up::other_readings));
    blocks.push(set_up::steps(one, &[], true));
}

/// The page of a machine's cautions.
pub(super) fn cautions(page: &CautionPage) -> Vec<Block> {
    let mut blocks = vec![Block::Para {
        text: words(
            "That no caution stands here for a cut never means that the cut is safe. A sheet \
             prints each caution before what it guards.",
        ),
    }];
    for rule in &page.rules {
        let says = rule.says.each_ref().map(String::as_str);
        blocks.push(Block::Standing {
            cautions: vec![Panel::of(rule.signal, says)],
        });
        blocks.push(facts(&[
            ("id", rule.id.clone()),
            ("stands", place(rule.stands).to_owned()),
            ("for", rule.operations.join(", ")),
            ("when", rule.when.clone()),
            ("source", rule.sources.join("; ")),
        ]));
    }
    blocks
}

fn place(stands: Stands) -> &'static str {
    match stands {
        Stands::Sheet => "at the head of the sheet",
        Stands::Cut => "before each cut",
        Stands::Adjust => "before each change of the cutter or near it",
        Stands::Glue => "before each step with glue or finish",
        Stands::Hand => "before each step with edge tools",
    }
}

/// The page of words; in an American shop the words that it reads come first.
pub(super) fn terms(pages: &SitePages) -> Vec<Block> {
    let speech = &pages.speech;
    let rows = pages.terms.iter().map(|entry| {
        let (mut word, mut other) = (&entry.term, &entry.american);
        if speech.changes() && entry.shown {
            std::mem::swap(&mut word, &mut other);
        }
        vec![
            word.clone(),
            speech.say(&entry.means).into_owned(),
            entry.also.join(", "),
            other.clone(),
            entry.source.clone(),
        ]
    });
    let other = if speech.changes() {
        "elsewhere"
    } else {
        "American"
    };
    let head = ["word", "means", "also", other, "source"];
    let mut blocks = vec![table(&head, rows.collect())];
    if !pages.clashes.is_empty() {
        blocks.push(heading("One word, two things"));
        let rows = pages.clashes.iter();
        let rows = rows
            .map(|(word, british, american)| vec![word.clone(), british.clone(), american.clone()]);
        blocks.push(table(&["word", "British", "American"], rows.collect()));
    }
    blocks
}

/// A calculator's page.
pub(super) fn calculator(one: &Calculator) -> Vec<Block> {
    let inputs = one.inputs.iter().map(|input| {
        let absent = match input.absent {
            Absent::Required => "must be given".to_owned(),
            Absent::Usual(usual) => format!("usual: {usual}"),
            Absent::Derived(how) => how.to_owned(),
        };
        vec![
            input.name.to_owned(),
            input.letter.to_owned(),
            input.meaning.to_owned(),
            input.range_words(),
            absent,
        ]
    });
    let results = one.results.iter().map(|output| {
        vec![
            output.name.to_owned(),
            output.letter.to_owned(),
            output.meaning.to_owned(),
            output.role.words().to_owned(),
        ]
    });
    let in_head = ["input", "letter", "what it is", "range", "when not given"];
    let out_head = ["result", "letter", "what it is", "as set"];
    let mut blocks = vec![
        Block::Para {
            text: words(one.summary),
        },
        Block::Sketch {
            text: one.sketch.to_owned(),
        },
        heading("What it takes"),
        table(&in_head, inputs.collect()),
    ];
    let sets: Vec<_> = one.one_of.iter().map(|set| set.join(" and ")).collect();
    blocks.extend(bullets("Give one of", &sets));
    for input in one.inputs.iter().filter(|input| input.has_many_options()) {
        blocks.push(heading(&format!("Words for {}", input.name)));
        blocks.push(Block::Para {
            text: words(input.options().join(", ")),
        });
    }
    blocks.push(heading("What it gives"));
    blocks.push(table(&out_head, results.collect()));
    let owned = |texts: &[&str]| texts.iter().map(|text| (*text).to_owned()).collect();
    let (refuses, warns): (Vec<_>, Vec<_>) = (owned(one.refuses), owned(one.warns));
    blocks.extend(bullets("What it refuses", &refuses));
    blocks.extend(bullets("What it warns of", &warns));
    blocks.push(heading("Example"));
    blocks.push(Block::Sketch {
        text: worked::typed(one),
    });
    blocks.push(heading("Source"));
    blocks.push(Block::Para {
        text: words(one.source),
    });
    blocks
}

pub(super) fn table(head: &[&str], rows: Vec<Vec<String>>) -> Block {
    Block::Table {
        head: head.iter().map(|cell| (*cell).to_owned()).collect(),
        rows: rows
            .into_iter()
            .map(|cells| Row {
                cells,
                marked: false,
            })
            .collect(),
        numbers: vec![false; head.len()],
    }
}

/// Names with values, those that say nothing left out.
fn facts(rows: &[(&str, String)]) -> Block {
    let said = rows.iter().filter(|(_, value)| !value.is_empty());
    Block::Facts {
        rows: said
            .map(|(name, value)| ((*name).to_owned(), value.clone()))
            .collect(),
    }
}

/// A heading and its list; nothing when the list is empty.
pub(super) fn bullets(title: &str, items: &[String]) -> Vec<Block> {
    if items.is_empty() {
        return Vec::new();
    }
    let items = items.iter().map(words).collect();
    vec![heading(title), Block::Bullets { items }]
}
