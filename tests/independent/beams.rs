//! Sag of a shelf by virtual work, integrated by `quadrature`.
//!
//! With M and V from the load, m and v from a load of one where the sag is asked, the sag is the
//! integral of M m / (E I) + V v / (G A'). I is the integral of y^2 over the section, 1/A' that of
//! (Q / (I b))^2, where Q is the first moment of what lies beyond y: both integrated here too. A
//! beam held at both ends is the free one with the end moment that keeps its slope at nothing: the
//! mean of the free moment over the span; m may be that of the free beam (reduction theorem).
//!
//! Taken over from the program's own statement: E for bending alone is 1.1 times the table's
//! (footnote of the Handbook's tables), G a sixteenth of it (Table 5-1), and the larger of both ways.

use proptest::prelude::*;
use quadrature::integrate;

use faceside::units::{Amount, Measure, Value};
use uom::si::f64::{Force, Length, Pressure};
use uom::si::force::{kilogram_force, newton};
use uom::si::length::{meter, millimeter};
use uom::si::pressure::{gigapascal, pascal};

use crate::{Ask, mm, within};

/// The integral, to a part in 10^9 of the largest value times the length.
fn integral(of: impl Fn(f64) -> f64, to: f64) -> f64 {
    let largest = (0..=8).map(|part| of(to * f64::from(part) / 8.0).abs());
    let largest = largest.fold(f64::MIN_POSITIVE, f64::max);
    integrate(|x| of(x) / largest, 0.0, to, to * 1e-11).integral * largest
}

/// Bending and shear of a section of wood.
struct Section {
    stiffness: f64,
    shear: f64,
}

impl Section {
    /// Sizes in metres, moduli in pascals.
    fn new(width: f64, depth: f64, modulus: f64, shear_modulus: f64) -> Self {
        let second_moment = 2.0 * integral(|y| width * y * y, depth / 2.0);
        let beyond = |y: f64| integral(|u| width * (y + u), depth / 2.0 - y);
        let stress = |y: f64| beyond(y) / (second_moment * width);
        let over_area = 2.0 * integral(|y| stress(y) * stress(y) * width, depth / 2.0);
        Self {
            stiffness: modulus * second_moment,
            shear: shear_modulus / over_area,
        }
    }
}

/// Moment and shear of the load, each as a function of the place, from one end or from the middle's
/// left to the middle.
fn sag(section: &Section, span: f64, load: f64, ends: &str, placed: &str) -> f64 {
    let spread = placed == "spread";
    let each = load / span;
    if ends == "cantilever" {
        // From the free end: the load of one stands there.
        let moment = |x: f64| if spread { each * x * x / 2.0 } else { load * x };
        let shear = |x: f64| if spread { each * x } else { load };
        let bends = integral(|x| moment(x) * x, span) / section.stiffness;
        return bends + integral(shear, span) / section.shear;
    }
    let free = |x: f64| {
        if spread {
            each * x * (span - x) / 2.0
        } else {
            load * x / 2.0
        }
    };
    let shear = |x: f64| {
        if spread {
            each * (span / 2.0 - x)
        } else {
            load / 2.0
        }
    };
    let half = span / 2.0;
    let held = if ends == "clamped" {
        integral(free, half) / half
    } else {
        0.0
    };
    let bends = 2.0 * integral(|x| (free(x) - held) * x / 2.0, half) / section.stiffness;
    bends + 2.0 * integral(|x| shear(x) / 2.0, half) / section.shear
}

/// The larger of bending by the table's E alone and of 1.1 E with shear, in mm.
fn larger(sizes: [Length; 3], load: Force, modulus: Pressure, how: [&str; 2]) -> f64 {
    let [span, width, depth] = sizes.map(|size| size.get::<meter>());
    let (load, modulus) = (load.get::<newton>(), modulus.get::<pascal>());
    let by_table = Section::new(width, depth, modulus, f64::INFINITY);
    let by_parts = Section::new(width, depth, modulus * 1.1, modulus * 1.1 / 16.0);
    let each = [by_table, by_parts].map(|section| sag(&section, span, load, how[0], how[1]));
    Length::new::<meter>(each[0].max(each[1])).get::<millimeter>()
}

fn amount(measure: Measure, number: f64, unit: &str) -> Value {
    Value::Amount(Amount::of(measure, number, unit).unwrap())
}

// By hand: 900 x 250 x 18 mm, 20 kg, 10 GPa, free ends: 1.53229 mm (5 W L^3 / (384 E I)); so that the
// integrals are held against a figure of their own.
#[test]
fn the_integral_of_the_example() {
    let size = Length::new::<millimeter>;
    let sizes = [size(900.0), size(250.0), size(18.0)];
    let load = Force::new::<kilogram_force>(20.0);
    let is = larger(
        sizes,
        load,
        Pressure::new::<gigapascal>(10.0),
        ["simple", "spread"],
    );
    within(is, 1.53229, 1e-5);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn a_shelf_sags_as_virtual_work_says(
        span in 200..2_000_i64, width in 50..500_i64, depth in 12..80_i64,
        kilograms in 1.0..120.0_f64, modulus in 4.0..18.0_f64,
        ends in 0..3_usize, placed in any::<bool>(), long_term in 1.0..3.0_f64,
        most in 1.2..4.0_f64,
    ) {
        let how = [["simple", "clamped", "cantilever"][ends], if placed { "spread" } else { "point" }];
        let size = |mm: i64| Length::new::<millimeter>(mm as f64);
        let sizes = [size(span), size(width), size(depth)];
        let load = Force::new::<kilogram_force>(kilograms);
        let pressure = Pressure::new::<gigapascal>(modulus);
        let wanted = larger(sizes, load, pressure, how);
        let ask = Ask::new("shelf", &[
            ("span", span * 1_000_000), ("width", width * 1_000_000), ("thickness", depth * 1_000_000),
        ])
        .with("load", amount(Measure::Load, kilograms, "kg"))
        .with("modulus", amount(Measure::Stress, modulus, "GPa"))
        .with("long_term", Value::Number(long_term))
        .word("ends", how[0])
        .word("placed", how[1]);
        let Some(answer) = ask.maybe() else {
            prop_assert!(wanted * long_term > span as f64 / 10.0 - 1e-3);
            return Ok(());
        };
        within(mm(&answer, "sag"), wanted, wanted * 1e-6 + 1e-6);
        within(mm(&answer, "sag_long_term"), wanted * long_term, wanted * 3e-6 + 3e-6);

        // The longest span for a limit sags by that limit: a spread load as heavy on each metre, one
        // at a point as it is.
        let limit = (wanted * long_term * most * 1e6).ceil() as i64;
        prop_assume!((100_000..100_000_000).contains(&limit));
        let answer = ask.lengths(&[("sag_most", limit)]).answer();
        let longest = Length::new::<millimeter>(mm(&answer, "span_most"));
        let heavier = if placed { load * (longest / sizes[0]).value } else { load };
        let there = larger([longest, sizes[1], sizes[2]], heavier, pressure, how) * long_term;
        within(there, limit as f64 / 1e6, there * 1e-6 + 1e-5);
    }
}
