//! One question of a lesson as a screen of a terminal: what is shown, the question, the keys.
//!
//! A pure function of what is shown and of the size. Two lines of head, the page, a rule that says
//! whether more is below, the keys that work now. What does not fit the height is broken into pages
//! between blocks, a caution only where it alone is higher than a page; the question stands on the
//! last page, so that nobody comes to it past a caution. Figures are drawn in large digits where they
//! fit a page, and leave half of it to the words that they belong to; else they stand in bold lines.

use textwrap::core::display_width;

use super::digits::{Figure, ROWS, SCALES, Scale};
use super::inert::plain;
use crate::caution::SignalWord;
use crate::training::{Place, Point, Prompt, Say, Wants, wrap};

/// Least columns and rows of a screen.
pub const LEAST_SCREEN: (usize, usize) = (30, 12);

/// Columns between two large figures.
const BETWEEN: usize = 3;

/// Least columns of the bar of progress.
const BAR: usize = 8;

/// What a screen shows.
#[derive(Debug, Clone)]
pub struct LessonView<'v> {
    /// Title of the procedure.
    pub title: &'v str,
    /// Where the lesson is; none before it begins.
    pub place: Option<&'v Place>,
    /// What was said to the last answer, when it led here.
    pub before: &'v [Say],
    /// What the question is about.
    pub show: &'v [Say],
    /// What was said to an answer that did not lead on.
    pub after: &'v [Say],
    /// The question.
    pub prompt: &'v Prompt,
    /// What is typed so far, and the place in it, in characters.
    pub typed: (&'v str, usize),
    /// The page, from 0; beyond the last one it is the last.
    pub page: usize,
}

/// What a terminal can show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Colours and bold letters.
    pub color: bool,
    /// Block characters.
    pub blocks: bool,
}

/// A screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LessonScreen {
    /// As many lines as the terminal has rows, none wider than it.
    pub lines: Vec<String>,
    /// The page that is shown, from 0.
    pub page: usize,
    /// How many there are.
    pub pages: usize,
    /// Column and row of the cursor, from 0; none where nothing is typed.
    pub cursor: Option<(usize, usize)>,
}

impl LessonScreen {
    /// Whether the question is on it.
    pub fn is_last(&self) -> bool {
        self.page + 1 == self.pages
    }
}

/// How a piece of a line looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Paint {
    Plain,
    Bold,
    Bar,
    Signal(SignalWord),
}

impl Paint {
    /// The numbers of ECMA-48's SGR; the ground of a signal word in the colours of ANSI Z535 (from
    /// memory): red, orange, yellow, blue.
    fn sgr(self) -> Option<&'static str> {
        Some(match self {
            Self::Plain => return None,
            Self::Bold => "1",
            Self::Bar => "7",
            Self::Signal(SignalWord::Danger) => "1;37;41",
            Self::Signal(SignalWord::Warning) => "1;30;48;5;208",
            Self::Signal(SignalWord::Caution) => "1;30;43",
            Self::Signal(SignalWord::Notice) => "1;37;44",
        })
    }
}

/// A line in pieces.
type Row = Vec<(Paint, String)>;

/// Lines that stay together.
struct Block {
    rows: Vec<Row>,
    /// Whether a blank line parts it from what is above.
    is_apart: bool,
    /// Whether it is nothing without the next one.
    is_head: bool,
}

/// The screen of so many columns and rows; none when these are too few (see [`LEAST_SCREEN`]).
pub fn lesson_screen(
    view: &LessonView,
    (width, height): (usize, usize),
    look: Look,
) -> Option<LessonScreen> {
    if width < LEAST_SCREEN.0 || height < LEAST_SCREEN.1 {
        return None;
    }
    let head = head(view, width);
    // The page is as high whatever is typed, and on whichever page.
    let most = [(true, true), (false, true), (false, false)];
    let most = most.map(|(more, empty)| foot(view, width, (more, true), empty).len());
    let most = most.into_iter().max().unwrap_or(1);
    let room = height.saturating_sub(head.len() + 1 + most).max(1);
    let (blocks, column) = blocks(view, (width, room), look);
    let mut pages = paged(&blocks, room, true);
    let close = paged(&blocks, room, false);
    if close.len() < pages.len() {
        pages = close;
    }
    let (count, page) = (pages.len(), view.page.min(pages.len() - 1));
    let is_last = page + 1 == count;
    let body = pages.swap_remove(page);
    let cursor = column.filter(|_| is_last);
    let cursor = cursor.map(|column| (column, head.len() + body.len() - 1));
    let mut rows = head;
    rows.extend(body);
    rows.resize_with(height - 1 - most, Vec::new);
    rows.push(rule(width, (page, count)));
    rows.extend(foot(
        view,
        width,
        (!is_last, page > 0),
        view.typed.0.is_empty(),
    ));
    rows.resize_with(height, Vec::new);
    Some(LessonScreen {
        lines: rows.iter().map(|row| painted(row, look.color)).collect(),
        page,
        pages: count,
        cursor,
    })
}

fn painted(row: &Row, color: bool) -> String {
    let pieces = row.iter().map(|(paint, text)| match paint.sgr() {
        Some(sgr) if color => format!("\u{1b}[{sgr}m{text}\u{1b}[0m"),
        _ => text.clone(),
    });
    pieces.collect()
}

/// A text that stays in its line.
fn one_line(text: &str) -> String {
    plain(text).replace('\n', " ")
}

/// The beginning of a text, at most so many columns wide.
fn cut(text: &str, width: usize) -> String {
    if display_width(text) <= width {
        return text.to_owned();
    }
    let mut kept = String::new();
    for one in text.chars() {
        kept.push(one);
        if display_width(&kept) + 3 > width {
            kept.pop();
            break;
        }
    }
    kept + "..."
}

fn head(view: &LessonView, width: usize) -> Vec<Row> {
    let title = cut(&one_line(view.title), width);
    let blank = " ".repeat(width.saturating_sub(display_width(&title)));
    let mut rows = vec![vec![(Paint::Bar, title + &blank)]];
    if let Some(place) = view.place {
        let step = place.step.map_or(place.stage.to_owned(), |step| {
            format!("step {step} of {}", place.steps)
        });
        let words = format!("unit {} of {}, {step}", place.unit, place.units);
        let room = width.saturating_sub(display_width(&words) + 4);
        let bar = match place.gone * room / place.of.max(1) {
            gone if room >= BAR => format!("  [{}{}]", "#".repeat(gone), ".".repeat(room - gone)),
            _ => String::new(),
        };
        rows.push(vec![(Paint::Plain, cut(&words, width) + &bar)]);
    }
    rows
}

fn rule(width: usize, (page, pages): (usize, usize)) -> Row {
    let words = match pages - page {
        1 if pages == 1 => String::new(),
        1 => format!("--- page {pages} of {pages} "),
        _ => format!("--- page {} of {pages}, MORE BELOW ", page + 1),
    };
    let rest = width.saturating_sub(words.len());
    let paint = if page + 1 < pages {
        Paint::Bar
    } else {
        Paint::Plain
    };
    vec![(paint, words), (Paint::Plain, "-".repeat(rest))]
}

/// The keys that work now, as many in a row as fit.
fn foot(
    view: &LessonView,
    width: usize,
    (has_more, has_less): (bool, bool),
    is_empty: bool,
) -> Vec<Row> {
    let wants = view.prompt.wants;
    let mut keys = match wants {
        _ if has_more => vec![("Space", "more below")],
        Wants::Next => vec![("Enter", "next")],
        Wants::YesNo => vec![("y", "yes"), ("n", "no")],
        Wants::Choice => vec![("1-9", "the answer")],
        Wants::All => vec![("y", "all"), ("numbers, Enter", "not these")],
        Wants::Words if is_empty => vec![("Enter", "spoken")],
        Wants::Reading if is_empty => vec![("Enter", "not measured")],
        _ if is_empty => vec![("Enter", "none")],
        _ => vec![("Enter", "take it")],
    };
    if has_less {
        keys.push(("Up", "above"));
    }
    if wants.is_free() {
        keys.extend([("Esc", "back"), ("+", "note"), ("Ctrl-C", "pause")]);
    } else {
        keys.extend([("b", "back"), ("+", "note"), ("q", "pause")]);
    }
    keys.push(("?", "help"));
    let mut rows: Vec<Row> = vec![Vec::new()];
    let mut gone = 0;
    for (key, does) in keys {
        let wide = key.len() + 1 + does.len();
        if gone > 0 && gone + 2 + wide > width {
            rows.push(Vec::new());
            gone = 0;
        }
        let row = rows.len() - 1;
        if gone > 0 {
            rows[row].push((Paint::Plain, "  ".to_owned()));
            gone += 2;
        }
        rows[row].push((Paint::Bold, key.to_owned()));
        rows[row].push((Paint::Plain, format!(" {does}")));
        gone += wide;
    }
    rows
}

/// All blocks, the question last; and the column of the cursor in the last row.
fn blocks(view: &LessonView, size: (usize, usize), look: Look) -> (Vec<Block>, Option<usize>) {
    let mut blocks = Vec::new();
    // The head line tells the step already.
    let step = view
        .place
        .and_then(|place| Some((place.step?, place.steps)));
    let step = step.map(|(step, steps)| Say::Head(format!("Step {step} of {steps}")));
    let show = match (view.show, step) {
        ([first, rest @ ..], Some(step)) if *first == step => rest,
        (show, _) => show,
    };
    for list in [view.before, show, view.after] {
        shown(list, size, look, &mut blocks);
        if let Some(block) = blocks.last_mut() {
            block.is_head = false;
        }
    }
    let width = size.0;
    let asked = wrap(&plain(&view.prompt.text), width);
    let asked = asked.into_iter().map(|line| vec![(Paint::Bold, line)]);
    let mut rows: Vec<Row> = asked.collect();
    let mut column = None;
    if view.prompt.wants.is_typed() {
        let (text, at) = window(view.typed, width.saturating_sub(3));
        let choices = wrap(&format!("[{}]", view.prompt.wants.choices()), width);
        rows.extend(choices.into_iter().map(|line| vec![(Paint::Plain, line)]));
        rows.push(vec![(Paint::Plain, format!("> {text}"))]);
        column = Some(at + 2);
    }
    blocks.push(Block {
        rows,
        is_apart: true,
        is_head: false,
    });
    (blocks, column)
}

/// The part of a typed line around the cursor that fits, and the column of the cursor in it.
fn window((typed, at): (&str, usize), width: usize) -> (String, usize) {
    let typed = one_line(typed);
    let before: String = typed.chars().take(at).collect();
    let mut from = 0;
    let wide =
        |from: usize| -> usize { display_width(&before.chars().skip(from).collect::<String>()) };
    while wide(from) > width {
        from += 1;
    }
    let mut part = String::new();
    for one in typed.chars().skip(from) {
        part.push(one);
        if display_width(&part) > width {
            part.pop();
            break;
        }
    }
    (part, wide(from))
}

/// What is shown as blocks; figures that follow each other stand side by side.
fn shown(list: &[Say], size: (usize, usize), look: Look, blocks: &mut Vec<Block>) {
    let mut rest = list;
    let mut last = None;
    while let Some(say) = rest.first() {
        let figures = rest.iter().map_while(|say| match say {
            Say::Figure { label, shown, told } => Some((label.as_str(), shown.as_str(), *told)),
            _ => None,
        });
        let figures: Vec<_> = figures.collect();
        let large = large(&figures, size, look.blocks);
        let kind = std::mem::discriminant(say);
        let is_apart = last != Some(kind) || matches!(say, Say::Head(_) | Say::Text(_));
        last = Some(kind);
        let count = figures.len().max(1);
        let rows = rest[..count].iter().flat_map(|say| lines(say, size.0));
        blocks.push(Block {
            rows: large.unwrap_or_else(|| rows.collect()),
            is_apart,
            is_head: matches!(say, Say::Head(_)),
        });
        rest = &rest[count..];
    }
}

/// The figures in the largest digits that fit; none where none do.
fn large(
    figures: &[(&str, &str, bool)],
    (width, height): (usize, usize),
    blocks: bool,
) -> Option<Vec<Row>> {
    let drawn = figures.iter();
    let drawn = drawn.map(|(_, shown, _)| Figure::read(&one_line(shown)));
    let drawn: Vec<Figure> = drawn.collect::<Option<_>>()?;
    let ink = if blocks { '\u{2588}' } else { '#' };
    let is_told = figures.iter().any(|(_, _, told)| *told);
    let most = if is_told { height / 2 } else { height };
    SCALES.into_iter().find_map(|scale| {
        let widest = drawn.iter().map(|one| one.width(scale)).max()?;
        let columns = ((width + BETWEEN) / (widest + BETWEEN)).min(figures.len());
        if columns == 0 {
            return None;
        }
        let share = (width + BETWEEN) / columns - BETWEEN;
        let mut rows: Vec<Row> = Vec::new();
        for (labels, drawn) in figures.chunks(columns).zip(drawn.chunks(columns)) {
            rows.extend((!rows.is_empty()).then(Vec::new));
            rows.extend(beside(labels, drawn, (share, scale), ink));
        }
        (rows.len() <= most).then_some(rows)
    })
}

/// Figures side by side, each under its label.
fn beside(
    labels: &[(&str, &str, bool)],
    drawn: &[Figure],
    (share, scale): (usize, Scale),
    ink: char,
) -> Vec<Row> {
    let labels: Vec<_> = labels
        .iter()
        .map(|(label, ..)| wrap(&plain(label), share))
        .collect();
    let over = labels.iter().map(Vec::len).max().unwrap_or(0);
    let cells = labels.iter().zip(drawn).map(|(label, figure)| {
        let blank = std::iter::repeat_n(String::new(), over - label.len());
        let cell = blank.chain(label.iter().cloned());
        cell.chain(figure.rows(scale, ink)).collect::<Vec<_>>()
    });
    let cells: Vec<Vec<String>> = cells.collect();
    let rows = over + ROWS * scale.1;
    let row = |row: usize| {
        let mut line = String::new();
        for (at, cell) in cells.iter().enumerate() {
            let gone = display_width(&line);
            line.push_str(&" ".repeat((at * (share + BETWEEN)).saturating_sub(gone)));
            line.push_str(&cell[row]);
        }
        vec![(Paint::Bold, line.trim_end().to_owned())]
    };
    (0..rows).map(row).collect()
}

/// A block in lines of that width.
fn lines(say: &Say, width: usize) -> Vec<Row> {
    let (mut mark, text) = say.marked();
    let paint = match say {
        Say::Head(_) | Say::Act(_) | Say::Figure { .. } => Paint::Bold,
        _ => Paint::Plain,
    };
    if matches!(say, Say::Head(_)) {
        mark.clear();
    }
    let signal = signal(say);
    let blank = " ".repeat(mark.len());
    let wrapped = wrap(&plain(&text), width.saturating_sub(mark.len()));
    let rows = wrapped.into_iter().enumerate().map(|(at, line)| {
        let mark = if at == 0 { &mark } else { &blank };
        let word = signal.filter(|_| at == 0).map(SignalWord::printed);
        match (signal, word.and_then(|word| line.strip_prefix(word))) {
            (Some(signal), Some(rest)) => vec![
                (Paint::Plain, mark.clone()),
                (Paint::Signal(signal), signal.printed().to_owned()),
                (Paint::Plain, rest.to_owned()),
            ],
            _ => vec![(paint, format!("{mark}{line}"))],
        }
    });
    rows.collect()
}

fn signal(say: &Say) -> Option<SignalWord> {
    match say {
        Say::Point(Point::Caution(caution)) => Some(caution.signal()),
        Say::Numbered(_, say) => signal(say),
        _ => None,
    }
}

/// The blocks in pages of so many rows: at least one page, none empty. Blank lines part blocks that
/// are apart when there is room for them (`is_wide`).
fn paged(blocks: &[Block], height: usize, is_wide: bool) -> Vec<Vec<Row>> {
    let mut pages = Vec::new();
    let mut page: Vec<Row> = Vec::new();
    for (at, block) in blocks.iter().enumerate() {
        let blank = usize::from(is_wide && block.is_apart && !page.is_empty());
        let own = block.rows.len();
        let next = blocks.get(at + 1).filter(|_| block.is_head);
        let next = next.map_or(0, |next| next.rows.len() + 1);
        let with = if own + next <= height { next } else { 0 };
        if !page.is_empty() && page.len() + blank + own + with > height {
            pages.push(std::mem::take(&mut page));
        } else if blank > 0 {
            page.push(Vec::new());
        }
        for row in &block.rows {
            if page.len() == height {
                pages.push(std::mem::take(&mut page));
            }
            page.push(row.clone());
        }
    }
    pages.push(page);
    pages
}
