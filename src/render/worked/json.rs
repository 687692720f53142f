//! A calculation, or its refusal, as JSON.

use serde_json::{Map, Value as Json, json};

use super::answer::results_in_order;
use super::show::{fine, full, shown, to_millionth};
use crate::joints::{Answer, Calculator, FitBudget, Influence, Output, Refusal};
use crate::units::{Kind, Length, Scale, Value};

/// A calculation as JSON: `calculator`, `given`, `results`, `warnings`, `notes` and, for a joint
/// with a fit, `fit`.
pub fn json(
    calculator: &Calculator,
    answer: &Answer,
    budget: Option<&FitBudget>,
    scale: Scale,
) -> Json {
    let given: Map<_, _> = answer
        .given
        .iter()
        .map(|(name, value)| (name.to_owned(), json_value(value, &full(value, scale))))
        .collect();
    let results: Map<_, _> = results_in_order(calculator, &answer.worked)
        .map(|(output, value)| (output.name.to_owned(), json_result(output, value, scale)))
        .collect();
    let mut whole = json!({
        "calculator": calculator.name,
        "given": given,
        "results": results,
        "warnings": answer.worked.warnings,
        "notes": answer.worked.notes,
    });
    if calculator.fit.is_some() {
        whole["fit"] = match budget {
            Some(budget) => json_budget(budget, scale),
            None => {
                let influences = answer.influences(calculator);
                json!({ "influences": influences.iter().map(json_influence).collect::<Vec<_>>() })
            }
        };
    }
    whole
}

/// A refusal as JSON: `calculator` and `refused`.
pub fn json_refused(calculator: &Calculator, refusal: &Refusal) -> Json {
    json!({
        "calculator": calculator.name,
        "refused": {
            "what": refusal.what,
            "is": refusal.is,
            "may_be": refusal.may_be,
            "instead": refusal.instead,
        },
    })
}

fn json_result(output: &Output, value: &Value, scale: Scale) -> Json {
    match value {
        Value::Lengths(lengths) => lengths
            .iter()
            .enumerate()
            .map(|(index, length)| {
                let text = scale.show(*length, output.towards_at(index)).text;
                json_value(&Value::Length(*length), &text)
            })
            .collect(),
        _ => json_value(value, &shown(output, value, scale)),
    }
}

fn json_value(value: &Value, shown: &str) -> Json {
    let (key, figure) = match value {
        Value::Length(length) => ("mm", json!(length.to_mm())),
        Value::Angle(angle) => ("deg", json!(to_millionth(angle.to_degrees()))),
        Value::Speed(speed) => ("rpm", json!(to_millionth(speed.to_rpm()))),
        Value::RimSpeed(speed) => {
            let speed = to_millionth(speed.to_metres_per_second());
            ("m_per_s", json!(speed))
        }
        Value::Feed(feed) => {
            let feed = to_millionth(feed.to_metres_per_minute());
            ("m_per_min", json!(feed))
        }
        Value::Amount(amount) => {
            let (_, key) = amount.measure().json_names();
            (key, json!(to_millionth(amount.to_base())))
        }
        Value::Count(count) => ("count", json!(count)),
        Value::Number(number) => ("number", json!(to_millionth(*number))),
        Value::Choice(word) => ("choice", json!(word)),
        Value::Truth(truth) => ("truth", json!(truth)),
        Value::Lengths(lengths) => {
            let each = lengths.iter();
            return each
                .map(|length| json!({"kind": "length", "mm": length.to_mm()}))
                .collect();
        }
    };
    json!({"kind": kind_name(value.kind()), key: figure, "shown": shown})
}

/// The name of a kind in JSON.
pub(super) fn kind_name(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => "length",
        Kind::Angle => "angle",
        Kind::Speed => "speed",
        Kind::RimSpeed => "rim-speed",
        Kind::Feed => "feed",
        Kind::Amount(measure) => measure.json_names().0,
        Kind::Count => "count",
        Kind::Number => "number",
        Kind::Choice => "choice",
        Kind::Truth => "truth",
        Kind::Lengths => "lengths",
    }
}

fn json_influence(influence: &Influence) -> Json {
    json!({
        "what": influence.what,
        "origin": influence.origin.word(),
        "factor": to_millionth(influence.factor) + 0.0,
    })
}

fn json_budget(budget: &FitBudget, scale: Scale) -> Json {
    let length = |length: Length| json_value(&Value::Length(length), &fine(length, scale));
    let lines = budget.lines.iter().map(|line| {
        let mut json = json_influence(&line.influence);
        json["error"] = json_value(&line.error, &full(&line.error, scale));
        json["effect"] = length(line.effect);
        json["share"] = to_millionth(line.share).into();
        json
    });
    let first_cut = budget.first_cut.map(|cut| {
        json!({
            "hand_press": to_millionth(cut.press),
            "too_tight": to_millionth(cut.tight),
            "too_loose": to_millionth(cut.loose),
        })
    });
    json!({
        "influences": lines.collect::<Vec<_>>(),
        "largest": budget.largest,
        "worst": length(budget.worst),
        "root_sum_square": length(budget.root_sum_square),
        "hand_press": {"least": length(budget.press.least), "most": length(budget.press.most)},
        "first_cut": first_cut,
    })
}
