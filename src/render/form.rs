//! The values that a reader can type into a page: one field an input of a calculator, one a measure
//! or choice of a procedure.
//!
//! Nothing is asked twice: names, questions, ranges and usual values come from the calculator's
//! table and from the procedure. Texts are read by the same code as the command's.

use serde_json::json;

use super::block::{Block, Field};
use super::pages::{Links, LiveFloor, ProcedurePage};
use super::set_up::joined;
use super::worked::{example, full};
use crate::joints::{Absent, Calculator, Input};
use crate::procedure::{Choice, Measure, Procedure, Want, Workplace};
use crate::shop::{Cutter, Shape};
use crate::units::{Scale, Unit, Value};

/// The form of a calculator's page, filled with its example.
pub(super) fn of_calculator(one: &Calculator, floor: &LiveFloor) -> Block {
    let example = example(one);
    let field = |input: &Input| {
        let absent = match input.absent {
            Absent::Required => "must be given".to_owned(),
            Absent::Usual(usual) => format!("left empty: {usual}"),
            Absent::Derived(how) => format!("left empty: {how}"),
        };
        let options = input.options().into_iter();
        let options: Vec<_> = options
            .map(|word| (word.to_owned(), word.to_owned()))
            .collect();
        Field {
            name: input.name.to_owned(),
            label: joined(&[&input.name.replace(['-', '_'], " "), input.letter], ", "),
            hint: joined(&[input.meaning, &input.range_words(), &absent], "; "),
            value: example.get(input.name).cloned().unwrap_or_default(),
            options: or_nothing(options, "not given"),
            offers: offers(one, input, &floor.cutters, floor.shop.scale()),
        }
    };
    Block::Form {
        fields: one.inputs.iter().map(field).collect(),
        units: unit(floor),
        about: inert(&json!({ "calculator": one.name })),
    }
}

fn unit(floor: &LiveFloor) -> &'static str {
    match floor.shop.units {
        Unit::Mm => "mm",
        Unit::Inch => "in",
    }
}

/// The cutters of the drawer that an input may name.
fn offers(
    one: &Calculator,
    input: &Input,
    cutters: &[Cutter],
    scale: Scale,
) -> Vec<(String, String)> {
    let wanted = one.wants.iter().flat_map(|wants| wants.cutters);
    let mut wanted = wanted.filter(|wanted| wanted.size == input.name);
    wanted
        .next()
        .map_or_else(Vec::new, |wanted| of_shape(cutters, wanted.shape, scale))
}

fn of_shape(cutters: &[Cutter], shape: Shape, scale: Scale) -> Vec<(String, String)> {
    let cutters = cutters.iter().filter(|cutter| cutter.shape == shape);
    let said = cutters.map(|cutter| {
        let size = full(&Value::Length(cutter.diameter()), scale);
        (cutter.id.clone(), format!("{}, {size}", cutter.name))
    });
    said.collect()
}

/// The words of a choice, and before them what nothing chosen means.
fn or_nothing(options: Vec<(String, String)>, nothing: &str) -> Vec<(String, String)> {
    if options.is_empty() {
        return options;
    }
    let nothing = (String::new(), nothing.to_owned());
    std::iter::once(nothing).chain(options).collect()
}

/// The form of a procedure's page, filled with its example; none when nothing is asked.
pub(super) fn of_procedure(
    page: &ProcedurePage,
    around: &[Links; 2],
    floor: &LiveFloor,
) -> Option<Block> {
    let about = json!({
        "procedure": page.yaml,
        "around": around,
    });
    (!page.fields.is_empty()).then(|| Block::Form {
        fields: page.fields.clone(),
        units: unit(floor),
        about: inert(&about),
    })
}

/// What is measured and chosen for a procedure, as fields that hold its example.
pub fn procedure_fields(procedure: &Procedure, at: Workplace<'_>) -> Vec<Field> {
    let scale = at.shop.scale();
    let example = crate::procedure::example(procedure, at);
    let measures = procedure.measures.iter().map(|measure: &Measure| {
        let later = match measure.later {
            Some(_) => "left empty: as planned, until it is cut and measured",
            None => "",
        };
        let value = example.measured.get(&measure.name);
        Field {
            name: measure.name.clone(),
            label: measure.ask.clone(),
            hint: joined(&[&range(&measure.range, scale), later], "; "),
            value: value.map_or_else(String::new, |(text, _)| text.clone()),
            options: Vec::new(),
            offers: Vec::new(),
        }
    });
    let choices = procedure.choices.iter().map(|choice: &Choice| {
        let usual = choice.usual.as_deref().unwrap_or_default();
        let usual = match usual {
            "" => String::new(),
            usual => format!("left empty: {usual}"),
        };
        let (options, limits) = match &choice.want {
            Want::Cutter { shape, .. } => {
                let drawer = of_shape(at.cutters, *shape, scale);
                let best = (String::new(), "the best of the drawer".to_owned());
                (std::iter::once(best).chain(drawer).collect(), String::new())
            }
            Want::Word(words) => {
                let words = words.iter().map(|word| (word.clone(), word.clone()));
                (or_nothing(words.collect(), "not chosen"), String::new())
            }
            Want::Quantity { range: limits, .. } => (Vec::new(), range(limits, scale)),
        };
        let value = example.chosen.get(&choice.name);
        Field {
            name: choice.name.clone(),
            label: choice.ask.clone(),
            hint: joined(&[&limits, &usual], "; "),
            value: value.map_or_else(String::new, |(text, _)| text.clone()),
            options,
            offers: Vec::new(),
        }
    });
    measures.chain(choices).collect()
}

fn range((least, most): &(Option<Value>, Option<Value>), scale: Scale) -> String {
    let text = |value: &Value| full(value, scale);
    match (least.as_ref().map(text), most.as_ref().map(text)) {
        (Some(least), Some(most)) => format!("{least} to {most}"),
        (Some(least), None) => format!("{least} or more"),
        (None, Some(most)) => format!("{most} or less"),
        (None, None) => String::new(),
    }
}

/// A JSON text in which no markup can begin.
pub(super) fn inert(json: &serde_json::Value) -> String {
    json.to_string().replace('<', "\\u003c")
}
