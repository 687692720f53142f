//! How high a block stands on paper, in millimetres, so that a sheet can be split before it is
//! printed.
//!
//! Reckoned with the measures of the print part of `manual.css` and the widths of the type that
//! the pages bring along. `tests/print_pdf.rs` holds it against what a browser prints.

use super::block::{Beside, Block, Line, Panel, Reading, Set, Span, Step, flat};
use super::figure::{Figure, View, figure};
use super::whole::whole;
use crate::procedure::Drawing;
use crate::shop::Paper;

/// Millimetres of a point.
const PT: f64 = 25.4 / 72.0;
/// Height of a line of what is worked from: 12 pt, and 1.25 of it from line to line.
const LINE: f64 = 12.0 * 1.25 * PT;
/// Height of a line of head and foot, 10 pt.
const SMALL: f64 = 10.0 * 1.25 * PT;
/// Height of a value that stands out, 14 pt.
const BIG: f64 = 14.0 * 1.25 * PT;
/// Columns of a step: the ring with its gap, and the numbers with theirs.
const RING: f64 = 11.0 + 3.0;
const NUMBERS: f64 = 46.0 + 3.0;
/// Widest value of a setting; a list of several goes on below.
const VALUE: f64 = 45.0;
/// Left free on each page, since widths between letters and borders are reckoned roughly.
const SLACK: f64 = 3.0;
/// Rules that stand without a frame.
const UNFRAMED: [&str; 3] = ["Keeping the place", "Worked out from", "Begin when"];
/// Size of the cautions of a whole set-up, in points.
const STANDING: f64 = 10.0;
/// Width of a plan view beside the settings, with its gap.
pub(super) const PLAN: f64 = 92.0 + 4.0;

/// Above the words of a plan view's letters.
const KEY: f64 = 0.5;

/// Widths of the characters from blank to tilde in thousandths of the size: regular and bold.
/// Figures have one width. Read from Atkinson Hyperlegible Next 5.3.0.
const WIDTHS: [[u16; 95]; 2] = [
    [
        280, 286, 301, 651, 592, 919, 731, 160, 299, 299, 485, 606, 210, 362, 210, 387, 632, 632,
        632, 632, 632, 632, 632, 632, 632, 632, 210, 210, 553, 628, 553, 480, 778, 626, 613, 645,
        669, 569, 552, 694, 694, 392, 512, 631, 541, 824, 693, 714, 592, 724, 614, 592, 558, 690,
        593, 856, 623, 575, 607, 317, 387, 344, 552, 372, 243, 525, 566, 485, 564, 538, 314, 558,
        550, 252, 245, 492, 262, 845, 550, 548, 566, 574, 349, 471, 326, 540, 461, 684, 481, 449,
        460, 344, 237, 344, 555,
    ],
    [
        312, 303, 390, 765, 610, 969, 725, 210, 335, 335, 485, 595, 271, 373, 272, 440, 632, 632,
        632, 632, 632, 632, 632, 632, 632, 632, 272, 272, 569, 612, 569, 547, 781, 678, 643, 658,
        688, 597, 566, 718, 701, 424, 561, 663, 552, 858, 717, 746, 629, 756, 650, 610, 607, 686,
        644, 886, 685, 650, 618, 340, 440, 344, 582, 400, 288, 552, 596, 510, 596, 563, 365, 593,
        571, 300, 259, 555, 318, 882, 571, 576, 596, 599, 376, 508, 376, 567, 530, 740, 539, 521,
        505, 381, 254, 381, 537,
    ],
];

/// What a sheet of paper offers between its margins (12, 14, 16 and 16 mm from the top round).
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    /// Width in millimetres.
    pub(super) width: f64,
    /// Height in millimetres.
    pub(super) height: f64,
}

impl Room {
    /// The room on a paper.
    pub(super) fn on(paper: Paper) -> Self {
        let (width, height) = match paper {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        };
        Self {
            width: width - 30.0,
            height: height - 28.0 - SLACK,
        }
    }
}

/// Width of a text in millimetres at a size in points.
fn width(text: &str, size: f64, bold: bool) -> f64 {
    let em = |c: char| match usize::try_from(u32::from(c).wrapping_sub(32)) {
        Ok(at) if at < 95 => f64::from(WIDTHS[usize::from(bold)][at]),
        _ if c == '\u{a0}' => f64::from(WIDTHS[usize::from(bold)][0]),
        // A letter with a mark is as wide as one without; what another type draws may be square.
        _ if u32::from(c) < 0x250 => 700.0,
        _ => 1000.0,
    };
    text.chars().map(em).sum::<f64>() / 1000.0 * size * PT
}

/// Lines that words fill in a measure; a word that is too long is broken.
fn lines(words: &str, size: f64, bold: bool, measure: f64) -> f64 {
    let blank = width(" ", size, bold);
    let (mut lines, mut used) = (1.0, 0.0_f64);
    for word in whole(words).split(' ') {
        let long = width(word, size, bold);
        let wanted = if used > 0.0 {
            used + blank + long
        } else {
            long
        };
        if wanted <= measure {
            used = wanted;
            continue;
        }
        if used > 0.0 {
            lines += 1.0;
        }
        let more = (long / measure).floor();
        lines += more;
        used = long - more * measure;
    }
    lines
}

/// The words of a text, each value in one piece as it is printed.
fn unbroken(text: &[Span]) -> String {
    let pieces = text.iter().map(|span| match span.value {
        true => span.words.replace(' ', "\u{a0}"),
        false => span.words.clone(),
    });
    pieces.collect()
}

fn text_high(text: &[Span], bold: bool, measure: f64) -> f64 {
    lines(&unbroken(text), 12.0, bold, measure) * LINE
}

/// Height of a sheet's head: what stands over its title, the title, a rule.
pub(super) fn head(title: &str, room: Room) -> f64 {
    SMALL + lines(title, 17.0, true, room.width) * 17.0 * 1.15 * PT + 3.4
}

/// Height of blocks that stand one under the other; a plan view has the settings after it beside it.
pub(super) fn blocks(blocks: &[Block], room: Room) -> f64 {
    let mut high = 0.0;
    let mut beside: Option<f64> = None;
    for block in blocks {
        match block {
            Block::Drawing {
                drawing,
                beside: Some(how),
                ..
            } => beside = Some(high + plan(drawing, *how)),
            Block::Settings { rows } if beside.is_some() => {
                high += settings(rows, room.width - PLAN);
            }
            Block::Heading { .. } if beside.is_some() => high += block_high(block, room),
            _ => {
                high = beside.take().unwrap_or(0.0).max(high);
                high += block_high(block, room);
            }
        }
    }
    beside.unwrap_or(0.0).max(high)
}

/// Height of a plan view, its first, with its frame, and where it is keyed its title and the words of
/// its letters; one that cannot be drawn is told of when it is printed.
fn plan(drawing: &Drawing, how: Beside) -> f64 {
    let Ok(Figure { views, key }) = figure(drawing) else {
        return 0.0;
    };
    let ratio = |view: &View| {
        let (_, rest) = view.svg.split_once("viewBox=\"0 0 ")?;
        let mut sizes = rest
            .split(['"', ' '])
            .map_while(|size| size.parse::<f64>().ok());
        Some(1.0 / sizes.next()? * sizes.next()?)
    };
    let Some(first) = views.first() else {
        return 0.0;
    };
    let told = key
        .iter()
        .filter(|(letter, _, _)| first.letters.contains(letter));
    let told = told.map(|(letter, words, _)| {
        lines(&format!("{letter} {words}"), 10.0, true, PLAN - 4.0) * SMALL
    });
    let told = match how.keyed {
        true => SMALL + KEY + told.sum::<f64>(),
        false => 0.0,
    };
    (PLAN - 7.0) * ratio(first).unwrap_or_default() + 8.1 + told
}

fn block_high(block: &Block, room: Room) -> f64 {
    match block {
        Block::Heading { text, .. } => {
            2.5 + lines(text, 13.0, true, room.width) * 13.0 * 1.25 * PT + 0.7
        }
        Block::Bullets { items } => {
            let item = |item: &Vec<Span>| text_high(item, false, room.width - 6.0) + 1.1;
            items.iter().map(item).sum()
        }
        Block::Boxes { items } => {
            let measure = (room.width - 8.0) / 2.0 - 7.4;
            two_columns(
                items
                    .iter()
                    .map(|item| text_high(item, false, measure) + 1.8),
            )
        }
        Block::Facts { rows } => facts(rows, room.width),
        Block::Settings { rows } => settings(rows, room.width),
        Block::Standing { cautions } => {
            2.0 + cautions
                .iter()
                .map(|one| panel(one, STANDING, 2, room.width) + 1.0)
                .sum::<f64>()
        }
        // In the margin of every page.
        Block::Rule { name, .. } if name == "Limits" => 0.0,
        Block::Rule { name, text } if UNFRAMED.contains(&name.as_str()) => {
            let words = format!("{name}. {text}");
            1.0 + lines(&words, 10.0, false, room.width) * SMALL
        }
        Block::Rule { name, text } => {
            let words = format!("{name}. {text}");
            2.0 + 2.2 + lines(&words, 10.0, false, room.width - 5.0) * SMALL
        }
        Block::Lines { label, count } => {
            2.0 + lines(label, 12.0, false, room.width) * LINE + f64::from(*count) * 8.2
        }
        Block::Done { what } => {
            let words = format!("{what}. Initials ______ date __________ time ______");
            2.0 + 0.9 + 0.8 + lines(&words, 12.0, true, room.width - 8.0) * 7.5
        }
        // These stand on sheets that are not split; steps are reckoned one by one.
        _ => 0.0,
    }
}

fn facts(rows: &[(String, String)], measure: f64) -> f64 {
    let (mut used, mut count) = (0.0, 1.0);
    for (name, value) in rows {
        let long = width(name, 10.0, false) + width(&format!(" {value}"), 10.0, true) + 4.0;
        if used + long > measure && used > 0.0 {
            (used, count) = (0.0, count + 1.0);
        }
        used += long;
    }
    count * SMALL
}

fn settings(rows: &[Set], measure: f64) -> f64 {
    let row = |set: &Set| {
        let value = width(&set.shown, 14.0, true).min(VALUE);
        let words = format!("{} {}", set.label, set.remark);
        let label = lines(&words, 12.0, false, measure - value - 4.4 - 6.0) * LINE;
        label.max(lines(&set.shown, 14.0, true, VALUE) * BIG) + 1.8
    };
    rows.iter().map(row).sum()
}

/// The words of one caution.
fn said(panel: &Panel) -> impl Iterator<Item = String> {
    panel.said.iter().map(|one| {
        let said = format!("{} {} {}", one.hazard, one.harm, one.avoid);
        said.trim().to_owned()
    })
}

fn border(panel: &Panel) -> f64 {
    match panel.weight.as_str() {
        "danger" => 1.4,
        "warning" => 0.8,
        _ => 0.4,
    }
}

/// Width of the signal word beside a single caution, and its triangle.
fn word(panel: &Panel, size: f64) -> f64 {
    let triangle = if panel.alert { 5.6 + 1.5 } else { 0.0 };
    width(&panel.word, size, true) + triangle + 4.0
}

/// A panel: its words beside the signal word, or below it when there are several; in `columns`.
fn panel(panel: &Panel, size: f64, columns: usize, measure: f64) -> f64 {
    let line = size * 1.25 * PT;
    let edge = border(panel);
    let inner = measure - 0.3 - 2.0 * edge;
    let beside = inner - word(panel, size) - edge - 4.0;
    if panel.brief {
        let all: Vec<String> = said(panel).collect();
        return 2.0 * edge + 0.8 + lines(&all.join("  "), size, false, beside) * line;
    }
    if let [_] = panel.said.as_slice() {
        let words = said(panel).next().unwrap_or_default();
        return 2.0 * edge + 1.0 + lines(&words, size, true, beside) * line;
    }
    let column = match columns {
        2 => (inner - 4.0) / 2.0 - 4.0,
        _ => inner - 4.0,
    };
    let each = said(panel).map(|words| lines(&words, size, true, column) * line + 1.2);
    let high = match columns {
        2 => two_columns(each),
        _ => each.sum(),
    };
    3.0 * edge + line.max(5.0) + 0.8 + high
}

/// A brief caution within its step.
fn brief_high(one: &Panel, measure: f64) -> f64 {
    let all: Vec<String> = said(one).collect();
    lines(
        &all.join("  "),
        12.0,
        false,
        measure - word(one, 12.0) + 2.0,
    ) * LINE
        - 0.3
}

/// The least height of two columns that take these in their order.
fn two_columns(heights: impl Iterator<Item = f64>) -> f64 {
    let heights: Vec<f64> = heights.collect();
    let total: f64 = heights.iter().sum();
    let mut left = 0.0;
    let mut least = total;
    for high in heights {
        left += high;
        least = least.min(left.max(total - left));
    }
    least
}

/// A step with the cautions before it.
pub(super) fn step(step: &Step, room: Room) -> f64 {
    let (brief, full): (Vec<&Panel>, Vec<&Panel>) = step.cautions.iter().partition(|one| one.brief);
    let full = full
        .into_iter()
        .map(|one| panel(one, 12.0, 1, room.width) + 1.0);
    let brief = brief
        .into_iter()
        .map(|one| brief_high(one, room.width - RING));
    let has_numbers = !step.numbers.is_empty() || !step.readings.is_empty();
    let measure = room.width - RING - if has_numbers { NUMBERS } else { 0.0 };
    let said = step.after.iter().map(|line| after(line, measure));
    let keys = step.keys.iter();
    let keys: f64 = keys.map(|key| text_high(key, false, measure - 4.0)).sum();
    let words = 1.3
        + text_high(&step.act, true, measure)
        + said.sum::<f64>()
        + if step.keys.is_empty() {
            0.0
        } else {
            keys + 0.5
        }
        + step
            .readings
            .iter()
            .map(|one| reading(one, measure))
            .sum::<f64>()
        + pieces(&step.pieces, measure);
    let numbers = step.numbers.len() as f64 * BIG + step.readings.len() as f64 * (3.0 * BIG + 8.0);
    3.2 + full.sum::<f64>() + (brief.sum::<f64>() + words.max(numbers)).max(9.0)
}

fn after(line: &Line, measure: f64) -> f64 {
    let words = format!("{}: {}", line.word, unbroken(&line.text));
    if line.sign {
        return 1.0 + 2.6 + lines(&words, 12.0, false, measure - 7.0) * LINE + 8.0;
    }
    0.5 + lines(&words, 12.0, false, measure) * LINE
}

fn reading(one: &Reading, measure: f64) -> f64 {
    let with = format!("Measure: {}, with {}.", flat(&one.measure), one.tool);
    let low = format!(
        "below\u{a0}{}\u{a0}m {}",
        one.low.replace(' ', "\u{a0}"),
        unbroken(&one.if_low)
    );
    let high = format!(
        "above\u{a0}{}\u{a0}m {}",
        one.high.replace(' ', "\u{a0}"),
        unbroken(&one.if_high)
    );
    let all = [with, low, high];
    let each = all
        .iter()
        .map(|words| 0.5 + lines(words, 12.0, false, measure) * LINE);
    each.sum()
}

fn pieces(pieces: &[String], measure: f64) -> f64 {
    if pieces.is_empty() {
        return 0.0;
    }
    let (mut used, mut rows) = (0.0, 1.0);
    for piece in pieces {
        let long = 4.4 + 2.0 + width(piece, 12.0, false);
        if used > 0.0 && used + 5.0 + long > measure {
            (used, rows) = (0.0, rows + 1.0);
        }
        used += if used > 0.0 { 5.0 + long } else { long };
    }
    0.5 + rows * 6.5
}
