//! Blocks to HTML, for paper and screen alike; one template fills all blocks.
//!
//! The template gets plain text and escapes it; the only ready-made parts are the drawings of
//! [`super::figure`], which escape their own texts.

use serde::Serialize;
use tera::Context;

use super::block::Block;
use super::figure::{View, figure};
use super::speech;
use super::templates::Templates;
use crate::diag::Fault;
use crate::procedure::Drawing;
use crate::search::Speech;

/// The one template of all blocks.
const TEMPLATE: &str = "block.html";

/// Makes HTML of what a block holds.
pub(super) type Fill<'f> = dyn FnMut(&Context) -> Result<String, Fault> + 'f;

#[derive(Serialize)]
struct ViewOf {
    title: String,
    says: String,
    svg: String,
    wide: bool,
}

/// The blocks of a page, one after the other.
pub(super) fn blocks(templates: &Templates, list: &[Block]) -> Result<String, Fault> {
    blocks_by(list, &mut |context| templates.fill(TEMPLATE, context))
}

/// The blocks of a page, each filled in by `fill`; a table is named after the heading above it.
pub(super) fn blocks_by(list: &[Block], fill: &mut Fill) -> Result<String, Fault> {
    let mut out = String::new();
    let mut under = "";
    for block in list {
        if let Block::Heading { text, .. } = block {
            under = text;
        }
        let mut context = Context::new();
        context.insert("block", block);
        context.insert("under", under);
        if let Block::Drawing {
            drawing,
            speech,
            beside,
        } = block
        {
            draw(&mut context, drawing, speech, beside.is_some())?;
        }
        if let Block::Live { blocks: inner, .. } | Block::Only { blocks: inner, .. } = block {
            context.insert("inner", &blocks_by(inner, fill)?);
        }
        out.push_str(&fill(&context)?);
    }
    Ok(out)
}

/// The views of a drawing, or its first alone, and its key: letter, words, value, and whether the
/// letter stands in one of those views.
fn draw(
    context: &mut Context,
    drawing: &Drawing,
    spoken: &Speech,
    first: bool,
) -> Result<(), Fault> {
    let figure = speech::figure(figure(drawing)?, spoken);
    let view = |view: View| ViewOf {
        title: view.title,
        says: view.says,
        svg: view.svg,
        wide: view.wide,
    };
    let shown = if first { 1 } else { usize::MAX };
    let shown: Vec<View> = figure.views.into_iter().take(shown).collect();
    let key = figure.key.into_iter().map(|(letter, words, value)| {
        let stands = shown.iter().any(|view| view.letters.contains(&letter));
        (letter, words, value, stands)
    });
    context.insert("key", &key.collect::<Vec<_>>());
    let views: Vec<ViewOf> = shown.into_iter().map(view).collect();
    context.insert("views", &views);
    Ok(())
}
