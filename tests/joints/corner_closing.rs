//! Comb joints, dovetails, mitres, splines and keys put together: both parts are drawn again from
//! the results, as saw and cutter leave them, and must close.
//!
//! Independent of the program: the comb's boards are moved over its jig cut by cut, dovetails are
//! intervals at eleven heights, the mitred ring is walked side by side. Lengths in whole nanometres
//! where they can be, else 3 of them for what the rounding of each result may add.

use std::collections::BTreeMap;

use faceside::joints::{self, Answer};
use faceside::units::{Angle, Length, Value};
use proptest::prelude::*;

use crate::{calculator, count, length, lengths};

fn worked(name: &str, given: &[(&str, Value)]) -> Option<Answer> {
    let given: BTreeMap<_, _> = given
        .iter()
        .map(|(name, value)| ((*name).to_owned(), value.clone()))
        .collect();
    match joints::work_out(calculator(name), &given) {
        Ok(answer) => Some(answer),
        Err(joints::Stopped::Refused(_)) => None,
        Err(fault) => panic!("{name}: {fault:?}"),
    }
}

fn size(nm: i64) -> Value {
    Value::Length(Length::nm(nm))
}

fn word(word: &str) -> Value {
    Value::Choice(word.to_owned())
}

fn nm(answer: &Answer, name: &str) -> i64 {
    length(answer, name).to_nm()
}

fn marks(answer: &Answer, name: &str) -> Vec<f64> {
    let marks = lengths(answer, name);
    marks.iter().map(|mark| mark.to_nm() as f64).collect()
}

fn slope(degrees: f64) -> f64 {
    let (sine, cosine) = degrees.to_radians().sin_cos();
    sine / cosine
}

/// From and to, in nm from the edge of the board.
type Span = (i64, i64);

/// The slots of a board whose edge starts that far beyond the pin's near side: the pin lies at 0 to
/// `pin`, the cutter after the gap; each slot is then moved over the pin.
fn slots(edge: i64, pin: i64, gap: i64, width: i64) -> Vec<Span> {
    let cutter = pin + gap;
    let mut slots = vec![];
    let mut edge = edge;
    while cutter - edge < width {
        let slot = (cutter - edge, cutter - edge + pin);
        slots.push(slot);
        edge = -slot.0;
    }
    slots
}

/// The wood between the slots.
fn fingers(slots: &[Span], width: i64) -> Vec<Span> {
    let begins = std::iter::once(0).chain(slots.iter().map(|slot| slot.1));
    let ends = slots.iter().map(|slot| slot.0).chain([width]);
    let spans = begins.zip(ends);
    spans.filter(|(begin, end)| begin < end).collect()
}

/// Boards A and B: A's edge against the pin; B's against A's, whose first finger lies in the gap.
fn boards(pin: i64, gap_a: i64, gap_b: i64, width: i64) -> [(Vec<Span>, Vec<Span>); 2] {
    [
        slots(pin, pin, gap_a, width),
        slots(pin + gap_b, pin, gap_b, width),
    ]
    .map(|slots| {
        let fingers = fingers(&slots, width);
        (slots, fingers)
    })
}

proptest! {
    // Joinery 3.8: all slots are filled but for the clearance, all of the width is used, and no
    // more fingers fit.
    #[test]
    fn fingers_fill_the_slots(
        width in 60_000_000..600_000_000_i64, pin in 3_000_000..15_000_000_i64,
        clearance in 0..500_000_i64, even in any::<bool>(),
    ) {
        let given = [("width", size(width)), ("pin", size(pin)), ("stock", size(12_000_000)),
            ("clearance", size(clearance)), ("count", word(if even { "even" } else { "odd" }))];
        let answer = worked("comb-joint", &given).expect("room for four");
        let (finger, trim_to) = (nm(&answer, "finger"), nm(&answer, "trim_to"));
        let [(slots_a, fingers_a), (slots_b, fingers_b)] = boards(pin, finger, finger, trim_to);
        let all = count(&answer, "fingers");
        prop_assert_eq!((fingers_a.len() + fingers_b.len()) as i64, all);
        prop_assert_eq!(all % 2 == 0, even);
        for (slots, other) in [(&slots_a, &fingers_b), (&slots_b, &fingers_a)] {
            for slot in slots.iter().filter(|slot| slot.1 <= trim_to) {
                let filled = other.iter().any(|(begin, end)| {
                    *begin >= slot.0 && *end <= slot.1 && end - begin == pin - clearance
                });
                prop_assert!(filled, "{slot:?} of {other:?}");
            }
        }
        let both_ends = [fingers_a[0].0, fingers_a[fingers_a.len() - 1].1];
        prop_assert_eq!(both_ends[0], 0);
        let ends_in_wood = if even { fingers_b[fingers_b.len() - 1].1 } else { both_ends[1] };
        prop_assert_eq!(ends_in_wood, trim_to);
        prop_assert!(trim_to <= width && width < nm(&answer, "next_width"));
        for (result, fingers) in [("fill_pin", all), ("next_pin", all + 2)] {
            let one = nm(&answer, result);
            let filled = (fingers + 1) / 2 * (one - clearance) + fingers / 2 * one;
            prop_assert!((filled - width).abs() <= fingers, "{result}");
        }
    }

    // Joinery 3.8: two settings; the last pair of neighbours overlaps by the drift, here less than a
    // finger.
    #[test]
    fn two_settings_drift_apart(
        width in 60_000_000..600_000_000_i64, pin in 3_000_000..15_000_000_i64,
        error in 0..25_000_i64, even in any::<bool>(),
    ) {
        let given = [("width", size(width)), ("pin", size(pin)), ("stock", size(12_000_000)),
            ("step_error", size(error)), ("count", word(if even { "even" } else { "odd" }))];
        let answer = worked("comb-joint", &given).expect("room for four");
        let finger = nm(&answer, "finger");
        let [(_, fingers_a), (_, fingers_b)] =
            boards(pin, finger, finger + error, nm(&answer, "trim_to"));
        let overlaps = fingers_b.iter().zip(&fingers_a[1..]).map(|(b, a)| b.1 - a.0);
        prop_assert_eq!(overlaps.max(), Some(nm(&answer, "worst_drift")));
    }

    // Joinery 3.9: n v + (n - 1) u + 2 q = W at both lines, by the marks as by the widths; pins
    // drawn on the pin board fill the sockets at every height.
    #[test]
    fn pins_fill_the_sockets(
        width in 60_000_000..600_000_000_i64, thickness in 6_000_000..30_000_000_i64,
        tails in 1..12_i64, ratio in 0.5..4.0_f64, degrees in 4.0..15.0_f64,
        lap in 0..5_000_000_i64,
    ) {
        let given = [("width", size(width)), ("thickness", size(thickness)), ("lap", size(lap)),
            ("tails", Value::Count(tails)), ("ratio", Value::Number(ratio)),
            ("slope", Value::Angle(Angle::degrees(degrees))), ("base_line", word("even"))];
        let answer = worked("dovetails", &given);
        let (long, wide, n) = ((thickness - lap) as f64, width as f64, tails as f64);
        let at_end = wide / (n * (1.0 + ratio)) - 2.0 * long * slope(degrees);
        // Usual: kerf 1.6 mm, half socket 1.5 mm.
        prop_assume!((at_end - 3e6).abs() > 3.0);
        prop_assert_eq!(answer.is_some(), at_end > 3e6);
        let Some(answer) = answer else { return Ok(()) };
        prop_assert_eq!(nm(&answer, "tail_length"), thickness - lap);
        let (base, end) = (marks(&answer, "layout"), marks(&answer, "layout_end"));
        let lines = [
            (&base, "tail_narrow", "socket_wide", "half_socket_wide"),
            (&end, "tail_wide", "socket_narrow", "half_socket_narrow"),
        ];
        for (marks, tail, socket, half) in lines {
            let [tail, socket, half] = [tail, socket, half].map(|name| nm(&answer, name) as f64);
            let sum = n * tail + (n - 1.0) * socket + 2.0 * half;
            prop_assert!((sum - wide).abs() <= n + 2.0, "{sum}");
            prop_assert_eq!(marks.len() as i64, 2 * tails);
            let edges = [&[0.0][..], marks, &[wide]].concat();
            for (at, pair) in edges.windows(2).enumerate() {
                let wanted = match at {
                    at if at == 0 || at == marks.len() => half,
                    at if at % 2 == 1 => tail,
                    _ => socket,
                };
                prop_assert!((pair[1] - pair[0] - wanted).abs() <= 3.0, "{at}");
            }
        }
        let pin_at_base = nm(&answer, "socket_wide") as f64;
        for tenth in 0..=10 {
            let part = f64::from(tenth) / 10.0;
            let pin = pin_at_base - 2.0 * part * long * slope(degrees);
            let flank = |mark: usize| base[mark] + part * (end[mark] - base[mark]);
            for at in 1..tails {
                let middle = wide * at as f64 / n;
                let mark = 2 * at as usize;
                prop_assert!((middle - pin / 2.0 - flank(mark - 1)).abs() <= 3.0);
                prop_assert!((middle + pin / 2.0 - flank(mark)).abs() <= 3.0);
            }
            prop_assert!((pin / 2.0 - flank(0)).abs() <= 3.0);
        }
    }

    // Joinery 3.10: the ring is walked along its outer sides; the mitre's faces lead to the inner
    // corners.
    #[test]
    fn a_mitred_ring_closes(
        sides in 3..24_i64, stock in 3_000_000..60_000_000_i64,
        outside in 300_000_000..2_000_000_000_i64, error in 0.01..0.5_f64,
    ) {
        let given = [("sides", Value::Count(sides)), ("stock", size(stock)), ("length", size(outside)),
            ("angle_error", Value::Angle(Angle::degrees(error)))];
        let Some(answer) = worked("mitre", &given) else { return Ok(()) };
        let angle = |name| match answer.worked.results.get(name) {
            Some(Value::Angle(angle)) => angle.to_degrees(),
            other => panic!("{other:?}"),
        };
        let (mitre, saw) = (angle("mitre_angle"), angle("saw_angle"));
        prop_assert!((mitre + saw - 90.0).abs() < 1e-9);
        let direction = |degrees: f64| { let (y, x) = degrees.to_radians().sin_cos(); [x, y] };
        let walk = |turn: f64| (0..sides).fold([0.0, 0.0], |at: [f64; 2], side| {
            let [x, y] = direction(turn * side as f64);
            [at[0] + x * outside as f64, at[1] + y * outside as f64]
        });
        let [x, y] = walk(2.0 * mitre);
        prop_assert!((x * x + y * y).sqrt() <= 10.0, "{x} {y}");
        let [x, y] = walk(2.0 * (mitre + error));
        prop_assert!(((x * x + y * y).sqrt() - nm(&answer, "miss") as f64).abs() <= 10.0);
        // From both ends of a side along the faces: as deep as the stock, the inner side apart.
        let face = nm(&answer, "face_length") as f64;
        let [inwards, along] = [direction(saw)[1] * face, direction(saw)[0] * face];
        prop_assert!((inwards - stock as f64).abs() <= 3.0);
        let inside = outside as f64 - 2.0 * along;
        prop_assert!((inside - nm(&answer, "inner_length") as f64).abs() <= 3.0);
        // A wedge of twice or of all cuts' errors, as long as the face.
        for (result, cuts) in [("open_each", 2), ("open_last", 2 * sides)] {
            let wedge = slope(error * cuts as f64) * face;
            prop_assert!((wedge - nm(&answer, result) as f64).abs() <= 3.0, "{result}");
        }
    }

    // Joinery 3.10: the deepest groove's outer corner stays the wall away from the outer face, the
    // inner wall inside the wood; the spline has its play in both grooves.
    #[test]
    fn a_spline_stays_in_the_wood(
        sides in 3..12_i64, stock in 10_000_000..50_000_000_i64, spline in 1_000_000..8_000_000_i64,
        centre in 1_000_000..40_000_000_i64, wall in 1_000_000..10_000_000_i64,
        clearance in -200_000..400_000_i64, play in 0..2_000_000_i64,
    ) {
        let given = [("sides", Value::Count(sides)), ("stock", size(stock)), ("spline", size(spline)),
            ("centre", size(centre)), ("wall", size(wall)), ("clearance", size(clearance)),
            ("play", size(play))];
        let Some(answer) = worked("splined-mitre", &given) else { return Ok(()) };
        let (most, width) = (nm(&answer, "groove_most"), nm(&answer, "groove_width"));
        prop_assert_eq!(width - spline, clearance);
        // Inside corner at nothing, the inside face along x; the mitre's face rises at the saw's
        // angle, the groove runs square to it, back over the board.
        let (rise, run) = (180.0 / sides as f64).to_radians().sin_cos();
        let height = |along: f64, deep: f64| along * run + deep * rise;
        let half = width as f64 / 2.0;
        let outer_corner = height(centre as f64 + half, most as f64);
        prop_assert!((stock as f64 - outer_corner - wall as f64).abs() <= 3.0);
        prop_assert!(height(centre as f64 - half, 0.0) > 0.0);
        prop_assume!((500_000..=100_000_000).contains(&most) && play < 2 * most);
        let cut = |groove| worked("splined-mitre", &[&given[..], &[("groove", size(groove))]].concat());
        let deepest = cut(most).expect("as deep as is allowed");
        prop_assert_eq!(nm(&deepest, "spline_width") + play, 2 * most);
        prop_assert!(most == 100_000_000 || cut(most + 1).is_none());
    }

    // Joinery 3.10: the outside corner at nothing, the bisector along x, faces at 45 degrees.
    #[test]
    fn a_key_fills_its_kerf(stock in 5_000_000..60_000_000_i64, depth in 1_000_000..90_000_000_i64) {
        let answer = worked("mitre-key", &[("stock", size(stock)), ("depth", size(depth))]);
        let diagonal = (2.0 * (stock as f64) * (stock as f64)).sqrt();
        prop_assume!((diagonal - depth as f64).abs() > 3.0);
        prop_assert_eq!(answer.is_some(), (depth as f64) < diagonal);
        let Some(answer) = answer else { return Ok(()) };
        let [leg, base, left] = ["leg", "base", "left"].map(|name| nm(&answer, name) as f64);
        let half = base / 2.0;
        let from_corner = (leg * leg - half * half).sqrt();
        prop_assert!((from_corner - depth as f64).abs() <= 5.0);
        prop_assert!((half - from_corner).abs() <= 5.0, "faces square to each other");
        prop_assert!((depth as f64 + left - diagonal).abs() <= 3.0);
    }
}
