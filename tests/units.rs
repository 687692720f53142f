//! Quantities: what is read, refused, rounded and shown.
//!
//! Expected values are worked out beside each from 1 in = 25.4 mm = 25,400,000 nm (exact by
//! definition, from memory).

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail")]

use faceside::diag::Code;
use faceside::units::{Kind, Length, Measure, Role, Scale, Towards, Unit, Value, parse};
use proptest::prelude::*;

#[track_caller]
fn length(text: &str, unit: Unit) -> Length {
    match parse(text, Kind::Length, unit) {
        Ok(Value::Length(length)) => length,
        other => panic!("{text}: {other:?}"),
    }
}

#[track_caller]
fn refused(text: &str, kind: Kind, unit: Unit) -> Code {
    match parse(text, kind, unit) {
        Ok(value) => panic!("{text} was read as {value:?}"),
        Err(fault) => {
            assert!(!fault.hints.is_empty(), "{fault:?}");
            fault.code
        }
    }
}

/// Every text form of the design, each with its nanometres by hand.
#[test]
fn every_form_of_a_length_is_read_exactly() {
    let mm = |mm: i64| mm * 1_000_000;
    let forms: &[(&str, Unit, i64)] = &[
        ("3/4", Unit::Inch, 19_050_000),    // 25.4 * 3 / 4
        ("1 1/2", Unit::Inch, 38_100_000),  // 25.4 * 1.5
        ("1-1/2 in", Unit::Mm, 38_100_000), // the dash of a rule, not a minus
        ("23/32\"", Unit::Mm, 18_256_250),  // 25.4 * 23 / 32
        ("0.742", Unit::Inch, 18_846_800),  // 25.4 * 0.742
        ("19 mm", Unit::Inch, mm(19)),
        ("19mm", Unit::Mm, mm(19)),
        ("19,5 mm", Unit::Mm, 19_500_000),
        ("1.9 cm", Unit::Mm, mm(19)),
        ("0.3 m", Unit::Mm, mm(300)),
        ("2 ft 3 1/8 in", Unit::Mm, 688_975_000), // 27.125 * 25.4
        ("2' 3 1/8\"", Unit::Mm, 688_975_000),
        ("1½ in", Unit::Mm, 38_100_000),
        ("½", Unit::Inch, 12_700_000),
        ("5 thou", Unit::Mm, 127_000), // 0.005 * 25.4
        ("19", Unit::Mm, mm(19)),
        ("-3 mm", Unit::Mm, mm(-3)),
        ("−3 mm", Unit::Mm, mm(-3)),
        ("1/64 in", Unit::Mm, 396_875),
        ("1/128 in", Unit::Mm, 198_438), // 198,437.5: half away from zero
        ("-1/128 in", Unit::Mm, -198_438),
        ("  7/64 in ", Unit::Mm, 2_778_125),
    ];
    for (text, unit, nm) in forms {
        assert_eq!(length(text, *unit), Length::nm(*nm), "{text}");
    }
}

#[test]
fn what_is_unclear_is_refused() {
    let lengths: &[(&str, Code)] = &[
        ("", Code::QUANTITY_SYNTAX),
        ("   ", Code::QUANTITY_SYNTAX),
        ("1,250 mm", Code::AMBIGUOUS_QUANTITY),
        ("3/4", Code::AMBIGUOUS_QUANTITY),
        ("3/5 in", Code::QUANTITY_SYNTAX),
        ("1/0 in", Code::QUANTITY_SYNTAX),
        ("1 5/4 in", Code::QUANTITY_SYNTAX),
        ("19 mm 3", Code::QUANTITY_SYNTAX),
        ("19 mm 3 in", Code::QUANTITY_SYNTAX),
        ("1/2 3/4 in", Code::QUANTITY_UNIT),
        ("1 in 8", Code::QUANTITY_SYNTAX),
        ("½½ in", Code::QUANTITY_UNIT),
        ("1/3 in", Code::QUANTITY_SYNTAX),
        ("1/256 in", Code::QUANTITY_SYNTAX),
        ("19. mm", Code::QUANTITY_SYNTAX),
        ("+3 mm", Code::QUANTITY_SYNTAX),
        ("-−3 mm", Code::QUANTITY_SYNTAX),
        ("- -3 mm", Code::QUANTITY_SYNTAX),
        ("mm", Code::QUANTITY_SYNTAX),
        ("2 ft 3", Code::QUANTITY_UNIT),
        ("2 ft 3 in 1", Code::QUANTITY_SYNTAX),
        ("-100.001 m", Code::OUT_OF_RANGE),
        ("2 ft 3 mm", Code::QUANTITY_UNIT),
        ("--3 mm", Code::QUANTITY_SYNTAX),
        ("1.2.3 mm", Code::QUANTITY_SYNTAX),
        ("1e3 mm", Code::QUANTITY_UNIT),
        ("nan mm", Code::QUANTITY_SYNTAX),
        ("19 furlongs", Code::QUANTITY_UNIT),
        ("14 deg", Code::QUANTITY_UNIT),
        ("100.001 m", Code::OUT_OF_RANGE),
        ("99999999999999999999 mm", Code::QUANTITY_SYNTAX),
        ("🚣", Code::QUANTITY_SYNTAX),
    ];
    for (text, code) in lengths {
        assert_eq!(refused(text, Kind::Length, Unit::Mm), *code, "{text}");
    }
    assert_eq!(refused("14", Kind::Angle, Unit::Mm), Code::QUANTITY_UNIT);
    assert_eq!(
        refused("400 deg", Kind::Angle, Unit::Mm),
        Code::OUT_OF_RANGE
    );
    assert_eq!(refused("18000", Kind::Speed, Unit::Mm), Code::QUANTITY_UNIT);
    assert_eq!(refused("-5 rpm", Kind::Speed, Unit::Mm), Code::OUT_OF_RANGE);
    assert_eq!(refused("2.5", Kind::Count, Unit::Mm), Code::QUANTITY_SYNTAX);
    for text in ["-14 deg", "1 in 0", "1:", "14 deg 3", ""] {
        assert_eq!(
            refused(text, Kind::Angle, Unit::Mm),
            Code::QUANTITY_SYNTAX,
            "{text}"
        );
    }
    // A bare number of an inch shop is inches; in both shops thousands with a comma are refused.
    assert_eq!(
        refused("1,250", Kind::Length, Unit::Inch),
        Code::AMBIGUOUS_QUANTITY
    );
}

/// What a refusal says is true, and every figure in it has its unit.
#[test]
fn a_refusal_says_what_is_wrong() {
    let told = |text: &str, kind| parse(text, kind, Unit::Mm).unwrap_err().message;
    assert!(!told("2 ft 3 mm", Kind::Length).contains("`mm` is not a unit"));
    assert!(told("0 rpm", Kind::Speed).contains("1000000 rpm"));
    assert!(told("-1 m/s", Kind::RimSpeed).contains("10000 m/s"));
    assert!(told("0 m/min", Kind::Feed).contains("10000 m/min"));
}

/// A scale in mm read in inches: 8.70 mm is 0.34252 in. `0.343 in` would be 8.7122 mm, a cut
/// 0.012 mm deeper than asked; the nearest that a height may say is 0.342 in, 8.6868 mm.
#[test]
fn a_scale_of_the_other_unit_still_rounds_towards_more_wood() {
    let metric_in_inches = Scale::new(Unit::Inch, Length::nm(50_000));
    let height = metric_in_inches.show(Length::nm(8_700_000), Role::TakesOff.towards());
    assert_eq!(height.text, "0.342 in");
    assert_eq!(height.rounded, Length::nm(8_686_800));
    let tail = metric_in_inches.show(Length::nm(8_650_000), Role::Entering.towards());
    // 8.65 mm = 0.34055 in; up is 0.341 in = 8.6614 mm.
    assert_eq!(tail.text, "0.341 in");
    assert_eq!(tail.rounded, Length::nm(8_661_400));
    // A rule of 1/64 in read in mm: 0.396875 mm. Two parts are 0.79375 mm; down is 0.7 mm.
    let inches_in_metric = Scale::new(Unit::Mm, Length::nm(396_875));
    let opening = inches_in_metric.show(Length::nm(793_750), Role::Opening.towards());
    assert_eq!(opening.text, "0.7 mm");
    assert_eq!(opening.rounded, Length::nm(700_000));
}

/// A rule and a feeler: 1/8 in less 0.010 in is 0.115 in = 7/64 in (0.109375) + 0.005625 in.
#[test]
fn a_mixed_figure_says_the_fraction_below_and_the_rest() {
    let scale = Scale::FractionAnd { under: 64 };
    let shown = scale.show(Length::inches(0.115), Towards::Nearest);
    assert_eq!(shown.text, "7/64 + 0.006 in");
    assert_eq!(shown.rounded, Length::nm(2_778_125 + 6 * 25_400));
    assert_eq!(shown.rounded + shown.remainder, Length::inches(0.115));
    assert_eq!(
        scale.show(Length::inches(0.75), Towards::Nearest).text,
        "3/4 in"
    );
}

/// The number that `7/64 + 0.006 in`, `-1 3/8 in` or `0.5 in` says, by plain arithmetic: parts of
/// 1/64 in (396,875 nm) and of 0.001 in (25,400 nm), the sign before the fraction.
fn said_by(text: &str) -> i64 {
    let number = text.strip_suffix(" in").unwrap();
    let (rule, feeler) = number.split_once(" + ").unwrap_or((number, "0.000"));
    let thousandths: i64 = feeler.strip_prefix("0.").unwrap().parse().unwrap();
    let (sign, rule) = rule.strip_prefix('-').map_or((1, rule), |rest| (-1, rest));
    let in_64ths = |part: &str| match part.split_once('/') {
        Some((over, under)) => over.parse::<i64>().unwrap() * (64 / under.parse::<i64>().unwrap()),
        None => part.parse::<i64>().unwrap() * 64,
    };
    let parts: i64 = rule.split(' ').map(in_64ths).sum();
    sign * parts * 396_875 + thousandths * 25_400
}

fn scales() -> impl Strategy<Value = Scale> {
    let steps = prop_oneof![
        Just(10_000_i64),
        Just(50_000),
        Just(100_000),
        Just(500_000),
        Just(1_000_000),
        // Scales of the other unit: 0.001 in and 1/64 in read in mm.
        Just(25_400),
        Just(396_875)
    ];
    let under = prop_oneof![Just(2_u8), Just(4), Just(8), Just(16), Just(32), Just(64)];
    prop_oneof![
        steps.prop_map(|step| Scale::Mm {
            step: Length::nm(step)
        }),
        // The last two are scales of the other unit: 0.05 mm and 0.01 mm read in inches.
        prop_oneof![
            Just(25_400_i64),
            Just(12_700),
            Just(127_000),
            Just(254_000),
            Just(50_000),
            Just(10_000)
        ]
        .prop_map(|step| {
            Scale::DecimalInch {
                step: Length::nm(step),
            }
        }),
        under.prop_map(|under| Scale::Fraction { under }),
    ]
}

fn roles() -> impl Strategy<Value = Role> {
    prop_oneof![
        Just(Role::Opening),
        Just(Role::Entering),
        Just(Role::TakesOff),
        Just(Role::LeavesOn),
        Just(Role::Place)
    ]
}

proptest! {
    /// What is shown is read back as exactly what the text says.
    #[test]
    fn shown_and_read_again_is_the_rounded_length(
        nm in -2_000_000_000_i64..2_000_000_000,
        scale in scales(),
        role in roles(),
    ) {
        let shown = scale.show(Length::nm(nm), role.towards());
        prop_assert_eq!(length(&shown.text, Unit::Mm), shown.rounded, "{}", shown.text);
        prop_assert_eq!(shown.rounded + shown.remainder, Length::nm(nm));
        prop_assert!(shown.remainder.abs() < scale.step());
    }

    /// What is written follows the direction too, not only what is set (10 nm of noise apart).
    #[test]
    fn what_is_written_leaves_wood_on(
        nm in -2_000_000_000_i64..2_000_000_000,
        scale in prop_oneof![scales(), Just(Scale::FractionAnd { under: 64 })],
    ) {
        let said = |role: Role| {
            let text = scale.show(Length::nm(nm), role.towards()).text;
            match scale {
                Scale::FractionAnd { .. } => said_by(&text),
                _ => length(&text, Unit::Mm).to_nm(),
            }
        };
        prop_assert!(said(Role::Opening) <= nm + 10 && said(Role::TakesOff) <= nm + 10);
        prop_assert!(said(Role::Entering) >= nm - 10 && said(Role::LeavesOn) >= nm - 10);
    }

    /// The mixed figure says the rounded length, whatever rule the fraction is read on.
    #[test]
    fn a_mixed_figure_says_the_rounded_length(
        nm in -2_000_000_000_i64..2_000_000_000,
        under in prop_oneof![Just(2_u8), Just(8), Just(16), Just(32), Just(64)],
        role in roles(),
    ) {
        let shown = Scale::FractionAnd { under }.show(Length::nm(nm), role.towards());
        prop_assert_eq!(said_by(&shown.text), shown.rounded.to_nm(), "{}", shown.text);
        prop_assert_eq!(shown.rounded + shown.remainder, Length::nm(nm));
        // A thousandth, 25,400 nm, is the finest that a feeler shows.
        prop_assert!(shown.remainder.abs() < Length::nm(25_400));
    }

    /// A length on the scale is shown as it is, in every direction.
    #[test]
    fn a_length_on_the_scale_loses_nothing(parts in -9_999_i64..9_999, role in roles()) {
        let mm = Length::nm(10_000);
        let exact = [
            (Scale::Mm { step: mm }, 10_000),
            (Scale::DecimalInch { step: Length::nm(25_400) }, 25_400),
            (Scale::Fraction { under: 64 }, 396_875),
            (Scale::FractionAnd { under: 64 }, 396_875),
        ];
        for (scale, step) in exact {
            let shown = scale.show(Length::nm(parts * step), role.towards());
            prop_assert_eq!(shown.rounded, Length::nm(parts * step), "{}", shown.text);
            prop_assert_eq!(shown.remainder, Length::ZERO);
            prop_assert_eq!(length(&shown.text, Unit::Mm), Length::nm(parts * step));
        }
    }

    /// One length written in every form that is read: 1/8 in is 3,175,000 nm, 0.001 in 25,400 nm.
    #[test]
    fn every_form_of_one_length_is_the_same(
        feet in 0_i64..90, inches in 0_i64..12, eighths in 1_i64..8, tenths in 1_i64..3_900,
    ) {
        let nm = feet * 304_800_000 + inches * 25_400_000 + eighths * 3_175_000;
        let sign = ["⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"][eighths as usize - 1];
        let all = feet * 12 + inches;
        let mut forms = vec![
            format!("{all} {eighths}/8 in"),
            format!("{all}-{eighths}/8 inches"),
            format!("{all}{sign} in"),
            format!("{all} {sign}\""),
            format!("{}/8 in", all * 8 + eighths),
            format!("{all}.{:03} in", eighths * 125),
            format!("{} thou", all * 1000 + eighths * 125),
        ];
        for (foot, inch) in [("ft", "in"), ("'", "\""), ("′", "″"), ("feet", "inch")] {
            forms.push(format!("{feet} {foot} {inches} {eighths}/8 {inch}"));
            forms.push(format!("{feet}{foot} {inches}{sign}{inch}"));
        }
        for form in forms {
            prop_assert_eq!(length(&form, Unit::Mm), Length::nm(nm), "{}", form);
            prop_assert_eq!(length(&format!("-{form}"), Unit::Mm), Length::nm(-nm), "{}", form);
        }
        // A bare fraction, and a bare number in each shop.
        prop_assert_eq!(length(&format!("{all} {eighths}/8"), Unit::Inch), Length::nm(nm));
        prop_assert_eq!(length(&tenths.to_string(), Unit::Mm), Length::nm(tenths * 1_000_000));
        prop_assert_eq!(length(&tenths.to_string(), Unit::Inch), Length::nm(tenths * 25_400_000));
        let (whole, part) = (tenths / 10, tenths % 10);
        for form in [
            format!("{whole}.{part} mm"),
            format!("{whole},{part}mm"),
            format!("{}.{:02} cm", tenths / 100, tenths % 100),
            format!("{}.{:04} m", tenths / 10_000, tenths % 10_000),
        ] {
            prop_assert_eq!(length(&form, Unit::Inch), Length::nm(tenths * 100_000), "{}", form);
        }
    }

    /// Openings are never shown larger, what enters them never smaller (10 nm of noise apart).
    #[test]
    fn rounding_leaves_wood_on(nm in -2_000_000_000_i64..2_000_000_000, scale in scales()) {
        let noise = Length::nm(10);
        let at = |role: Role| scale.round(Length::nm(nm), role.towards());
        prop_assert!(at(Role::Opening) <= Length::nm(nm) + noise);
        prop_assert!(at(Role::TakesOff) <= Length::nm(nm) + noise);
        prop_assert!(at(Role::Entering) >= Length::nm(nm) - noise);
        prop_assert!(at(Role::LeavesOn) >= Length::nm(nm) - noise);
        let (down, up) = (at(Role::Opening), at(Role::Entering));
        let nearest = at(Role::Place);
        prop_assert!(nearest == down || nearest == up || (nearest - down).abs() <= scale.step());
    }

    /// 1/64 in, 0.001 in and 0.01 mm are whole: any number of them is read and summed exactly.
    #[test]
    fn parts_of_the_shop_are_whole(
        parts in 1_i64..6400, thousandths in 0_u32..99_999, hundredths in 0_u32..99_999,
    ) {
        let (whole, part) = (parts / 64, parts % 64);
        let text = match (whole, part) {
            (0, part) => format!("{part}/64 in"),
            (whole, 0) => format!("{whole} in"),
            (whole, part) => format!("{whole} {part}/64 in"),
        };
        prop_assert_eq!(length(&text, Unit::Mm), Length::nm(parts * 396_875));
        let text = format!("{}.{:03} in", thousandths / 1000, thousandths % 1000);
        prop_assert_eq!(length(&text, Unit::Mm), Length::nm(i64::from(thousandths) * 25_400));
        let text = format!("{},{:02} mm", hundredths / 100, hundredths % 100);
        prop_assert_eq!(length(&text, Unit::Mm), Length::nm(i64::from(hundredths) * 10_000));
        let sum: Length = [parts * 396_875, i64::from(hundredths) * 10_000]
            .into_iter().map(Length::nm).sum();
        prop_assert_eq!(sum.to_nm(), parts * 396_875 + i64::from(hundredths) * 10_000);
    }

    /// No text brings it down, and no number comes out that is not finite and in range.
    #[test]
    fn any_text_is_read_or_refused(text in ".{0,24}", soup in "[0-9 ./,½'\"mincftd:-]{0,16}") {
        for text in [text, soup] {
            for kind in [
                Kind::Length, Kind::Angle, Kind::Speed, Kind::RimSpeed, Kind::Feed, Kind::Count,
                Kind::Number, Kind::Truth, Kind::Lengths,
            ] {
                for unit in [Unit::Mm, Unit::Inch] {
                    if let Ok(Value::Length(length)) = parse(&text, kind, unit) {
                        prop_assert!(length.abs() <= Length::MOST);
                    }
                    if let Ok(Value::Number(number)) = parse(&text, kind, unit) {
                        prop_assert!(number.is_finite());
                    }
                }
            }
        }
    }
}

/// Base units: %, degrees Celsius, N, GPa; 1 lb = 0.45359237 kg, 9.80665 m/s2, 25.4 mm (exact, from
/// memory): 0.45359237 * 9.80665 = 4.4482216 N, over 645.16 mm2 0.0068947573 MPa.
#[test]
fn amounts_are_read_with_their_unit_only() {
    let read = |text, measure| match parse(text, Kind::Amount(measure), Unit::Mm) {
        Ok(Value::Amount(amount)) => amount,
        other => panic!("{text}: {other:?}"),
    };
    let forms = [
        ("12 %", Measure::Percent, 12.0),
        ("12,5%", Measure::Percent, 12.5),
        ("20 degC", Measure::Temperature, 20.0),
        ("-5 °C", Measure::Temperature, -5.0),
        ("32 degF", Measure::Temperature, 0.0),
        ("212 °F", Measure::Temperature, 100.0),
        ("2 kN", Measure::Load, 2000.0),
        ("10 kg", Measure::Load, 98.0665),
        ("100 lb", Measure::Load, 444.822_16),
        ("11.5 GPa", Measure::Stress, 11.5),
        ("11500 N/mm2", Measure::Stress, 11.5),
        ("1600000 psi", Measure::Stress, 11.031_612),
        ("1 MPa", Measure::Stress, 0.001),
    ];
    for (text, measure, base) in forms {
        let is = read(text, measure);
        assert!((is.to_base() - base).abs() < 1e-4, "{text}: {is:?}");
        assert_eq!(is.measure(), measure);
    }
    let (inch, mm) = (Unit::Inch, Unit::Mm);
    let near = |(is, unit): (f64, &str), (number, wanted): (f64, &str)| {
        assert!((is - number).abs() < 1e-4 && unit == wanted, "{is} {unit}");
    };
    let room = read("70 degF", Measure::Temperature);
    near(room.usual(inch), (70.0, "degF"));
    near(room.usual(mm), (21.111_11, "degC"));
    near(read("9.80665 N", Measure::Load).usual(mm), (1.0, "kg"));
    near(read("1 lb", Measure::Load).usual(inch), (1.0, "lb"));
    // 150 * 0.45359237 * 9.80665 / 25.4^2 = 1.034 214 N/mm2.
    let glue = read("150 lb/in2", Measure::Stress);
    near(glue.usual(inch), (150.0, "lb/in2"));
    near(glue.usual(mm), (1.034_214, "MPa"));
    near(read("8 GPa", Measure::Stress).usual(mm), (8.0, "GPa"));
    for (text, measure) in [
        ("70", Measure::Temperature),
        ("0.5", Measure::Percent),
        ("40", Measure::Load),
        ("40 kg", Measure::Stress),
        ("50 deg", Measure::Temperature),
    ] {
        let code = refused(text, Kind::Amount(measure), Unit::Inch);
        assert_eq!(code, Code::QUANTITY_UNIT, "{text}");
    }
    assert_eq!(
        refused("", Kind::Amount(Measure::Load), Unit::Mm),
        Code::QUANTITY_SYNTAX
    );
}
