//! Moisture: how moist wood becomes that stays in a room.
//!
//! Sketch: `SKETCH` below. Datum: moisture content as a share of the ovendry weight; relative
//! humidity.
//!
//! Derivation: `wood/moisture.rs` (Handbook eq. 4-5). Limits: 30 to 140 degrees Fahrenheit and 5 to
//! 95 % of humidity, where the equation was held against the Handbook's table.
//!
//! Example (Handbook Table 4-2): 70 degrees Fahrenheit, 50 %: 9.2 %.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::percent;
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Amount, Kind, Measure, Role, Unit, Value};
use crate::wood::equilibrium;

const SKETCH: &str = r"
     M |                   .      M rises with the humidity H,
       |               . '        slowly at first and fast near
       |       . . '              damp air, and falls a little
       |   .                      with the temperature T
       +---------------------- H";

const OUTSIDE: &str = "the air is outside what the equation was held against";

/// Degrees Celsius of 30 and 140 degrees Fahrenheit, a hundredth wider.
const CELSIUS: (f64, f64) = (-1.12, 60.01);
const HUMIDITY: (f64, f64) = (5.0, 95.0);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "moisture",
    summary: "How moist wood becomes in air of a temperature and a humidity",
    family: "wood",
    inputs: &[
        Input::length(
            "temperature",
            "T",
            ("-40 degC", "120 degC"),
            "Temperature of the air",
        )
        .kind(Kind::Amount(Measure::Temperature)),
        Input::length(
            "humidity",
            "H",
            ("0 %", "100 %"),
            "Relative humidity of the air",
        )
        .kind(Kind::Amount(Measure::Percent)),
    ],
    results: &[Output::new(
        "moisture",
        "M",
        Kind::Amount(Measure::Percent),
        Role::Place,
        "Moisture content that wood of any kind comes to",
    )],
    one_of: &[],
    refuses: &[OUTSIDE],
    warns: &[],
    sketch: SKETCH,
    source: "Wood Handbook, eq. 4-5, with the constants for degrees Celsius (FPL-GTR-282 p. 4-3, \
             read at second hand); within 0.06 points of every cell read of Table 4-2, FPL-GTR-190 \
             p. 4-4.",
    example: &[("temperature", "70 degF"), ("humidity", "50 %")],
    run,
    wants: None,
    fit: None,
};

fn both(celsius: f64) -> String {
    let amount = Amount::new(Measure::Temperature, celsius);
    let text = |unit| {
        let (number, name) = amount.usual(unit);
        format!("{number:.0} {name}")
    };
    format!("{} ({})", text(Unit::Mm), text(Unit::Inch))
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let celsius = needed("temperature", given.amount("temperature"))?;
    let humidity = needed("humidity", given.amount("humidity"))?;
    let refused = |is, may_be| {
        let instead = "Take the figure from a table that goes so far, or measure the wood itself.";
        Err(Refusal::new(OUTSIDE, is, may_be, instead))
    };
    if !(CELSIUS.0..=CELSIUS.1).contains(&celsius) {
        return refused(
            format!("temperature {}", both(celsius)),
            format!("temperature {} to {}", both(CELSIUS.0), both(CELSIUS.1)),
        );
    }
    if !(HUMIDITY.0..=HUMIDITY.1).contains(&humidity) {
        return refused(
            format!("humidity {}", percent(humidity)),
            format!(
                "humidity {} to {}",
                percent(HUMIDITY.0),
                percent(HUMIDITY.1)
            ),
        );
    }
    let moisture = Amount::new(Measure::Percent, equilibrium(celsius, humidity));
    Ok(Worked {
        results: BTreeMap::from([("moisture", Value::Amount(moisture))]),
        warnings: Vec::new(),
        notes: vec![
            "Wood that dries to it stays a little moister than wood that takes moisture up."
                .to_owned(),
        ],
    })
}
