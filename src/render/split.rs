//! Where a sheet that is longer than a page is split: only at a pause, into as few pages as can be.
//!
//! A run of steps between two pauses that is longer than a page stays together and goes on to a
//! second one; nothing is set smaller to make it fit.

use std::cmp::Ordering;
use std::ops::Range;

/// Heights in millimetres of what a part holds beside its steps.
#[derive(Debug, Clone, Copy)]
pub(super) struct Beside {
    /// On a first part without steps: head, settings, cautions, completion line.
    pub(super) alone: f64,
    /// On a first part with steps.
    pub(super) first: f64,
    /// On each later part.
    pub(super) later: f64,
    /// On the last part besides.
    pub(super) last: f64,
}

/// What a way to split costs: pages that begin without a pause, pages, how uneven the parts are.
type Cost = (u32, u32, f64);

/// Splits steps of these heights into parts on pages of a height; `pauses` says for each step
/// whether a part may end before it. What is read and set before the first step may fill a part of
/// its own, which holds no step.
pub(super) fn split(
    heights: &[f64],
    pauses: &[bool],
    beside: Beside,
    page: f64,
) -> Vec<Range<usize>> {
    let none = (0, 0, 0.0);
    let together = cheapest(heights, pauses, beside, page, none);
    let apart = Beside {
        first: beside.later,
        ..beside
    };
    let apart = cheapest(heights, pauses, apart, page, add(none, beside.alone / page));
    if compare(&apart.0, &together.0) == Ordering::Less {
        return std::iter::once(0..0).chain(apart.1).collect();
    }
    together.1
}

/// Which steps begin a page after the first where a part is longer than one: as even as can be, so
/// that no page holds a line or two. `before` and `after` are the heights of what else it holds.
pub(super) fn turns(heights: &[f64], before: f64, after: f64, page: f64) -> Vec<usize> {
    let beside = Beside {
        alone: before,
        first: before,
        later: 0.0,
        last: after,
    };
    let pauses = vec![true; heights.len()];
    let (_, pages) = cheapest(heights, &pauses, beside, page, (0, 0, 0.0));
    pages.iter().skip(1).map(|page| page.start).collect()
}

/// The cheapest parts, and what they cost on top of `so_far`.
fn cheapest(
    heights: &[f64],
    pauses: &[bool],
    beside: Beside,
    page: f64,
    so_far: Cost,
) -> (Cost, Vec<Range<usize>>) {
    let count = heights.len();
    // The cheapest way to the steps before each place, and where its last part begins.
    let mut best: Vec<Option<(Cost, usize)>> = vec![None; count + 1];
    best[0] = Some((so_far, 0));
    for end in 1..=count {
        if end < count && !pauses[end] {
            continue;
        }
        for start in 0..end {
            let Some((before, _)) = best[start] else {
                continue;
            };
            let mut high: f64 = heights[start..end].iter().sum();
            high += if start == 0 {
                beside.first
            } else {
                beside.later
            };
            high += if end == count { beside.last } else { 0.0 };
            let cost = add(before, high / page);
            if best[end].is_none_or(|(known, _)| compare(&cost, &known) == Ordering::Less) {
                best[end] = Some((cost, start));
            }
        }
    }
    let cost = best[count].map_or(so_far, |(cost, _)| cost);
    let mut parts = Vec::new();
    let mut end = count;
    while end > 0 {
        let start = best[end].map_or(0, |(_, start)| start);
        parts.push(start..end);
        end = start;
    }
    parts.reverse();
    (cost, parts)
}

/// Another part, `full` pages high.
fn add((over, pages, uneven): Cost, full: f64) -> Cost {
    let needed = full.ceil().max(1.0);
    let more = needed as u32;
    (over + more - 1, pages + more, uneven + full * full)
}

fn compare(one: &Cost, other: &Cost) -> Ordering {
    let whole = (one.0, one.1).cmp(&(other.0, other.1));
    whole.then(one.2.total_cmp(&other.2))
}

#[cfg(test)]
#[allow(
    clippy::single_range_in_vec_init,
    reason = "one part is a list of one range"
)]
mod tests {
    use super::*;

    const BESIDE: Beside = Beside {
        alone: 40.0,
        first: 40.0,
        later: 20.0,
        last: 10.0,
    };

    #[test]
    fn what_fits_a_page_is_not_split() {
        // 40 + 3 x 10 + 10 = 80 of 100 mm.
        assert_eq!(split(&[10.0; 3], &[true; 3], BESIDE, 100.0), [0..3]);
    }

    #[test]
    fn the_parts_are_even_and_end_at_pauses() {
        // 40 + 8 x 10 + 10 is 130; in two parts by 20 more: 40 + 10 a, 20 + 10 b + 10, a + b = 8;
        // even at a = 3.5, and the pauses are before the fourth and the sixth step.
        let pauses = [true, false, false, true, false, true, false, false];
        assert_eq!(split(&[10.0; 8], &pauses, BESIDE, 100.0), [0..3, 3..8]);
    }

    #[test]
    fn without_a_pause_it_goes_on_to_a_second_page() {
        let pauses = [true, false, false];
        assert_eq!(split(&[50.0; 3], &pauses, BESIDE, 100.0), [0..3]);
    }

    #[test]
    fn what_is_set_first_may_fill_a_part_of_its_own() {
        // With 90 mm before it no step fits the first part; 20 + 6 x 10 + 10 is 90 on the second.
        let beside = Beside {
            alone: 90.0,
            first: 90.0,
            ..BESIDE
        };
        let pauses = [true, false, false, false, false, false];
        assert_eq!(split(&[10.0; 6], &pauses, beside, 100.0), [0..0, 0..6]);
    }

    #[test]
    fn the_pages_of_a_long_part_are_even() {
        // 20 + 5 x 30 + 10 is 180: 20 + 60 and 90 + 10 differ least.
        assert_eq!(turns(&[30.0; 5], 20.0, 10.0, 100.0), [2]);
        assert!(turns(&[30.0; 2], 20.0, 10.0, 100.0).is_empty());
    }

    #[test]
    fn nothing_to_do_is_no_part() {
        assert!(split(&[], &[], BESIDE, 100.0).is_empty());
    }
}
