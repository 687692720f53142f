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

#[derive(Serialize)]
struct ViewOf {
    title: String,
    says: String,
    svg: String,
}

/// The blocks of a page, one after the other.
pub(super) fn blocks(templates: &Templates, blocks: &[Block]) -> Result<String, Fault> {
    let mut out = String::new();
    for context in contexts(blocks) {
        out.push_str(&templates.fill(TEMPLATE, &context?)?);
    }
    Ok(out)
}

/// What the template is filled with for each block; a table is named after the heading above it.
pub(super) fn contexts(blocks: &[Block]) -> impl Iterator<Item = Result<Context, Fault>> {
    let mut under = "";
    blocks.iter().map(move |block| {
        if let Block::Heading { text, .. } = block {
            under = text;
        }
        let mut context = Context::new();
        context.insert("block", block);
        context.insert("under", under);
        if let Block::Drawing { drawing, speech } = block {
            draw(&mut context, drawing, speech)?;
        }
        Ok(context)
    })
}

fn draw(context: &mut Context, drawing: &Drawing, spoken: &Speech) -> Result<(), Fault> {
    let figure = speech::figure(figure(drawing)?, spoken);
    let view = |view: View| ViewOf {
        title: view.title,
        says: view.says,
        svg: view.svg,
    };
    let views: Vec<ViewOf> = figure.views.into_iter().map(view).collect();
    context.insert("views", &views);
    context.insert("key", &figure.key);
    Ok(())
}
