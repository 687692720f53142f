//! `faceside figure CALCULATOR name=value...`: one calculation, its limits and what each input
//! does to the fit.
//!
//! No name: the list. A name without values: what it takes and gives. No cutter: those of the
//! drawer that can make the cut. `--rows`: one calculation for each row of a CSV. Exit code 1 on a
//! refusal, 2 when a name or a value cannot be read.

use super::args::{Common, Figure};
use super::figure_cutters::{is_wanted, propose};
use super::figure_name::find;
use super::figure_rows::rows;
use super::figure_values::typed_values;
use super::open::open;
use super::output::Output;
use super::{End, Stop};
use crate::joints::{self, FitBudget, Stopped};
use crate::render::worked;

/// Answers one calculation, or one for each row.
pub(super) fn figure(typed: &Figure, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let Some(name) = &typed.calculator else {
        say(common, out, worked::list, worked::json_list);
        return Ok(End::Done);
    };
    let calculator = find(name, common).map_err(Stop::Usage)?;
    if typed.values.is_empty() && !typed.rows && !typed.cutters {
        let (text, json) = (worked::explain, worked::json_explain);
        say(common, out, || text(calculator), || json(calculator));
        return Ok(End::Done);
    }
    let workshop = open(common, out)?;
    let unit = workshop.shop.units;
    let drawer = workshop.place().cutters;
    let values = typed_values(calculator, &typed.values, drawer, unit).map_err(Stop::Usage)?;
    if typed.rows {
        return rows(calculator, &values, &workshop, common, out);
    }
    if is_wanted(calculator, &values, typed) {
        let proposal = propose(calculator, &values, typed, &workshop).map_err(Stop::Usage)?;
        let text = || worked::cutters(calculator, &proposal);
        let json = || worked::json_cutters(calculator, &proposal);
        say(common, out, text, json);
        return Ok(match proposal.choice.fit.is_empty() {
            true => End::Findings,
            false => End::Done,
        });
    }
    let scale = workshop.shop.scale();
    match joints::work_out(calculator, &values) {
        Ok(answer) => {
            let shop = (&workshop.shop, workshop.machines.as_slice());
            let budget = FitBudget::in_shop(calculator, &answer, shop);
            let text = || worked::table(calculator, &answer, budget.as_ref(), scale);
            let json = || worked::json(calculator, &answer, budget.as_ref(), scale);
            say(common, out, text, json);
            Ok(End::Done)
        }
        Err(Stopped::Refused(refusal)) => {
            let text = || worked::refused(calculator, &refusal);
            let json = || worked::json_refused(calculator, &refusal);
            say(common, out, text, json);
            Ok(End::Findings)
        }
        Err(Stopped::Fault(fault)) => Err(Stop::Usage(fault)),
    }
}

fn say(
    common: &Common,
    out: &mut Output,
    text: impl FnOnce() -> String,
    json: impl FnOnce() -> serde_json::Value,
) {
    if common.json {
        out.say(&format!("{:#}", json()));
    } else {
        out.say(&text());
    }
}
