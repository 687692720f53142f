//! `faceside start [DIR]`: a new shop folder with a first procedure and a first job.

use serde_json::json;

use super::args::{Common, Start};
use super::output::Output;
use super::{End, Stop};
use crate::store::start_shop;

/// What to type next, and what it does.
const NEXT: [(&str, &str); 4] = [
    ("faceside check", "is everything in order?"),
    ("faceside check --watch", "the same again at each change"),
    ("faceside print", "the sheets of the first job"),
    (
        "faceside search groove",
        "the first procedure among all others",
    ),
];

/// Makes a new shop.
pub(super) fn start(typed: &Start, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let files = start_shop(&typed.folder)?;
    let folder = typed.folder.display().to_string();
    let files = files.iter().map(|path| path.display().to_string());
    if common.json {
        let (files, next) = (files.collect::<Vec<_>>(), NEXT.map(|(command, _)| command));
        let answer = json!({"version": 1, "folder": folder, "files": files, "next": next});
        out.say(&format!("{answer:#}"));
        return Ok(End::Done);
    }
    let mut lines = vec![format!("A new shop in {folder}:")];
    lines.extend(files.map(|path| format!("  {path}")));
    lines.push(String::new());
    lines.push("Next:".to_owned());
    if folder != "." {
        lines.push(format!("  cd {folder}"));
    }
    lines.extend(NEXT.map(|(command, what)| format!("  {command:<24}{what}")));
    lines.push(String::new());
    lines.push(
        "Then open procedures/first-procedure.yaml: its comments tell what to change and what \
         follows.\nEnter your own machines and cutters before you cut anything: their figures \
         decide what the sheets say."
            .to_owned(),
    );
    out.say(&lines.join("\n"));
    Ok(End::Done)
}
