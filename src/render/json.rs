//! A job's sheets as JSON, version 1: the same content as the paper, cautions inside their steps.

use serde_json::{Value as Json, json};

use crate::caution::Caution;
use crate::jobs::{Checklist, Sheets};
use crate::procedure::{FilledCheck, FilledStep, Setting, plain};
use crate::units::Value;

/// The whole job.
pub fn sheets_json(sheets: &Sheets) -> Json {
    json!({
        "version": 1,
        "job": sheets.job,
        "title": sheets.title,
        "shop": sheets.shop,
        "date": sheets.date,
        "hash": sheets.hash,
        "limits": sheets.limits.long,
        "minutes": sheets.minutes,
        "ready": sheets.ready.iter().map(|(head, items)| json!({"what": head, "items": items}))
            .collect::<Vec<_>>(),
        "cutting_list": sheets.cutting_list.iter().map(|one| json!({
            "part": one.part, "pieces": one.pieces, "sizes": one.sizes,
        })).collect::<Vec<_>>(),
        "checklists": sheets.checklists.iter().map(checklist).collect::<Vec<_>>(),
    })
}

fn checklist(one: &Checklist) -> Json {
    let (id, title, revision) = &one.procedure;
    let set_up = &one.set_up;
    json!({
        "number": one.number,
        "procedure": {"id": id, "title": title, "revision": revision},
        "title": set_up.title,
        "machine": set_up.machine.as_ref().map(|(id, _)| id),
        "operation": set_up.operation,
        "cutter": set_up.cutter.as_ref().map(|cutter| &cutter.id),
        "pieces": one.pieces.iter().map(|piece| piece.label()).collect::<Vec<_>>(),
        "after": one.after,
        "changes": one.changes,
        "minutes": one.minutes,
        "holder": set_up.holder.as_ref().map(|holder| plain(holder)),
        "settings": set_up.settings.iter().map(setting).collect::<Vec<_>>(),
        "standing": set_up.standing.iter().map(caution).collect::<Vec<_>>(),
        "steps": set_up.steps.iter().map(step).collect::<Vec<_>>(),
        "warnings": one.warnings,
        "notes": one.notes,
        "history": one.history,
        "close": one.close,
    })
}

fn setting(setting: &Setting) -> Json {
    json!({
        "name": setting.name,
        "label": setting.label,
        "shown": setting.shown,
        "rounding": setting.rounding,
        "mm": match &setting.value {
            Value::Length(length) => Some(length.to_mm()),
            _ => None,
        },
    })
}

fn step(step: &FilledStep) -> Json {
    json!({
        "cautions": step.cautions().iter().map(caution).collect::<Vec<_>>(),
        "do": plain(&step.act),
        "after": step.after.iter().map(|(mark, text)| json!({
            "is": mark.word(), "text": plain(text),
        })).collect::<Vec<_>>(),
        "keys": step.keys.iter().map(|key| plain(key)).collect::<Vec<_>>(),
        "why": plain(&step.why),
        "check": step.check.as_ref().map(check),
    })
}

fn check(check: &FilledCheck) -> Json {
    json!({
        "measure": plain(&check.measure),
        "wanted": check.wanted,
        "low": check.low_shown,
        "high": check.high_shown,
        "low_mm": check.low.to_mm(),
        "high_mm": check.high.to_mm(),
        "tool": check.tool,
        "if_low": plain(&check.if_low),
        "if_high": plain(&check.if_high),
    })
}

fn caution(caution: &Caution) -> Json {
    json!({
        "id": caution.id(),
        "kind": caution.kind().name(),
        "signal": caution.signal().name(),
        "hazard": caution.hazard(),
        "harm": caution.harm(),
        "avoid": caution.avoid(),
        "brief": caution.brief(),
        "sources": caution.sources().iter().map(|source| &source.text).collect::<Vec<_>>(),
    })
}
