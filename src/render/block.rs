//! What a page says, before any medium: a list of blocks.
//!
//! Builders (`sheet`, `lesson`, `pages`) make blocks from the model; writers (`html`, `terminal`)
//! turn them into text and know nothing of each other. A step owns its cautions and a writer gets
//! the two only together, so that no medium can print one without the other.
//!
//! Blocks hold plain text: each writer escapes for its own medium. Absent parts are empty texts or
//! lists, never nulls, since a template prints a null as nothing.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::caution::{Caution, SignalWord};
use crate::procedure::{Drawing, Run};
use crate::search::Speech;

/// A run of words; values stand out.
pub type Text = Vec<Span>;

/// A piece of a text.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Span {
    /// What is written.
    pub words: String,
    /// Whether it is a value in a slot: number and unit.
    pub value: bool,
}

/// What one caution says, its words final.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Said {
    /// The hazard.
    pub hazard: String,
    /// What happens if it is not avoided.
    pub harm: String,
    /// How to avoid it.
    pub avoid: String,
}

/// Cautions of one signal word that stand together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Panel {
    /// `DANGER`, `WARNING`, `CAUTION` or `NOTICE`.
    pub word: String,
    /// The same in small letters: how a page names its border.
    pub weight: String,
    /// Whether the alert triangle stands beside it: for injury only.
    pub alert: bool,
    /// Whether these cautions stood in full further up on the sheet and are said in a line here.
    pub brief: bool,
    /// What they say, one or more.
    pub said: Vec<Said>,
}

/// A reading with its limits and a blank to write it into.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Reading {
    /// What is measured.
    pub measure: Text,
    /// With which tool.
    pub tool: String,
    /// Wanted value.
    pub wanted: String,
    /// Lowest good value.
    pub low: String,
    /// Highest good value.
    pub high: String,
    /// Unit of the blank.
    pub unit: String,
    /// What to do below the lowest.
    pub if_low: Text,
    /// What to do above the highest.
    pub if_high: Text,
}

/// A value that a machine is set to, or the cutter in it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Set {
    /// What is set.
    pub label: String,
    /// To which value.
    pub shown: String,
    /// What is to be known of it: rounding, where it comes from.
    pub remark: String,
}

/// A line below an act: a word in bold, and what is said.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Line {
    /// `Otherwise`, `HOLD` and the like.
    pub word: String,
    /// What is said.
    pub text: Text,
    /// Whether somebody signs it, and nobody goes on before.
    pub sign: bool,
}

/// One step with its cautions.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Step {
    /// Number on the sheet, from 1.
    pub number: usize,
    /// The cautions that stand directly before it, gravest first.
    pub cautions: Vec<Panel>,
    /// The one thing to do.
    pub act: Text,
    /// What is said below it, in order.
    pub after: Vec<Line>,
    /// Values of the act again, for the column of numbers.
    pub numbers: Vec<String>,
    /// Key points.
    pub keys: Vec<Text>,
    /// Reason; empty on a checklist, where it would be in the way.
    pub why: Text,
    /// The reading after it: none or one.
    pub readings: Vec<Reading>,
    /// A box for each piece.
    pub pieces: Vec<String>,
    /// Whether a page of paper begins with it.
    pub turn: bool,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Row {
    /// Its cells, as many as the table has heads.
    pub cells: Vec<String>,
    /// Whether it stands out: the planned reading among others.
    pub marked: bool,
}

/// A word of the trade as a page shows it, in the words of the region already.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Entry {
    /// The word.
    pub word: String,
    /// What it means.
    pub means: String,
    /// Other words and the source: name and value.
    pub facts: Vec<(String, String)>,
}

/// A value that can be typed or chosen on a page.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Field {
    /// Its name for the program.
    pub name: String,
    /// What is asked for.
    pub label: String,
    /// What it may be, and what holds when it is left empty.
    pub hint: String,
    /// What it holds at first, as text.
    pub value: String,
    /// All that it may be, each with its words; empty when it is typed.
    pub options: Vec<(String, String)>,
    /// What may be typed besides a quantity, each with its words.
    pub offers: Vec<(String, String)>,
}

/// A part of a page.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "is", rename_all = "kebab-case")]
pub enum Block {
    /// A heading of the second order; the page's title is the first.
    Heading {
        /// Its words.
        text: String,
        /// Its name as a target of links within the page; empty for none.
        id: String,
    },
    /// A paragraph.
    Para {
        /// Its words.
        text: Text,
    },
    /// A list.
    Bullets {
        /// Its entries.
        items: Vec<Text>,
    },
    /// A list with a box to tick before each entry.
    Boxes {
        /// Its entries.
        items: Vec<Text>,
    },
    /// Names with their values, as in a sheet's head.
    Facts {
        /// Name and value; an empty value is a line to write on.
        rows: Vec<(String, String)>,
    },
    /// A table.
    Table {
        /// Heads of its columns.
        head: Vec<String>,
        /// Its rows.
        rows: Vec<Row>,
        /// Which columns hold numbers.
        numbers: Vec<bool>,
    },
    /// A list of links to other pages.
    Links {
        /// Words and address within the same output.
        rows: Vec<(String, String, String)>,
    },
    /// What a long page holds, with links to it.
    Contents {
        /// Words, address within the page, what is to be known of it.
        rows: Vec<(String, String, String)>,
    },
    /// A group of a list, under its heading and beside its small drawing.
    Family {
        /// Its name: `housings`.
        name: String,
        /// Its name as a target of links.
        id: String,
        /// Words, address within the same output, what is to be known of it.
        rows: Vec<(String, String, String)>,
    },
    /// A table whose first cells lead to other pages.
    Index {
        /// Heads of its columns.
        head: Vec<String>,
        /// Address and cells of each row.
        rows: Vec<(String, Vec<String>)>,
    },
    /// Words with what they mean.
    Entries {
        /// Its entries.
        rows: Vec<Entry>,
    },
    /// What a machine is set to.
    Settings {
        /// In the order of setting.
        rows: Vec<Set>,
    },
    /// Cautions for all that follows.
    Standing {
        /// Gravest first.
        cautions: Vec<Panel>,
    },
    /// Steps in order, each with its cautions before it.
    Steps {
        /// The steps.
        steps: Vec<Step>,
    },
    /// Steps as a lesson has them: act, key points and reason side by side, cautions before them.
    Breakdown {
        /// The steps.
        steps: Vec<Step>,
    },
    /// A drawing to scale; each writer draws or describes it.
    Drawing {
        /// Shape and lengths.
        #[serde(skip)]
        drawing: Drawing,
        /// The words that it is said in.
        #[serde(skip)]
        speech: Speech,
        /// How it stands beside the settings that follow; none where it stands by itself.
        beside: Option<Beside>,
    },
    /// Faults of the work.
    Troubles {
        /// What is seen, why it happens, what to do.
        rows: Vec<(Text, Text, Text)>,
    },
    /// What must not be overlooked, in a rule of its own: stop rule, place-keeping, limits.
    Rule {
        /// What it is about.
        name: String,
        /// Its words.
        text: String,
    },
    /// Characters that keep their places: a sketch.
    Sketch {
        /// Lines as they are.
        text: String,
    },
    /// Lines to write on.
    Lines {
        /// What to write.
        label: String,
        /// How many lines.
        count: u8,
    },
    /// Values that a script takes from the reader; without one it is not seen.
    Form {
        /// What can be typed.
        fields: Vec<Field>,
        /// Unit that a bare number is in, and that lengths are shown in: `mm` or `in`.
        units: &'static str,
        /// What the page works out, for the module: a JSON text that no markup can end.
        about: String,
    },
    /// What follows from the values of the page's form.
    Live {
        /// Its name for the script.
        id: String,
        /// What it says; the writer puts it into the template.
        #[serde(skip)]
        blocks: Vec<Self>,
    },
    /// What stands on one medium only.
    Only {
        /// Which.
        medium: Medium,
        /// What stands there; the writer puts it into the template.
        #[serde(skip)]
        blocks: Vec<Self>,
    },
    /// The pages before and after this one, for the screen.
    Neighbours {
        /// Title, address, what it is to this page: `before`.
        rows: Vec<(String, String, String)>,
    },
    /// The last line of a sheet, with blanks for initials, date and time.
    Done {
        /// What is complete.
        what: String,
    },
}

/// What a loose page says of itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Running {
    /// Id of the job.
    pub job: String,
    /// The procedure, or `overview`.
    pub procedure: String,
    /// `revision 3`, or empty.
    pub revision: String,
    /// Day of printing.
    pub date: String,
}

/// One sheet: a file of its own, or a part of the file with all sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Name without suffix: `03-cut-the-housings`.
    pub slug: String,
    /// First line over the title.
    pub over: String,
    /// Its title.
    pub title: String,
    /// What each of its pages says of itself.
    pub running: Running,
    /// What it says, in order.
    pub blocks: Vec<Block>,
}

/// Words alone.
pub fn words(text: impl Into<String>) -> Text {
    vec![Span {
        words: text.into(),
        value: false,
    }]
}

/// A filled text.
pub fn text(runs: &[Run]) -> Text {
    let mut spans = Vec::new();
    for run in runs {
        match run {
            Run::Words(said) => spans.extend(words(said)),
            // Several values may stand on several lines, one value may not.
            Run::Value { shown, .. } => {
                for (at, one) in shown.split(", ").enumerate() {
                    spans.extend((at > 0).then(|| words(", ")).into_iter().flatten());
                    spans.push(Span {
                        words: one.to_owned(),
                        value: true,
                    });
                }
            }
        }
    }
    spans
}

/// What a page is read on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Medium {
    /// It can be written on.
    Paper,
    /// It can lead on.
    Screen,
}

/// A drawing beside settings: its first view alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Beside {
    /// Whether paper has room for its title, and for its letters in words.
    pub keyed: bool,
}

/// A text without its marks.
pub fn flat(text: &[Span]) -> String {
    text.iter().map(|span| span.words.as_str()).collect()
}

/// A drawing with all its views, in words that nothing is put for.
pub fn drawn(drawing: &Drawing) -> Block {
    Block::Drawing {
        drawing: drawing.clone(),
        speech: Speech::default(),
        beside: None,
    }
}

/// A heading.
pub fn heading(text: &str) -> Block {
    section(text, "")
}

/// A heading that links within the page lead to.
pub fn section(text: &str, id: &str) -> Block {
    Block::Heading {
        text: text.to_owned(),
        id: id.to_owned(),
    }
}

impl Panel {
    /// A panel of one caution: its signal word, its hazard, harm and how to avoid it.
    pub fn of(signal: SignalWord, [hazard, harm, avoid]: [&str; 3]) -> Self {
        Self {
            word: signal.printed().to_owned(),
            weight: signal.name().to_owned(),
            alert: signal != SignalWord::Notice,
            brief: false,
            said: vec![Said {
                hazard: hazard.to_owned(),
                harm: harm.to_owned(),
                avoid: avoid.to_owned(),
            }],
        }
    }
}

/// The panels of several cautions in their order; neighbours with one signal word share a panel.
pub fn panels(cautions: &[Caution]) -> Vec<Panel> {
    let mut panels: Vec<Panel> = Vec::new();
    for caution in cautions {
        let says = [caution.hazard(), caution.harm(), caution.avoid()];
        let mut panel = Panel::of(caution.signal(), says);
        match panels.last_mut() {
            Some(last) if last.word == panel.word => last.said.append(&mut panel.said),
            _ => panels.push(panel),
        }
    }
    panels
}

/// The panels of a step: in full where a caution is met for the first time on the sheet, in a
/// line where it stands again. `met` holds the ids of those met so far.
pub fn step_panels(cautions: &[Caution], met: &mut BTreeSet<String>) -> Vec<Panel> {
    let (again, first): (Vec<&Caution>, Vec<&Caution>) = cautions
        .iter()
        .partition(|caution| can_be_brief(caution) && met.contains(caution.id()));
    met.extend(cautions.iter().map(|caution| caution.id().to_owned()));
    let first: Vec<Caution> = first.into_iter().cloned().collect();
    let mut panels = panels(&first);
    let gravest = again.iter().map(|caution| caution.signal()).min();
    panels.extend(gravest.map(|signal| Panel {
        brief: true,
        said: again.iter().map(|caution| in_a_line(caution)).collect(),
        ..Panel::of(signal, [""; 3])
    }));
    panels
}

/// A danger is always said in full; what has no brief form too.
fn can_be_brief(caution: &Caution) -> bool {
    caution.brief().is_some() && caution.signal() != SignalWord::Danger
}

fn in_a_line(caution: &Caution) -> Said {
    Said {
        hazard: String::new(),
        harm: String::new(),
        avoid: caution.brief().unwrap_or_default().to_owned(),
    }
}
