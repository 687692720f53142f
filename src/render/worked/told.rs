//! What came of the texts that somebody put into a calculator: an answer with its budget of errors,
//! a refusal, or what is wrong with which text.

use std::collections::BTreeMap;

use crate::diag::{Code, Fault};
use crate::joints::{Answer, Calculator, FitBudget, Input, Refusal, Stopped, read_input, work_out};
use crate::shop::{Cutter, Machine, Shop};
use crate::units::Value;

/// What came of it.
#[derive(Debug)]
pub enum Told {
    /// An answer, and what the shop's errors add up to.
    Worked(Box<(Answer, Option<FitBudget>)>),
    /// The joint cannot be cut so.
    Refused(Refusal),
    /// What is wrong, each with the input that it concerns when it concerns one.
    Amiss(Vec<(Option<&'static str>, Fault)>),
}

/// The texts of the calculator's own example.
pub fn example(calculator: &Calculator) -> BTreeMap<String, String> {
    let texts = calculator.example.iter();
    texts
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect()
}

impl Told {
    /// Reads the texts by input and works out what they say; an empty one is not given.
    pub fn of(
        calculator: &'static Calculator,
        texts: &BTreeMap<String, String>,
        (shop, machines, cutters): (&Shop, &[Machine], &[Cutter]),
    ) -> Self {
        let mut values: BTreeMap<String, Value> = BTreeMap::new();
        let mut amiss = Vec::new();
        for input in calculator.inputs {
            let text = texts.get(input.name).map_or("", |text| text.trim());
            if text.is_empty() {
                continue;
            }
            match read_input(calculator, input, text, (cutters, shop.units)) {
                Ok(read) => {
                    for (name, value) in read {
                        if values.insert(name.clone(), value).is_some() {
                            amiss.push((Some(input.name), twice(&name)));
                        }
                    }
                }
                Err(fault) => amiss.push((Some(input.name), fault)),
            }
        }
        if !amiss.is_empty() {
            return Self::Amiss(amiss);
        }
        match work_out(calculator, &values) {
            Ok(answer) => {
                let budget = FitBudget::in_shop(calculator, &answer, (shop, machines));
                Self::Worked(Box::new((answer, budget)))
            }
            Err(Stopped::Refused(refusal)) => Self::Refused(refusal),
            Err(Stopped::Fault(fault)) => {
                let lacks =
                    |input: &&Input| input.is_required() && !values.contains_key(input.name);
                let lacking = calculator.inputs.iter().find(lacks);
                Self::Amiss(vec![(lacking.map(|input| input.name), fault)])
            }
        }
    }
}

fn twice(name: &str) -> Fault {
    let message = format!("`{name}` is given twice");
    Fault::error(Code::DUPLICATE_KEY, message)
        .hint("a cutter of the drawer gives its size and its angle: leave the other empty")
}
