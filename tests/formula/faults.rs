//! What is refused: the place, the words and the hint of each fault, and the limits.

use faceside::diag::{Code, Fault, Source, Span};
use faceside::formula::{Formula, Known, Values};
use faceside::units::{Kind, Length, Value};

use super::{call, read, refused, scope, shown, values, worked};

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
