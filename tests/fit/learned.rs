//! Student's t against an integral of its density, another library and printed tables; the weights by
//! hand.

use faceside::diag::Source;
use faceside::shoplog::{
    Asked, CutterMeasured, CutterState, Event, Learned, Line, Measured, Moves, Person, SetTo,
    TestCut, Wood, Work, learned, quantile, standing,
};
use faceside::units::Length;

/// The density of Student's t, its constant by libm's logarithm of gamma.
fn density(t: f64, degrees: f64) -> f64 {
    let constant = libm::lgamma(0.5 * (degrees + 1.0))
        - libm::lgamma(0.5 * degrees)
        - 0.5 * libm::log(degrees * std::f64::consts::PI);
    libm::exp(constant - 0.5 * (degrees + 1.0) * libm::log1p(t * t / degrees))
}

#[test]
fn the_quantiles_are_those_of_an_integrated_density() {
    for degrees in [1.0, 1.7, 2.0, 4.0, 8.3, 9.0, 30.0] {
        for probability in [0.75, 0.9, 0.95, 0.975, 0.99] {
            let t = quantile(degrees, probability);
            let area = quadrature::integrate(|x| density(x, degrees), 0.0, t, 1e-10).integral;
            assert!(
                (0.5 + area - probability).abs() < 1e-7,
                "{degrees} {probability}: {area}"
            );
        }
    }
}

/// puruspe's incomplete beta (Lentz's continued fraction; its inverse by Halley's steps) shares
/// nothing with statrs's, whose inverse is the algorithm of the crate `special`. With
/// x = n / (n + t^2) the tail over t is I_x(n/2, 1/2) / 2 (Abramowitz and Stegun 26.7.1 with 26.5.27,
/// from memory).
#[test]
fn the_quantiles_are_those_of_another_library() {
    let mut count = 0;
    for degrees in [
        1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.7, 7.0, 10.0, 15.5, 24.0, 40.0, 75.0, 200.0,
    ] {
        for thousandths in (510..=995).step_by(5).chain([996, 997, 998, 999]) {
            let probability = f64::from(thousandths) / 1000.0;
            let t = quantile(degrees, probability);
            let tail = 0.5 * puruspe::betai(0.5 * degrees, 0.5, degrees / (degrees + t * t));
            assert!(
                (1.0 - tail - probability).abs() < 1e-10,
                "{degrees} {probability}: {tail}"
            );
            let x = puruspe::invbetai(2.0 * (1.0 - probability), 0.5 * degrees, 0.5);
            let other = (degrees * (1.0 - x) / x).sqrt();
            // Where t is small, x is near one and 1 - x has few digits left.
            assert!(
                (t - other).abs() < 1e-6 * (1.0 + t),
                "{degrees} {probability}: {t} {other}"
            );
            count += 1;
        }
    }
    assert!(count > 1400, "{count}");
}

#[test]
fn the_quantiles_are_those_of_the_printed_tables() {
    // Table of Student's t in any textbook of statistics, one-sided (from memory).
    for (degrees, probability, table) in [
        (1.0, 0.95, 6.314),
        (2.0, 0.95, 2.920),
        (4.0, 0.95, 2.132),
        (9.0, 0.95, 1.833),
        (9.0, 0.975, 2.262),
        (9.0, 0.99, 2.821),
    ] {
        let t: f64 = quantile(degrees, probability);
        assert!((t - table).abs() < 0.0006, "{degrees} {probability}: {t}");
    }
}

fn moves() -> Moves {
    Moves {
        setting: "fence".to_owned(),
        by: 2.0,
        wood: Some(Wood::High),
        clearance: None,
    }
}

/// A test cut that came out so much over the wanted value, with the fence so much over the plan.
fn cut(over: f64, set_over: f64) -> Event {
    Event::TestCut(Box::new(TestCut {
        by: Person::new("BK").unwrap(),
        work: Work {
            machine: Some("router-table-1".to_owned()),
            cutter: Some("dovetail-12-7".to_owned()),
            settings: vec![SetTo {
                name: "fence".to_owned(),
                shown: String::new(),
                planned: Some(Length::mm(5.0)),
                set: Some(Length::mm(5.0 + set_over)),
            }],
            ..Work::default()
        },
        measured: Some(Measured {
            what: "neck".to_owned(),
            value: Length::mm(10.0 + over),
            wanted: Some(Length::mm(10.0)),
            limits: None,
            tool: None,
            moves: Some(moves()),
        }),
        feel: None,
        note: None,
    }))
}

fn sharpened(cutter: &str, state: CutterState) -> Event {
    Event::CutterMeasured(CutterMeasured {
        by: Person::new("BK").unwrap(),
        cutter: cutter.to_owned(),
        size: Length::mm(12.6),
        tool: None,
        state,
    })
}

/// What is learned from events of these days.
fn of(events: &[(&str, Event)]) -> Option<Learned> {
    let lines = (1..).zip(events).map(|(number, (day, event))| {
        let line = Line::new(number, &format!("{day}T09:00:00Z")).unwrap();
        line.write(event).unwrap()
    });
    let text: String = lines.collect();
    let asked = Asked {
        machine: "router-table-1",
        cutter: Some("dovetail-12-7"),
        moves: &moves(),
        steps: (Length::mm(0.001), Length::mm(0.001)),
        today: "2026-11-26",
    };
    learned(&standing(&[Source::new("2026.jsonl", text)]).0, &asked)
}

const DAY: &str = "2026-11-26";

#[test]
fn offset_and_spread_of_equal_weights_are_mean_and_deviation() {
    // Values over by 0.2, 0.4, 0.6 with a factor of 2 and the plan kept: offsets 0.1, 0.2, 0.3,
    // mean 0.2, deviation 0.1 (n - 1 below). The next is within t(2, 0.95) 0.1 sqrt(4/3).
    let known = of(&[
        (DAY, cut(0.2, 0.0)),
        (DAY, cut(0.4, 0.0)),
        (DAY, cut(0.6, 0.0)),
    ])
    .unwrap();
    assert_eq!(
        (known.offset, known.spread),
        (Length::mm(0.2), Length::mm(0.1))
    );
    let bound = known.bound(0.95).to_mm();
    assert!(
        (bound - 2.920 * 0.1 * (4.0_f64 / 3.0).sqrt()).abs() < 1e-4,
        "{bound}"
    );
}

#[test]
fn what_was_set_otherwise_than_planned_is_taken_off() {
    // Set 0.1 over the plan with a factor of 2: 0.2 of the value is meant.
    let known = of(&[
        (DAY, cut(0.4, 0.1)),
        (DAY, cut(0.6, 0.2)),
        (DAY, cut(0.8, 0.3)),
    ])
    .unwrap();
    assert_eq!(known.offset, Length::mm(0.1));
}

#[test]
fn half_a_year_halves_the_weight() {
    // 180 days before 2026-11-26 is 2026-05-30 (1 + 30 + 31 + 31 + 30 + 31 + 26 from May to November);
    // weights 1/2, 1, 1 of the offsets 0.3, 0, 0: mean 0.15 / 2.5, and 2.5 squared over 1/4 + 1 + 1.
    let known = of(&[
        ("2026-05-30", cut(0.6, 0.0)),
        (DAY, cut(0.0, 0.0)),
        (DAY, cut(0.0, 0.0)),
    ]);
    let known = known.unwrap();
    assert!((known.offset.to_mm() - 0.15 / 2.5).abs() < 1e-6);
    assert!((known.effective - 2.5 * 2.5 / 2.25).abs() < 1e-9);
}

#[test]
fn a_sharpened_or_new_cutter_starts_anew_and_another_one_does_not() {
    let three = || {
        vec![
            (DAY, cut(0.2, 0.0)),
            (DAY, cut(0.4, 0.0)),
            (DAY, cut(0.6, 0.0)),
        ]
    };
    let after = |event: Event| [three(), vec![(DAY, event)]].concat();
    assert!(of(&after(sharpened("dovetail-12-7", CutterState::Sharpened))).is_none());
    assert!(of(&after(sharpened("dovetail-12-7", CutterState::New))).is_none());
    assert!(of(&after(sharpened("dovetail-12-7", CutterState::Same))).is_some());
    assert!(of(&after(sharpened("straight-12", CutterState::New))).is_some());
    assert!(of(&three()[..2]).is_none(), "two readings tell no spread");
}
