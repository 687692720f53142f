//! Sag of beams: solved examples of a course, the factors of the Handbook's table, and what holds
//! for any beam.

use faceside::units::Length;
use faceside::wood::{Beam, Ends, Placed};
use proptest::prelude::*;

use crate::{POUND, within};

/// Gigapascals of a pound on a square inch, from the pound's newtons and 25.4 mm.
const PSI: f64 = 6.894_757_293_168e-6;

fn beam(width: f64, depth: f64, modulus: f64, ends: Ends) -> Beam {
    Beam {
        width: Length::inches(width),
        thickness: Length::inches(depth),
        modulus_gpa: modulus * PSI,
        ends,
        placed: Placed::Spread,
    }
}

// Checks 7 and 8 (reference wood 7a, 7b): solved homework of a course on structures (ARC322), read:
// 0.169 in and 0.84 in.
#[test]
fn beams_of_the_course() {
    let simple = beam(5.5, 17.5, 1.6e6, Ends::Simple).sag(Length::inches(240.0), 3700.0 * POUND);
    within(simple.most.to_inches(), 0.169, 0.001);
    let cantilever =
        beam(3.5, 7.25, 1.9e6, Ends::Cantilever).sag(Length::inches(96.0), 1600.0 * POUND);
    within(cantilever.most.to_inches(), 0.84, 0.005);
}

// Handbook Table 9-1, p. 9-2, read: k_b with W 1000 N, L 1000 mm, E 10 GPa, b 100, h 20 mm, I 66667 mm4:
// W L^3 / (E I) = 1500 mm exactly; a slender simple beam is reckoned without the shear term. Reference
// wood 7: shear over bending is 8.5 % for a clamped beam at L/h = 30, and goes as (h/L)^2.
#[test]
fn ends_and_places_of_the_table() {
    let sag = |ends, placed, span: f64| {
        let beam = Beam {
            width: Length::mm(100.0),
            thickness: Length::mm(20.0),
            modulus_gpa: 10.0,
            ends,
            placed,
        };
        let load = 1000.0 * (1000.0 / span).powi(3);
        beam.sag(Length::mm(span), load)
    };
    let wanted = [
        (Ends::Simple, Placed::Spread, 5.0 / 384.0),
        (Ends::Cantilever, Placed::Spread, 1.0 / 8.0),
        (Ends::Simple, Placed::Point, 1.0 / 48.0),
        (Ends::Cantilever, Placed::Point, 1.0 / 3.0),
        (Ends::Clamped, Placed::Spread, 1.0 / 384.0),
        (Ends::Clamped, Placed::Point, 1.0 / 192.0),
    ];
    for (ends, placed, factor) in wanted {
        let is = sag(ends, placed, 1000.0);
        assert!(!is.with_shear, "{ends:?} {placed:?}");
        within(is.most.to_mm(), 1500.0 * factor, 1e-5);
    }
    // Shear over bending at L/h = 10, E/G = 16 (reference wood 7): 15.4, 19.2 and 76.8 %.
    for (ends, placed, factor, shear) in [
        (Ends::Simple, Placed::Spread, 5.0 / 384.0, 0.1536),
        (Ends::Simple, Placed::Point, 1.0 / 48.0, 0.192),
        (Ends::Clamped, Placed::Spread, 1.0 / 384.0, 0.768),
        (Ends::Clamped, Placed::Point, 1.0 / 192.0, 0.768),
    ] {
        let is = sag(ends, placed, 200.0);
        assert!(is.with_shear, "{ends:?} {placed:?}");
        within(is.most.to_mm(), 1500.0 * factor * (1.0 + shear) / 1.1, 1e-4);
    }
}

fn ends() -> impl Strategy<Value = Ends> {
    prop_oneof![
        Just(Ends::Simple),
        Just(Ends::Clamped),
        Just(Ends::Cantilever)
    ]
}

fn placed() -> impl Strategy<Value = Placed> {
    prop_oneof![Just(Placed::Spread), Just(Placed::Point)]
}

proptest! {
    // Derived: elastic sag adds up (superposition), grows with the span, and the longest span for a
    // sag has that sag.
    #[test]
    fn sag_adds_up_and_grows(
        ends in ends(),
        placed in placed(),
        span in 100.0..3000.0_f64,
        depth in 10.0..60.0_f64,
        loads in (1.0..500.0_f64, 1.0..500.0_f64),
    ) {
        let beam = Beam {
            width: Length::mm(250.0),
            thickness: Length::mm(depth),
            modulus_gpa: 11.0,
            ends,
            placed,
        };
        let sag = |span: f64, load| beam.sag(Length::mm(span), load).most;
        let (one, two) = loads;
        let apart = sag(span, one) + sag(span, two);
        prop_assert!((apart - sag(span, one + two)).abs() <= Length::nm(2));
        let most = sag(span, one + two);
        // A hundredth of less than 100 nm is lost in the rounding of both.
        prop_assert!(most.to_nm() < 100 || sag(span * 1.01, one + two) > most);
        let longest = beam.span_most(Length::mm(span), one + two, most);
        // Both sags are rounded by up to half a nanometre, and sag grows as the span at least (a
        // point's shear): the spans are as near each other as the sags may be.
        let nm = most.to_nm() as f64;
        let apart = (nm + 0.5) / (nm - 0.5);
        prop_assert!(longest >= Length::mm(span));
        prop_assert!(nm < 1.0 || longest.to_mm() <= span * apart + 2e-6);
    }

    // Derived: ends that hold bend least, a cantilever most; a load at a point bends more than the
    // same load spread.
    #[test]
    fn sag_is_ordered_by_ends_and_place(span in 300.0..3000.0_f64, depth in 10.0..60.0_f64) {
        let sag = |ends, placed| {
            let beam = Beam {
                width: Length::mm(250.0),
                thickness: Length::mm(depth),
                modulus_gpa: 11.0,
                ends,
                placed,
            };
            beam.sag(Length::mm(span), 200.0).most
        };
        for placed in [Placed::Spread, Placed::Point] {
            prop_assert!(sag(Ends::Clamped, placed) < sag(Ends::Simple, placed));
            prop_assert!(sag(Ends::Simple, placed) < sag(Ends::Cantilever, placed));
        }
        for ends in [Ends::Clamped, Ends::Simple, Ends::Cantilever] {
            prop_assert!(sag(ends, Placed::Spread) < sag(ends, Placed::Point));
        }
    }
}
