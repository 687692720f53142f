//! Markdown of notes to HTML.
//!
//! Raw HTML in a note is shown as text, never passed through. Pictures are replaced by their
//! words: a page asks nothing of the network. Links in the shop's own scheme (`procedure:`,
//! `figure:`, `note:`, `caution:`) become addresses of pages and must mean
//! something; `http`,
//! `https`, `mailto` and places on the same page stay; of any other link only the words remain.

use std::borrow::Cow;

use pulldown_cmark::{CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd, html::push_html};

use super::inert::plain;
use super::whole::whole;
use crate::diag::{Code, Fault};
use crate::search::Speech;

/// Before a table: it scrolls by itself where the page is narrow, also by keyboard.
const TABLE: &str = "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Table\">";

/// The HTML of a note in the words of the region, its sources as they were written; `address` knows what a scheme and a name mean here, and its page when it
/// has one.
pub(super) fn note_html(
    markdown: &str,
    speech: &Speech,
    address: &dyn Fn(&str, &str) -> Option<Option<String>>,
) -> Result<String, Fault> {
    let text = plain(markdown);
    let top = top(&text);
    let mut events = Vec::new();
    let mut open = Vec::new();
    let (mut begins, mut cited) = (false, false);
    for event in Parser::new_ext(&text, Options::ENABLE_TABLES) {
        match &event {
            Event::Start(Tag::Paragraph) => (begins, cited) = (true, false),
            Event::Text(text) if begins => {
                (begins, cited) = (false, text.starts_with("Sources:"));
            }
            _ => {}
        }
        match event {
            Event::Text(text) => {
                let said = if cited {
                    Cow::Borrowed(&*text)
                } else {
                    speech.say(&text)
                };
                events.push(Event::Text(whole(&said).into_owned().into()));
            }
            Event::Start(Tag::Table(columns)) => {
                events.push(Event::Html(CowStr::Borrowed(TABLE)));
                events.push(Event::Start(Tag::Table(columns)));
            }
            Event::End(TagEnd::Table) => {
                events.push(Event::End(TagEnd::Table));
                events.push(Event::Html(CowStr::Borrowed("</div>")));
            }
            Event::Html(raw) | Event::InlineHtml(raw) => events.push(Event::Text(raw)),
            Event::Start(Tag::HtmlBlock | Tag::Image { .. })
            | Event::End(TagEnd::HtmlBlock | TagEnd::Image) => {}
            Event::Start(Tag::Link {
                link_type,
                dest_url,
                title,
                id,
            }) => {
                let kept = resolve(&dest_url, address)?;
                open.push(kept.is_some());
                if let Some(address) = kept {
                    events.push(Event::Start(Tag::Link {
                        link_type,
                        dest_url: CowStr::from(address),
                        title,
                        id,
                    }));
                }
            }
            Event::End(TagEnd::Link) => {
                if open.pop() == Some(true) {
                    events.push(Event::End(TagEnd::Link));
                }
            }
            Event::Start(Tag::Heading {
                level,
                classes,
                attrs,
                id,
            }) => events.push(Event::Start(Tag::Heading {
                level: below(level, top),
                classes,
                attrs,
                id,
            })),
            Event::End(TagEnd::Heading(level)) => {
                events.push(Event::End(TagEnd::Heading(below(level, top))));
            }
            other => events.push(other),
        }
    }
    let mut html = String::new();
    push_html(&mut html, events.into_iter());
    Ok(html)
}

/// The address to keep, none for a link that is made inert.
fn resolve(
    link: &str,
    address: &dyn Fn(&str, &str) -> Option<Option<String>>,
) -> Result<Option<String>, Fault> {
    if link.starts_with('#') {
        return Ok(Some(link.to_owned()));
    }
    let Some((scheme, name)) = link.split_once(':') else {
        return Ok(None);
    };
    match scheme {
        "procedure" | "figure" | "note" | "caution" => match address(scheme, name) {
            Some(address) => Ok(address),
            None => {
                let message = format!("the link `{link}` leads nowhere");
                Err(Fault::error(Code::LINK_BROKEN, message)
                    .hint(format!("name a {scheme} that exists")))
            }
        },
        "http" | "https" | "mailto" => Ok(Some(link.to_owned())),
        _ => Ok(None),
    }
}

/// A note's headings stand below the title of its page: the highest that it has becomes the second.
fn below(level: HeadingLevel, top: HeadingLevel) -> HeadingLevel {
    let under = (level as usize).saturating_sub(top as usize);
    HeadingLevel::try_from(2 + under).unwrap_or(HeadingLevel::H6)
}

/// The highest level of heading in a note.
fn top(text: &str) -> HeadingLevel {
    let levels = Parser::new(text).filter_map(|event| match event {
        Event::Start(Tag::Heading { level, .. }) => Some(level),
        _ => None,
    });
    levels.min().unwrap_or(HeadingLevel::H1)
}
