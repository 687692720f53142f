//! Movement: how much a board's width changes from one moisture content to another.
//!
//! Sketch: `SKETCH` below. Datum: the width at the moisture `from`; plus is swelling.
//!
//! Derivation and limits: `wood/movement.rs`; by the coefficient when both moistures lie inside 6
//! to 14 %, else by the green-dimension form, and `method` says which. A coefficient that is given
//! is refused outside, since the other form needs the shrinkage.
//!
//! Example (Handbook p. 13-17): white fir, plain sawn, 232 mm, 8 to 11 %: 1.7 mm wider.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::percent;
use super::season::LEAVES;
use super::species::{Basis, COEFFICIENT, CUT, DISAGREE, EITHER, FROM_MEMORY, SPECIES};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Kind, Length, Measure, Role, Value};
use crate::wood::{COEFFICIENT_HOLDS, Change, Method, change_by_coefficient};

const SKETCH: &str = r"
   end of a board, plain sawn; the moisture goes from M to N

     |<------------ w ------------>|
     +-----------------------------+
     |  ---___             ___---  |      d = w C (N - M) inside 6 to 14 %
     |        ---_______---        |
     +-----------------------------+
     |<------------ a ---------------->|  a = w + d";

const ABOVE: &str = "Above the start of shrinkage";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "movement",
    summary: "How much a board's width changes with its moisture",
    family: "wood",
    inputs: &[
        Input::length("width", "w", ("1 mm", "5000 mm"), "Width of the board now"),
        Input::length("from", "M", ("0 %", "200 %"), "Moisture of the wood now")
            .kind(Kind::Amount(Measure::Percent)),
        Input::length("to", "N", ("0 %", "200 %"), "Moisture that it comes to")
            .kind(Kind::Amount(Measure::Percent)),
        COEFFICIENT,
        SPECIES,
        CUT,
    ],
    results: &[
        Output::length(
            "change",
            "d",
            Role::Place,
            "Added to the width; minus when it shrinks",
        ),
        Output::length(
            "after",
            "a",
            Role::Place,
            "Width at the moisture that it comes to",
        ),
        Output::new(
            "method",
            "",
            Kind::Choice,
            Role::Place,
            "coefficient (both moistures inside 6 to 14 %) or green-dimension (outside)",
        ),
    ],
    one_of: EITHER,
    refuses: &[LEAVES],
    warns: &[FROM_MEMORY, DISAGREE, ABOVE],
    sketch: SKETCH,
    source: "By coefficient: Wood Handbook FPL-GTR-190 (2010), eq. 13-2, p. 13-15, read. Outside 6 \
             to 14 %: eq. 13-3, p. 13-17, the formula from memory and the same as the ratio of two \
             sizes by eq. 4-7 (derived). Of boards neither plain nor quarter sawn it tells too \
             much for the width and too little for the thickness (p. 13-17). Species: the \
             project's table, each figure with its source.",
    example: &[
        ("width", "232 mm"),
        ("from", "8 %"),
        ("to", "11 %"),
        ("coefficient", "0.00245"),
    ],
    run,
    wants: None,
    fit: None,
};

fn change(basis: &Basis, width: Length, from: f64, to: f64) -> Result<Change, Refusal> {
    let (least, most) = COEFFICIENT_HOLDS;
    let outside = |moisture: f64| !(least..=most).contains(&moisture);
    match basis {
        Basis::Wood(_, decided) => Ok(decided.change(width, from, to)),
        Basis::Given(_) if outside(from) || outside(to) => Err(Refusal::new(
            LEAVES,
            format!("from {} to {}", percent(from), percent(to)),
            format!("from and to {} to {}", percent(least), percent(most)),
            "Give species and cut in the place of the coefficient.",
        )),
        Basis::Given(coefficient) => Ok(Change {
            change: change_by_coefficient(width, *coefficient, from, to),
            method: Method::Coefficient,
            is_capped: false,
        }),
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let width = needed("width", given.length("width"))?;
    let from = needed("from", given.amount("from"))?;
    let to = needed("to", given.amount("to"))?;
    let basis = Basis::read(given)?;
    let change = change(&basis, width, from, to)?;
    let method = match change.method {
        Method::Coefficient => "coefficient",
        Method::GreenDimension => "green-dimension",
    };
    let mut worked = Worked {
        results: BTreeMap::from([
            ("change", Value::Length(change.change)),
            ("after", Value::Length(width + change.change)),
            ("method", Value::Choice(method.to_owned())),
        ]),
        ..Worked::default()
    };
    basis.tell(change.method, &mut worked);
    if let (Basis::Wood(row, decided), true) = (&basis, change.is_capped) {
        worked.warnings.push(format!(
            "{ABOVE}: {} does not change above {}; a moister board counts as that.",
            row.name,
            percent(decided.start_percent)
        ));
    }
    Ok(worked)
}
