//! What formulas give, and what is told of them.

use faceside::formula::{Known, Outcome, Signature, Values, as_kind};
use faceside::units::{Amount, Angle, Feed, Kind, Length, Measure, RimSpeed, Spindle, Value};

use super::{call, param, read, results, scope, values, worked};

#[test]
fn what_formulas_give() {
    let nm = |nm: i64| Value::Length(Length::nm(nm));
    let yes = Value::Truth(true);
    let no = Value::Truth(false);
    let rows = [
        // 1 in = 25,400,000 nm: a half, one and a half, 3/4 + 1/64 = 19,050,000 + 396,875.
        ("1/2 in", nm(12_700_000)),
        ("1 1/2 in", nm(38_100_000)),
        ("3/4 in + 1/64in", nm(19_446_875)),
        ("1/2 in * 2", nm(25_400_000)),
        ("1 in / 2", nm(12_700_000)),
        ("5 thou", nm(127_000)),
        ("2 ft + 3 1/8 in", nm(609_600_000 + 79_375_000)),
        // The nearest nanometre of 19,000,000 / 3 = 6,333,333.3; kept whole until then.
        ("side / 3", nm(6_333_333)),
        ("side / 3 * 3", nm(19_000_000)),
        ("1.9cm - side", nm(0)),
        ("-side", nm(-19_000_000)),
        // 6.333 mm in steps of 0.5 mm: below 6, above 6.5, nearest 6.5.
        ("down_to(side / 3, 0.5 mm)", nm(6_000_000)),
        ("up_to(side / 3, 0.5 mm)", nm(6_500_000)),
        ("nearest_to(side / 3, 0.5 mm)", nm(6_500_000)),
        // 5 nm below a step counts as on it, 20 nm below does not.
        ("down_to(12.699995 mm, 0.05 mm)", nm(12_700_000)),
        ("down_to(12.69998 mm, 0.05 mm)", nm(12_650_000)),
        ("up_to(12.700005 mm, 0.05 mm)", nm(12_700_000)),
        // 3-4-5 triangle.
        ("sqrt(3 mm * 3 mm + 4 mm * 4 mm)", nm(5_000_000)),
        ("side * side * side / side / side", nm(19_000_000)),
        ("min(side, 20 mm, cutter.diameter)", nm(12_000_000)),
        ("max(1 mm, cut.mouth) + abs(-1 mm)", nm(10_000_000)),
        ("if(hand == \"left\", 1 mm, 2 mm)", nm(1_000_000)),
        ("if(hand != \"left\", 1 mm / 0, 2 mm)", nm(2_000_000)),
        ("housing(width: 9 mm, cutter: side).mouth", nm(9_000_000)),
        ("14 deg + 1 degree", Value::Angle(Angle::degrees(15.0))),
        ("18000 rpm / 2", Value::Speed(Spindle::rpm(9000.0))),
        (
            "2 * 20 m/s",
            Value::RimSpeed(RimSpeed::metres_per_second(40.0)),
        ),
        ("3 m/min", Value::Feed(Feed::metres_per_minute(3.0))),
        ("spin / 6000 rpm", Value::Number(3.0)),
        ("2 + 3 * 4", Value::Count(14)),
        ("10 - 4 - 3", Value::Count(3)),
        ("-2 * -3", Value::Count(6)),
        ("8 / 4 / 2", Value::Number(1.0)),
        ("1/2", Value::Number(0.5)),
        ("pins + 0.5", Value::Number(7.5)),
        ("ceil(10.5 mm / 3.5 mm)", Value::Count(3)),
        // Binary fractions make this 3.0000000000000004; it is 3.
        ("ceil((0.1 + 0.2) / 0.1)", Value::Count(3)),
        ("floor(3 - 0.00000000001)", Value::Count(3)),
        ("floor(-0.5)", Value::Count(-1)),
        ("round(2.5)", Value::Count(3)),
        ("round(-2.5)", Value::Count(-3)),
        ("hand", Value::Choice("left".to_owned())),
        ("places", Value::Lengths(vec![Length::nm(5)])),
        ("not 1 == 2", yes.clone()),
        ("1 < 2 or 1 < 2 and 2 < 1", yes.clone()),
        ("(1 < 2 or 1 < 2) and 2 < 1", no.clone()),
        ("1 > 2 and 1 / 0 > 0", no.clone()),
        ("1 < 2 or 1 / 0 > 0", yes.clone()),
        ("ready == yes and not (ready != yes)", yes.clone()),
        // Half a nanometre is nothing: 19 mm / 2 is 9,500,000 nm either way.
        ("side / 2 == side / 3 * 1.5", yes.clone()),
        ("0.1 + 0.2 == 0.3", yes.clone()),
        ("0.1 + 0.2 > 0.3", no),
        ("side >= 19 mm", yes),
        // Two arguments and the one that was left out.
        (
            "housing(width: side, cutter: side, marked: cutter.marked_speed).passes",
            Value::Count(2),
        ),
    ];
    for (text, expected) in rows {
        assert_eq!(worked(text), Ok(expected), "{text}");
    }
}

#[test]
fn trigonometry() {
    // Fairham, Woodwork Joints, p. 134: 1 in 8 is 7.12502 degrees. tan 14 deg 0.249328, sin 30 deg
    // 0.5, cos 60 deg 0.5: tables, from memory.
    let rows = [
        ("10 mm * tan(14 deg)", 2.49328),
        ("10 mm * sin(30 deg)", 5.0),
        ("10 mm * cos(60 deg)", 5.0),
        ("1 mm * (atan(1/8) / 1 deg)", 7.12502),
    ];
    for (text, expected) in rows {
        let Ok(Value::Length(length)) = worked(text) else {
            panic!("{text}: a length is wanted");
        };
        assert!((length.to_mm() - expected).abs() < 1e-5, "{text}");
    }
}

#[test]
fn names_text_and_results_are_told() {
    let formula = read("housing(width: side + cut.mouth, cutter: cutter.diameter)").unwrap();
    let names: Vec<_> = formula.names().collect();
    assert_eq!(names, ["side", "cut.mouth", "cutter.diameter"]);
    assert_eq!(formula.check(&scope()), Ok(Known::Results(results())));
    let Ok(Outcome::Results(found)) = formula.run(&values(), &call) else {
        panic!("results are wanted");
    };
    // 19 mm + 9 mm, as the stand-in gives its width back.
    assert_eq!(found["mouth"], Value::Length(Length::nm(28_000_000)));
    let words = read("if(ready, \"left\", \"right\")").unwrap();
    let both = ["left", "right"].map(str::to_owned).to_vec();
    assert_eq!(words.check(&scope()), Ok(Known::Choice(both)));
    assert_eq!(as_kind(Value::Count(2), Kind::Count), Value::Count(2));
}

/// A percentage, a temperature, a load or a modulus is named, chosen between and passed on; a sum, a
/// product or a comparison of them is refused.
#[test]
fn amounts_are_passed_on_but_not_reckoned_with() {
    let kind = Kind::Amount(Measure::Temperature);
    let mut scope = scope();
    scope.names.insert("room".to_owned(), Known::One(kind));
    scope.calls.push(Signature {
        name: "moisture".to_owned(),
        params: vec![param("temperature", kind, true)],
        results: vec![("moisture".to_owned(), Kind::Amount(Measure::Percent))],
    });
    let check = |text: &str| read(text).unwrap().check(&scope);
    assert_eq!(check("if(ready, room, 70 degF)"), Ok(Known::One(kind)));
    let percent = Known::One(Kind::Amount(Measure::Percent));
    assert_eq!(
        check("moisture(temperature: 20 degC).moisture"),
        Ok(percent)
    );
    for text in [
        "room + room",
        "2 * room",
        "room < 20 degC",
        "min(room, 20 °C)",
        "-(5 %)",
        "if(ready, room, 5 kg)",
        "moisture(temperature: 12 %)",
        "moisture(temperature: 20)",
    ] {
        assert!(check(text).is_err(), "{text}");
    }
    let mut values = Values::new();
    let room = Value::Amount(Amount::new(Measure::Temperature, 20.0));
    values.insert("room", room.clone());
    let run = |text: &str| read(text).unwrap().run(&values, &|_, args| Ok(args));
    assert_eq!(run("room").unwrap(), Outcome::One(room.clone()));
    // 68 degrees Fahrenheit are 20 degrees Celsius; the call hands its arguments back.
    let Outcome::One(Value::Amount(handed)) =
        run("moisture(temperature: 68 degF).temperature").unwrap()
    else {
        panic!("an amount is wanted");
    };
    assert!((handed.to_base() - 20.0).abs() < 1e-9);
}
