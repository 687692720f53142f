//! The formula language from outside: what it gives, what it refuses and where, what never breaks.
//!
//! Expected figures are worked out beside each row; expected dimensions come from vectors of
//! exponents, which the language itself does not use.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests; a wrong value ends the test"
)]

use std::collections::BTreeMap;

use faceside::diag::{Code, Fault, Source, Span};
use faceside::formula::{Formula, Known, Outcome, Param, Scope, Signature, Values, as_kind};
use faceside::units::{Amount, Angle, Feed, Kind, Length, Measure, RimSpeed, Spindle, Value};
use proptest::prelude::{Just, ProptestConfig, any, prop, prop_oneof, proptest};

fn read(text: &str) -> Result<Formula, Fault> {
    Formula::parse(text, &Span::whole(&Source::new("test", text)))
}

fn param(name: &str, kind: Kind, required: bool) -> Param {
    let words: &[&str] = if kind == Kind::Choice {
        &["soft", "hard"]
    } else {
        &[]
    };
    Param {
        name: name.to_owned(),
        kind,
        required,
        options: words.iter().map(|word| (*word).to_owned()).collect(),
    }
}

fn results() -> Vec<(String, Kind)> {
    vec![
        ("mouth".to_owned(), Kind::Length),
        ("fence_first".to_owned(), Kind::Length),
        ("passes".to_owned(), Kind::Count),
    ]
}

/// One name of every kind, a calculator, and the results of one.
fn scope() -> Scope {
    let words = ["left", "right"].map(str::to_owned).to_vec();
    let names = [
        ("side", Known::One(Kind::Length)),
        ("cutter.diameter", Known::One(Kind::Length)),
        ("slope", Known::One(Kind::Angle)),
        ("spin", Known::One(Kind::Speed)),
        ("rim", Known::One(Kind::RimSpeed)),
        ("feed", Known::One(Kind::Feed)),
        ("pins", Known::One(Kind::Count)),
        ("ratio", Known::One(Kind::Number)),
        ("ready", Known::One(Kind::Truth)),
        ("hand", Known::Choice(words)),
        ("places", Known::One(Kind::Lengths)),
        ("cutter.marked_speed", Known::Maybe(Kind::Speed)),
        ("cut", Known::Results(results())),
    ];
    Scope {
        names: names
            .map(|(name, known)| (name.to_owned(), known))
            .into_iter()
            .collect(),
        calls: vec![Signature {
            name: "housing".to_owned(),
            params: vec![
                param("width", Kind::Length, true),
                param("cutter", Kind::Length, true),
                param("from", Kind::Length, false),
                param("wood", Kind::Choice, false),
                param("marked", Kind::Speed, false),
                param("factor", Kind::Number, false),
                param("count", Kind::Count, false),
            ],
            results: results(),
        }],
    }
}

fn values() -> Values {
    let named = [
        ("side", Value::Length(Length::nm(19_000_000))),
        ("cutter.diameter", Value::Length(Length::nm(12_000_000))),
        ("slope", Value::Angle(Angle::degrees(14.0))),
        ("spin", Value::Speed(Spindle::rpm(18_000.0))),
        ("rim", Value::RimSpeed(RimSpeed::metres_per_second(40.0))),
        ("feed", Value::Feed(Feed::metres_per_minute(3.0))),
        ("pins", Value::Count(7)),
        ("ratio", Value::Number(0.25)),
        ("ready", Value::Truth(true)),
        ("hand", Value::Choice("left".to_owned())),
        ("places", Value::Lengths(vec![Length::nm(5)])),
        ("cut.mouth", Value::Length(Length::nm(9_000_000))),
        ("cut.passes", Value::Count(2)),
    ];
    let mut values: Values = named
        .map(|(name, value)| (name.to_owned(), value))
        .into_iter()
        .collect();
    values.leave_out("cutter.marked_speed");
    values
}

/// Stands for a calculator: gives back its width as the mouth, `from` as the fence when given,
/// and as passes how many arguments it was given.
fn call(_: &str, given: BTreeMap<String, Value>) -> Result<BTreeMap<String, Value>, Fault> {
    let mut results = BTreeMap::new();
    results.insert("passes".to_owned(), Value::Count(given.len() as i64));
    if let Some(width) = given.get("width") {
        results.insert("mouth".to_owned(), width.clone());
    }
    if let Some(from) = given.get("from") {
        results.insert("fence_first".to_owned(), from.clone());
    }
    Ok(results)
}

/// Reads, checks and runs.
fn worked(text: &str) -> Result<Value, Fault> {
    let formula = read(text)?;
    let known = formula.check(&scope())?;
    match formula.run(&values(), &call)? {
        Outcome::One(value) => {
            assert!(known.does_for(value.kind()) || value.kind() == Kind::Count);
            Ok(value)
        }
        Outcome::Results(_) => panic!("{text}: one value is wanted"),
    }
}

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

/// The fault in one line: place, code, message, marked text, label, second place, hints.
fn shown(fault: &Fault) -> String {
    let span = fault.span.as_ref().unwrap();
    let (line, column) = span.line_column();
    let mut text = format!(
        "{line}:{column} {} `{}`: {}",
        fault.code.name(),
        span.text(),
        fault.message
    );
    if !fault.label.is_empty() {
        text += &format!(" [{}]", fault.label);
    }
    for (span, words) in &fault.also {
        let (line, column) = span.line_column();
        text += &format!(" {line}:{column} `{}` [{words}]", span.text());
    }
    for hint in &fault.hints {
        text += &format!(" = {hint}");
    }
    text
}

/// Pairs of lines: a formula (`\\n` for a line break), and how its fault begins.
#[track_caller]
fn refused(rows: &str) {
    let lines: Vec<_> = rows.trim_matches('\n').lines().map(str::trim).collect();
    assert_eq!(lines.len() % 2, 0, "a formula without its fault");
    for pair in lines.chunks(2) {
        let text = pair[0].replace("\\n", "\n");
        let fault = worked(&text).expect_err(&text);
        let found = shown(&fault);
        assert!(found.starts_with(pair[1]), "{text}\n  gave {found}");
    }
}

#[test]
fn places_of_syntax_faults() {
    refused(
        r#"
        side +
            1:7 formula-syntax ``: the formula ends where a value is wanted
        side + )
            1:8 formula-syntax `)`: a value is missing before `)`
        (side + 1 mm
            1:1 formula-syntax `(`: `(` is not closed
        side + 1 mm)
            1:12 formula-syntax `)`: `)` without its `(`
        side 1 mm
            1:6 formula-syntax `1 mm`: an operator is missing before `1 mm`
        side\n + 1 mm mm
            2:9 formula-syntax `mm`: an operator is missing
        19 mm, 2
            1:6 formula-syntax `,`: `,` has a place only between arguments
        a: 2
            1:2 formula-syntax `:`: `:` has a place only after the name
        side.5
            1:5 formula-syntax `.5`: a stray point = write `0.5`
        hand == "left
            1:9 formula-syntax `"left`: a word in quotes is not closed
        1 < 2 < 3
            1:7 formula-syntax `<`: comparisons cannot be chained = write `... 2 and 2 ...`
        1 == not ready
            1:6 formula-syntax `not`: `not` cannot stand here
        min(a: 2, 3)
            1:5 formula-syntax `a`: `min` takes its values in order, without names
        min(2)
            1:1 formula-syntax `min(2)`: `min` takes at least 2 values, and here are 1
        if(ready, 1)
            1:1 formula-syntax `if(ready, 1)`: `if` takes 3 values, and here are 2
        housing(width: side, width: side)
            1:22 formula-syntax `width`: `width` is given twice [given again here] 1:9 `width` [first given here]
        housing(side)
            1:9 formula-syntax `side`: `housing` takes its arguments by name = write the name before it, such as `width: side`
"#,
    );
}

#[test]
fn nothing_is_no_formula() {
    let fault = read(" ").expect_err("nothing is written");
    let found = shown(&fault);
    assert!(
        found.starts_with("1:2 formula-syntax ``: the formula is empty"),
        "{found}"
    );
}

#[test]
fn habits_get_a_hint() {
    refused(
        r#"
        side ^ 2
            1:6 formula-syntax `^`: `^` has no meaning in a formula = write a square as `x * x`
        side ** 2
            1:6 formula-syntax `**`: `**` has no meaning in a formula = write a square as `x * x`
        side − 2 mm
            1:6 formula-syntax `−`: `−` has no meaning in a formula = write the hyphen-minus of the keyboard, `-`
        side × 2
            1:6 formula-syntax `×`: `×` has no meaning in a formula = write `*`
        side ÷ 2
            1:6 formula-syntax `÷`: `÷` has no meaning in a formula = write `/`
        side;
            1:5 formula-syntax `;`: `;` has no meaning in a formula = a formula is one expression; arguments have `,` between them
        side = 2 mm
            1:6 formula-syntax `=`: `=` has no meaning in a formula = write `==` to compare
        ready && ready
            1:7 formula-syntax `&&`: `&&` has no meaning in a formula = write `and`
        ready || ready
            1:7 formula-syntax `||`: `||` has no meaning in a formula = write `or`
        !ready
            1:1 formula-syntax `!`: `!` has no meaning in a formula = write `not`
        side ≤ 2 mm
            1:6 formula-syntax `≤`: `≤` has no meaning in a formula = write `<=`
"#,
    );
}

#[test]
fn quantities_that_can_be_read_in_two_ways() {
    refused(
        r#"
        1 / 2 in
            1:3 ambiguous-quantity `/`: `1 / 2 in` can be read in two ways = write `1/2 in`, without blanks, for a fraction of the unit = write `1 / (2 in)` to divide
        side + 12.5/2 in
            1:12 ambiguous-quantity `/`: `12.5 / 2 in` can be read in two ways = write `12.5 / (2 in)` to divide
        1-1/2 in
            1:1 ambiguous-quantity `1-1/2 in`: `1-1/2 in` can be read in two ways = write `1 1/2 in`
        min(1,5 mm)
            1:6 ambiguous-quantity `,`: a comma between two digits
        19,5 mm
            1:3 ambiguous-quantity `,`: a comma between two digits
        10 ft/min
            1:1 ambiguous-quantity `10 ft/min`: `ft/min` can be read in two ways
        3/4"
            1:1 quantity-unit `3/4"`: `"` is not a unit in a formula = write `3/4 in`
        1 1/2″ + side
            1:1 quantity-unit `1 1/2″`: `″` is not a unit in a formula = write `1 1/2 in`
        side + 1/3 in
            1:8 quantity-syntax `1/3 in`: no rule has parts of 1/3
        3 side
            1:3 quantity-unit `side`: `side` is not a unit
        1e3
            1:2 quantity-unit `e3`: `e3` is not a unit
        200 m
            1:1 out-of-range `200 m`: `200 m` is longer than 100 m
"#,
    );
}

#[test]
fn places_of_dimension_faults() {
    refused(
        r#"
        side + 3
            1:8 formula-dimension `3`: a plain number cannot be added to a length [this is a plain number] 1:1 `side` [this is a length] = give the number a unit, such as `mm` or `in`
        3 - side
            1:5 formula-dimension `side`: a length cannot be taken from a plain number [this is a length] 1:1 `3` [this is a plain number]
        side * slope
            1:8 formula-dimension `slope`: a length cannot be multiplied by an angle
        2 / rim
            1:5 formula-dimension `rim`: a plain number cannot be divided by a rim speed
        side * side * side * side
            1:22 formula-dimension `side`: a volume cannot be multiplied by a length
        (side + 1 mm) * side
            1:1 formula-dimension `(side + 1 mm) * side`: a formula cannot end as a power of a length [this is an area]
        side == 3
            1:9 formula-dimension `3`: a length cannot be compared with a plain number
        hand < "left"
            1:8 formula-dimension `"left"`: a choice cannot be compared with a choice
        hand == "lefd"
            1:9 formula-name `"lefd"`: `lefd` is not one of the words that are offered = did you mean `left`?
        if(ready, "left", "up") == hand
            1:1 formula-name `if(ready, "left", "up")`: `up` is not one
        ready and side
            1:11 formula-dimension `side`: each side of `and` must be yes or no [this is a length]
        not side
            1:5 formula-dimension `side`: what `not` denies must be yes or no
        if(side, 1, 2)
            1:4 formula-dimension `side`: the condition of `if` must be yes or no
        if(ready, side, 7)
            1:17 formula-dimension `7`: both outcomes must be alike, not a length and a plain number
        -hand
            1:2 formula-dimension `hand`: `-` can only stand before
        places + side
            1:10 formula-dimension `side`: a length cannot be added to a list of lengths
        tan(3)
            1:5 formula-dimension `3`: `tan` takes an angle [this is a plain number]
        sqrt(side)
            1:6 formula-dimension `side`: `sqrt` takes a plain number or an area
        floor(side)
            1:7 formula-dimension `side`: `floor` takes a plain number [this is a length] = write `down_to(length, step)`
        min(side, 3)
            1:11 formula-dimension `3`: a length cannot be compared with a plain number
        cut
            1:1 formula-dimension `cut`: `cut` is not one value [this is the results of a calculator] = choose one with a point and its name: `mouth`, `fence_first`, `passes`
        housing(width: side, cutter: 3).mouth
            1:30 formula-dimension `3`: `cutter` of `housing` takes a length [this is a plain number]
        housing(width: side, cutter: side, count: 2.5).mouth
            1:43 formula-dimension `2.5`: `count` of `housing` takes a count
        housing(width: side, cutter: side) + 1
            1:38 formula-dimension `1`: a plain number cannot be added to the results of a calculator
"#,
    );
}

#[test]
fn places_of_name_faults() {
    refused(
        r#"
        sdie + 1 mm
            1:1 formula-name `sdie`: nothing is named `sdie` here = did you mean `side`?
        cuter.diameter
            1:1 formula-name `cuter.diameter`: nothing is named `cuter.diameter` here = did you mean `cutter.diameter`?
        1 mm + cut.moth
            1:12 formula-name `moth`: `cut` has no result `moth` = did you mean `mouth`?
        housing(width: side, cutter: side).moth
            1:36 formula-name `moth`: `housing` has no result `moth`
        flor(2)
            1:1 formula-name `flor`: there is no function or calculator `flor` = did you mean `floor`?
        housng(width: side)
            1:1 formula-name `housng`: there is no function or calculator `housng` = did you mean `housing`?
        housing(with: side)
            1:9 formula-name `with`: `housing` has no argument `with` = did you mean `width`?
        housing(from: side).mouth
            1:1 value-missing `housing`: `housing` also needs `width`, `cutter`
        housing(width: side, cutter: side, wood: "hrd").mouth
            1:42 formula-name `"hrd"`: `hrd` is not one of the words that are offered = did you mean `hard`?
        true
            1:1 formula-name `true`: nothing is named `true` here = did you mean `yes`?
        min + 1
            1:1 formula-name `min`: nothing is named `min` here = it is a function: write `min(a, b)`
        cutter-diameter
            1:1 formula-name `cutter`: nothing is named `cutter` here = names in formulas have `_`, not `-`
        cutter.marked_speed / 2
            1:1 formula-name `cutter.marked_speed`: `cutter.marked_speed` may have no value
"#,
    );
}

#[test]
fn a_value_that_may_be_absent_cannot_be_required() {
    let mut scope = scope();
    let width = Known::Maybe(Kind::Length);
    scope.names.insert("width_found".to_owned(), width);
    let formula = read("housing(width: width_found, cutter: side)").unwrap();
    let fault = formula.check(&scope).expect_err("it may be absent");
    assert!(shown(&fault).starts_with(
        "1:16 formula-name `width_found`: `width_found` may have no value 1:9 `width` [`width` must be given]"
    ));
}

#[test]
fn places_of_run_faults() {
    refused(
        r#"
        side / (cut.mouth - cut.mouth)
            1:9 formula-value `cut.mouth - cut.mouth`: division by zero [this comes to 0]
        1 + sqrt(2 - pins)
            1:10 formula-value `2 - pins`: root of less than nothing
        side + 100 m
            1:1 formula-value `side + 100 m`: this comes to more than 100 m
        1 mm * (99999999999999999999 * 99999999999999999999)
            1:9 formula-value `99999999999999999999`: this comes to more than can be worked with
        1 mm + 1 mm * tan(90 deg)
            1:15 formula-value `tan(90 deg)`: the tangent of a right angle has no end
        down_to(side, 1 mm - 1 mm)
            1:15 formula-value `1 mm - 1 mm`: a step must be more than nothing
        1 mm + cut.fence_first
            1:8 value-missing `cut.fence_first`: `cut` gave no `fence_first` = `fence_first` needs an input that `cut` was not given = `cut` gave `mouth`, `passes`
        housing(width: side, cutter: side).fence_first
            1:1 value-missing `housing(width: side, cutter: side).fence_first`: `housing` gave no `fence_first`
"#,
    );
    let formula = read("side + 1 mm").unwrap();
    let fault = formula.run(&Values::new(), &call).expect_err("no value");
    assert!(shown(&fault).starts_with("1:1 value-missing `side`: `side` has no value"));
}

#[test]
fn an_argument_without_a_value_is_only_left_out_when_that_was_said() {
    let formula = read("housing(width: side, cutter: side, marked: cutter.marked_speed)").unwrap();
    let mut values = Values::new();
    values.insert("side", Value::Length(Length::nm(1)));
    let fault = formula.run(&values, &call).expect_err("nobody said so");
    assert_eq!(fault.code, Code::VALUE_MISSING);
    values.leave_out("cutter.marked_speed");
    assert!(formula.run(&values, &call).is_ok());
}

#[test]
fn faults_of_a_calculator_stand_at_its_call() {
    let formula = read("1 mm + housing(width: side, cutter: side).mouth").unwrap();
    let refuse = |_: &str, _| Err(Fault::error(Code::REFUSED, "too wide"));
    let fault = formula.run(&values(), &refuse).expect_err("it refuses");
    assert_eq!(
        shown(&fault),
        "1:8 refused `housing(width: side, cutter: side)`: too wide"
    );
}

#[test]
fn a_quoted_formula_marks_the_whole_place_and_quotes_the_parts() {
    let source = Source::new("shop.yaml", "depth: 'side + 3'");
    let formula = Formula::parse("side + 3", &Span::new(&source, 7, 17)).unwrap();
    let fault = formula.check(&scope()).expect_err("a length and a number");
    assert_eq!(
        shown(&fault),
        "1:8 formula-dimension `'side + 3'`: a plain number cannot be added to a length \
         [`3`: this is a plain number] = `side`: this is a length \
         = give the number a unit, such as `mm` or `in`"
    );
    let source = Source::new("shop.yaml", "a: 1\ndepth: side + 3");
    let formula = Formula::parse("side + 3", &Span::new(&source, 12, 20)).unwrap();
    let fault = formula.check(&scope()).expect_err("a length and a number");
    assert!(shown(&fault).starts_with("2:15 formula-dimension `3`"));
}

#[test]
fn limits() {
    let nested = |depth: usize| format!("{}1{}", "(".repeat(depth), ")".repeat(depth));
    let cases = [
        (nested(10_000), "a formula may be at most 4096 bytes long"),
        (nested(2_000), "nested more than 64 deep"),
        (nested(65), "nested more than 64 deep"),
        (format!("{}1", "-".repeat(65)), "nested more than 64 deep"),
        (
            format!("{}yes", "not ".repeat(65)),
            "nested more than 64 deep",
        ),
        (
            format!("{}1{}", "abs(".repeat(65), ")".repeat(65)),
            "nested more than 64 deep",
        ),
        (
            format!("1{}", "+1".repeat(9_999)),
            "a formula may be at most 4096 bytes long",
        ),
        // 257 values and 256 sums are 513.
        (
            format!("1{}", "+1".repeat(256)),
            "a formula may have at most 512 values and operations",
        ),
        (
            " ".repeat(5_000),
            "a formula may be at most 4096 bytes long",
        ),
    ];
    for (text, message) in cases {
        let fault = read(&text).expect_err(message);
        assert_eq!(
            (fault.code, fault.message.as_str()),
            (Code::FORMULA_LIMIT, message)
        );
    }
    assert_eq!(worked(&nested(64)), Ok(Value::Count(1)));
    assert_eq!(
        worked(&format!("1{}", "+1".repeat(255))),
        Ok(Value::Count(256))
    );
    assert_eq!(
        worked(&format!("1{}", " ".repeat(4_095))),
        Ok(Value::Count(1))
    );
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

/// Exponents of length, angle, spindle speed, rim speed and feed; and the amount in base units.
type Vector = [i32; 5];

/// A text, its exponents, its amount.
const OPERANDS: &[(&str, Vector, f64)] = &[
    ("ratio", [0; 5], 0.25),
    ("pins", [0; 5], 7.0),
    ("side", [1, 0, 0, 0, 0], 19.0),
    ("(side * side)", [2, 0, 0, 0, 0], 19.0 * 19.0),
    ("(side * side * side)", [3, 0, 0, 0, 0], 19.0 * 19.0 * 19.0),
    ("(1 / side)", [-1, 0, 0, 0, 0], 1.0 / 19.0),
    ("(1 / side / side)", [-2, 0, 0, 0, 0], 1.0 / 19.0 / 19.0),
    ("slope", [0, 1, 0, 0, 0], 14.0),
    ("spin", [0, 0, 1, 0, 0], 18_000.0),
    ("rim", [0, 0, 0, 1, 0], 40.0),
    ("feed", [0, 0, 0, 0, 1], 3.0),
];

/// Whether there is a dimension for these exponents: a number, a length up to the third power, or
/// one of the scales as it is.
fn exists(vector: Vector) -> bool {
    let others: Vec<_> = vector[1..].iter().filter(|power| **power != 0).collect();
    match vector[0] {
        0 => others.is_empty() || others == [&1],
        power => others.is_empty() && power.abs() <= 3,
    }
}

/// What brings a thing of these exponents back to a plain number: its unit (mm, deg, rpm ...).
fn unit(vector: Vector) -> String {
    match vector {
        [0, 0, 0, 0, 0] => String::new(),
        [power, 0, 0, 0, 0] if power > 0 => {
            format!(" / (1 mm{})", " * 1 mm".repeat(power as usize - 1))
        }
        [power, 0, 0, 0, 0] => " * 1 mm".repeat(power.unsigned_abs() as usize),
        [0, 1, 0, 0, 0] => " / 1 deg".to_owned(),
        [0, 0, 1, 0, 0] => " / 1 rpm".to_owned(),
        [0, 0, 0, 1, 0] => " / 1 m/s".to_owned(),
        _ => " / 1 m/min".to_owned(),
    }
}

#[test]
fn dimensions_follow_the_exponents() {
    for (one, left, a) in OPERANDS {
        for (two, right, b) in OPERANDS {
            let joined = |sign: i32| std::array::from_fn(|at| left[at] + sign * right[at]);
            let like = (left == right).then_some(*left);
            let rows = [
                ("+", like, a + b),
                ("-", like, a - b),
                ("*", Some(joined(1)), a * b),
                ("/", Some(joined(-1)), a / b),
            ];
            for (sign, vector, amount) in rows {
                let expected = vector.filter(|vector| exists(*vector));
                let bare = format!("{one} {sign} {two}");
                let Some(vector) = expected else {
                    let text = format!("({bare}) > ({bare})");
                    assert_eq!(
                        worked(&text).expect_err(&text).code,
                        Code::FORMULA_DIMENSION
                    );
                    continue;
                };
                let text = format!("1.0 * (({bare}){})", unit(vector));
                match worked(&text) {
                    Ok(Value::Number(found)) => {
                        let slip = (found - amount).abs();
                        assert!(
                            slip <= amount.abs() * 1e-12,
                            "{text}: {found}, not {amount}"
                        );
                    }
                    other => panic!("{text}: {other:?}"),
                }
            }
            let text = format!("{one} <= {two}");
            match worked(&text) {
                Ok(found) => assert_eq!((found, left), (Value::Truth(a <= b), right), "{text}"),
                Err(fault) => assert!(fault.code == Code::FORMULA_DIMENSION && left != right),
            }
        }
    }
}

/// Reads, checks and runs whatever it is: no panic, and after the check no fault but of values,
/// and the kind that was foretold.
fn never_breaks(text: &str) {
    let Ok(formula) = read(text) else { return };
    assert_eq!(formula.text(), text);
    let Ok(known) = formula.check(&scope()) else {
        let _ = formula.run(&values(), &call);
        return;
    };
    match formula.run(&values(), &call) {
        Ok(Outcome::Results(_)) => assert!(matches!(known, Known::Results(_)), "{text}"),
        Ok(Outcome::One(value)) => {
            let own = Known::One(value.kind());
            let is_foretold = match &known {
                Known::One(kind) => own.does_for(*kind),
                known => known.does_for(value.kind()),
            };
            assert!(is_foretold, "{text}: {known:?} became {value:?}");
        }
        Err(fault) => {
            let of_values = [Code::FORMULA_VALUE, Code::VALUE_MISSING];
            assert!(of_values.contains(&fault.code), "{text}: {}", shown(&fault));
        }
    }
}

/// Parts of formulas, good and bad; `~` stands for a blank.
const SOUP: &str = r#"
    side   cut.mouth   cut.fence_first   slope   spin   rim   feed   pins   ratio   ready
    hand   places   cut   cutter.marked_speed   nothing   "left"   "   1   0   2.5   1/2   in
    mm   deg   rpm   m/s   1~1/2~in   3~mm   14~deg   +   -   *   /   (   )   (   )   ,   :
    .mouth   <   <=   ==   !=   and   or   not   yes   no   if(   min(   sqrt(   tan(   round(
    down_to(   housing(   width:   cutter:   from:   ^   −   ½
"#;

fn soup() -> Vec<String> {
    SOUP.split_whitespace()
        .map(|part| part.replace('~', " "))
        .collect()
}

/// How a length, number, angle or truth is written: a line of leaves, then of what is made of
/// others, each letter standing for one of these.
const WRITTEN: &[(char, &str, &str)] = &[
    (
        'L',
        "side|1 mm|0 mm|1 1/2 in|5 thou|cut.mouth|cut.fence_first|cutter.diameter",
        "(L + L)|(L - L)|(L * N)|(N * L)|(L / N)|(-L)|min(L, L, L)|max(L, L)|abs(L)|if(T, L, L)\
         |sqrt(L * L)|(L * L / L)|(1 / (ratio / L))|down_to(L, L)|up_to(L, L)\
         |nearest_to(L, 0.05 mm)|housing(width: L, cutter: L).mouth\
         |housing(cutter: L, width: L, from: L).fence_first",
    ),
    (
        'N',
        "ratio|pins|0|1|2|2.5|1/2",
        "(N + N)|(N - N)|(N * N)|(N / N)|(-N)|(L / L)|(A / A)|(L * L / (L * L))|tan(A)|cos(A)\
         |ceil(N)|floor(N)|round(N)|sqrt(N)|max(N, N)|if(T, N, N)",
    ),
    (
        'A',
        "slope|14 deg",
        "(A + A)|(A - A)|(A * N)|(A / N)|atan(N)|min(A, A)|if(T, A, A)",
    ),
    (
        'T',
        "ready|yes|no|(hand == \"left\")|(\"right\" != hand)|(spin > 9000 rpm)",
        "(L < L)|(N == N)|(A >= A)|(T and T)|(T or T)|(not T)|(T != T)|if(T, T, T)",
    ),
];

/// A formula of that sort, put together as the numbers say.
fn written(sort: char, depth: u8, numbers: &mut impl Iterator<Item = u8>) -> String {
    let row = WRITTEN.iter().find(|row| row.0 == sort).unwrap();
    let all: Vec<_> = if depth == 0 { row.1 } else { row.2 }.split('|').collect();
    let chosen = all[usize::from(numbers.next().unwrap_or(0)) % all.len()];
    let mut text = String::new();
    for letter in chosen.chars() {
        if letter.is_ascii_uppercase() {
            let less = depth - 1 - numbers.next().unwrap_or(0) % depth;
            text += &written(letter, less, numbers);
        } else {
            text.push(letter);
        }
    }
    text
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4096, ..ProptestConfig::default() })]

    #[test]
    fn token_soup_never_breaks(
        parts in prop::collection::vec(prop::sample::select(soup()), 0..16),
        blank in prop_oneof![Just(""), Just(" ")],
    ) {
        never_breaks(&parts.join(blank));
    }

    #[test]
    fn any_characters_never_break(text in any::<String>()) {
        never_breaks(&text);
    }

    #[test]
    fn what_is_written_well_is_accepted_and_never_breaks(
        sort in prop::sample::select(&[('L', Kind::Length), ('N', Kind::Number), ('A', Kind::Angle), ('T', Kind::Truth)][..]),
        numbers in prop::collection::vec(any::<u8>(), 1..120),
    ) {
        let (letter, kind) = sort;
        let text = written(letter, numbers[0] % 5, &mut numbers.into_iter().skip(1));
        match read(&text).and_then(|formula| formula.check(&scope())) {
            Ok(known) => assert!(known.does_for(kind), "{text}: {known:?}"),
            Err(fault) => panic!("{text}: {}", shown(&fault)),
        }
        never_breaks(&text);
    }

    #[test]
    fn sums_of_lengths_are_exact(
        terms in prop::collection::vec((-999_999_999_i64..=999_999_999, any::<bool>()), 1..60),
    ) {
        let mut text = "0 mm".to_owned();
        let mut total = 0;
        for (nm, is_added) in terms {
            let (mm, part) = (nm.abs() / 1_000_000, nm.abs() % 1_000_000);
            let minus = if nm < 0 { "-" } else { "" };
            text += &format!(" {} {minus}{mm}.{part:06} mm", if is_added { "+" } else { "-" });
            total += if is_added { nm } else { -nm };
        }
        assert_eq!(worked(&text), Ok(Value::Length(Length::nm(total))));
    }
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
