//! Dimensions, held against vectors of exponents, which the language itself does not use.

use faceside::diag::Code;
use faceside::units::Value;

use super::worked;

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
