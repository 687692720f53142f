//! Figures in large digits for a terminal: five rows of block characters, times a whole number.
//!
//! Drawn on a grid of three by five; a column of a terminal is about half as wide as its row is high,
//! so that twice the width gives upright digits. What has no drawing (the unit) stands beside them on
//! the last row.

use textwrap::core::display_width;

/// Rows of the grid.
pub(super) const ROWS: usize = 5;

/// A size: columns and rows for each square of the grid.
pub(super) type Scale = (usize, usize);

/// Sizes, largest first.
pub(super) const SCALES: [Scale; 4] = [(6, 3), (4, 2), (2, 1), (1, 1)];

/// A figure that can be drawn.
pub(super) struct Figure {
    glyphs: Vec<[&'static str; ROWS]>,
    unit: String,
}

impl Figure {
    /// The figure of a number with its unit; none for anything else.
    pub(super) fn read(shown: &str) -> Option<Self> {
        let end = shown
            .find(|one| glyph(one).is_none())
            .unwrap_or(shown.len());
        let (number, unit) = shown.split_at(end);
        let number = number.trim_end();
        let first = number.chars().next()?;
        let is_number = first.is_ascii_digit() || (first == '-' && number.len() > 1);
        is_number.then(|| Self {
            glyphs: number.chars().filter_map(glyph).collect(),
            unit: unit.trim().to_owned(),
        })
    }

    /// Columns that it takes.
    pub(super) fn width(&self, (across, _): Scale) -> usize {
        let glyphs = self.glyphs.iter().map(|glyph| glyph[0].len() * across);
        let gaps = self.glyphs.len().saturating_sub(1) * across;
        glyphs.sum::<usize>() + gaps + 1 + display_width(&self.unit)
    }

    /// Its rows, filled with `ink`.
    pub(super) fn rows(&self, (across, down): Scale, ink: char) -> Vec<String> {
        let row = |row: usize| -> String {
            let squares = self.glyphs.iter().map(|glyph| glyph[row]);
            let squares = squares.collect::<Vec<_>>().join(" ");
            let inked = squares
                .chars()
                .map(|one| if one == '#' { ink } else { ' ' });
            inked
                .flat_map(|one| std::iter::repeat_n(one, across))
                .collect()
        };
        let mut rows: Vec<String> = (0..ROWS)
            .flat_map(|one| std::iter::repeat_n(row(one), down))
            .collect();
        if let Some(last) = rows.last_mut() {
            last.push(' ');
            last.push_str(&self.unit);
        }
        rows
    }
}

fn glyph(one: char) -> Option<[&'static str; ROWS]> {
    Some(match one {
        '0' => ["###", "# #", "# #", "# #", "###"],
        '1' => [" # ", "## ", " # ", " # ", "###"],
        '2' => ["###", "  #", "###", "#  ", "###"],
        '3' => ["###", "  #", "###", "  #", "###"],
        '4' => ["# #", "# #", "###", "  #", "  #"],
        '5' => ["###", "#  ", "###", "  #", "###"],
        '6' => ["###", "#  ", "###", "# #", "###"],
        '7' => ["###", "  #", "  #", "  #", "  #"],
        '8' => ["###", "# #", "###", "# #", "###"],
        '9' => ["###", "# #", "###", "  #", "###"],
        '.' => [" ", " ", " ", " ", "#"],
        ',' => ["  ", "  ", "  ", " #", "# "],
        '-' => ["  ", "  ", "##", "  ", "  "],
        '/' => ["  #", "  #", " # ", "#  ", "#  "],
        ' ' => [" ", " ", " ", " ", " "],
        _ => return None,
    })
}
