//! Cutters of the drawer for one cut, best first, as text and as JSON.

use serde_json::{Value as Json, json};

use super::super::layout::{items, paragraph, section, table, wrapped};
use crate::joints::{Calculator, Choice, reasons};

/// So many are told in words; JSON has all.
const MOST: usize = 6;

/// What a drawer has for a cut.
#[derive(Debug)]
pub struct Proposal<'c> {
    /// Those that can make it and those that cannot.
    pub choice: Choice<'c>,
    /// What to buy where none can; none where nothing that is sold can either.
    pub buy: Option<String>,
    /// What to type next, with the best of them.
    pub next: Option<String>,
}

/// The cutters that can make the cut, best first and with reasons; why the others cannot; what to
/// buy when none can.
pub fn cutters(calculator: &Calculator, proposal: &Proposal<'_>) -> String {
    let fit = proposal.choice.fit.iter().zip(1..).take(MOST);
    let fit = fit.map(|(candidate, place)| {
        let lines = candidate.cutters.iter().map(|cutter| {
            let reasons = reasons(cutter, candidate.effort);
            format!("{} ({}): {reasons}", cutter.name, cutter.id)
        });
        ([format!("{place}.")], lines.collect())
    });
    let more = proposal.choice.fit.len().saturating_sub(MOST);
    let more = match more {
        0 => String::new(),
        more => paragraph(&format!("and {more} more")),
    };
    let unfit = proposal.choice.unfit.iter();
    let unfit: Vec<_> = unfit.map(|(name, why)| format!("{name}: {why}")).collect();
    let can = match proposal.choice.fit.len() {
        0 => "no cutter in the drawer can make this cut".to_owned(),
        _ => "cutters in the drawer that can make this cut, best first".to_owned(),
    };
    let buy = match (&proposal.buy, proposal.choice.fit.is_empty()) {
        (Some(buy), true) => paragraph(buy),
        (None, true) => paragraph("No usual size can make it either."),
        (_, false) => String::new(),
    };
    let next = proposal.next.iter().map(|next| format!("\nnext: {next}\n"));
    [
        wrapped(&format!("{}: {can}", calculator.name), "", "  "),
        if proposal.choice.fit.is_empty() {
            String::new()
        } else {
            format!("\n{}{more}", table(fit))
        },
        section("Cannot", &items(&unfit)),
        section("Instead", &buy),
        next.collect(),
    ]
    .concat()
}

/// The same as JSON: `calculator`, and under `cutters` what fits, what does not and why, what to
/// buy.
pub fn json_cutters(calculator: &Calculator, proposal: &Proposal<'_>) -> Json {
    let fit = proposal.choice.fit.iter().map(|candidate| {
        let cutters = candidate.cutters.iter();
        let cutters = cutters.map(|cutter| {
            json!({"id": cutter.id, "name": cutter.name, "reasons": reasons(cutter, candidate.effort)})
        });
        json!({
            "cutters": cutters.collect::<Vec<_>>(),
            "passes": candidate.effort.passes,
            "warnings": candidate.answer.worked.warnings,
        })
    });
    let unfit = proposal.choice.unfit.iter();
    let unfit = unfit.map(|(name, why)| json!({"name": name, "why": why}));
    json!({
        "calculator": calculator.name,
        "cutters": {
            "fit": fit.collect::<Vec<_>>(),
            "unfit": unfit.collect::<Vec<_>>(),
            "buy": proposal.buy,
        },
    })
}
