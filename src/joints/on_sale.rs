//! Sizes in which router cutters are sold, for saying what to buy or borrow.
//!
//! Sizes and angles from memory (joinery 2.4 for the angles, marked so there); how long the edges
//! are and how fast a cutter may turn differ from maker to maker, so a cutter made here has edges
//! that nothing is too deep for and a speed that is common, and whoever buys one is told what to
//! look for.

use crate::shop::{Cutter, Shape};
use crate::units::{Angle, Length, Spindle};

/// Diameters of straight cutters, in hundredths of a millimetre: whole millimetres and the usual
/// fractions of an inch.
const STRAIGHT: &[u16] = &[
    318, 400, 476, 500, 600, 635, 800, 953, 1000, 1200, 1270, 1400, 1500, 1588, 1600, 1800, 1905,
    2000, 2200,
];

/// Dovetail cutters: diameter in hundredths of a millimetre, degrees a side.
const DOVETAIL: &[(u16, u16)] = &[
    (635, 8),
    (800, 8),
    (953, 9),
    (1000, 10),
    (1270, 7),
    (1270, 8),
    (1270, 14),
    (1400, 7),
    (1400, 14),
    (1588, 7),
    (1588, 14),
    (1905, 7),
    (1905, 14),
];

/// The cutters of a shape that are usually sold; none for a shape that no calculator wants.
pub fn on_sale(shape: Shape) -> Vec<Cutter> {
    match shape {
        Shape::Straight => STRAIGHT
            .iter()
            .map(|hundredths| cutter(shape, *hundredths, None))
            .collect(),
        Shape::Dovetail => DOVETAIL
            .iter()
            .map(|(hundredths, degrees)| cutter(shape, *hundredths, Some(*degrees)))
            .collect(),
        _ => Vec::new(),
    }
}

fn cutter(shape: Shape, hundredths: u16, degrees: Option<u16>) -> Cutter {
    let marked = Length::nm(i64::from(hundredths) * 10_000);
    let angle = degrees.map_or(String::new(), |degrees| format!(", {degrees} deg a side"));
    Cutter {
        id: String::new(),
        name: format!("{} {}{angle}", super::figure::about(marked), shape.name()),
        shape,
        marked,
        measured: None,
        angle: degrees.map(|degrees| Angle::degrees(f64::from(degrees))),
        cutting_length: Length::MOST,
        shank: Length::ZERO,
        marked_speed: Some(Spindle::rpm(24_000.0)),
        flutes: 2,
    }
}
