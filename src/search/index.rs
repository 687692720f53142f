//! The index in RAM: built from entries at each start, asked, never stored.
//!
//! One segment, one document an entry, in the order given: a document's number is its entry's
//! place in the list. A procedure that the whole question names comes first: whoever names a joint
//! wants to cut it. Then score, id and kind decide, so that the order never varies. The score is
//! tantivy's BM25 times a factor: any other entry that is named counts 2, a procedure whose names
//! hold all words of the question 1.5, a record 0.8.

use std::collections::BTreeSet;

use tantivy::collector::TopDocs;
use tantivy::directory::RamDirectory;
use tantivy::schema::{Field, IndexRecordOption, Schema, TextFieldIndexing, TextOptions};
use tantivy::{Searcher, TantivyDocument, TantivyError};

use super::analyse::{Analyser, Sort};
use super::hit::context;
use super::query::{HOLDS_ALL, NAMED, Name, Question, RECORD, name, same};
use super::written::Written;
use super::{Entry, EntryKind, Hit, Terms};
use crate::diag::{Code, Fault, nearest};

/// What the writer may take, in bytes; less was no faster.
const MEMORY: usize = 50_000_000;
const ANALYSER: &str = "trade";
/// Most words that are suggested.
const MOST_NEAR: usize = 3;

/// The fields of a document.
pub(super) struct Fields {
    title: Field,
    also: Field,
    summary: Field,
    body: Field,
    /// Words as written, without places.
    pub(super) written: Field,
}

impl Fields {
    /// The fields that are searched, with their weights.
    pub(super) fn weighted(&self) -> [(Field, f32); 4] {
        [
            (self.title, 4.0),
            (self.also, 3.0),
            (self.summary, 2.0),
            (self.body, 1.0),
        ]
    }
}

/// The names of an entry.
pub(super) struct Names {
    /// Its id, title and other names.
    pub(super) whole: Vec<Name>,
    /// Their single words.
    pub(super) words: BTreeSet<String>,
}

/// Everything that can be found.
pub struct Index {
    pub(super) entries: Vec<Entry>,
    pub(super) names: Vec<Names>,
    pub(super) analyser: Analyser,
    pub(super) fields: Fields,
    pub(super) searcher: Searcher,
}

impl Index {
    /// Builds the index of these entries with these terms.
    ///
    /// # Errors
    /// `search-index` when the index cannot be built, such as for want of memory.
    pub fn build(entries: &[Entry], terms: &Terms) -> Result<Self, Fault> {
        let analyser = Analyser::new(terms);
        let (schema, fields) = schema();
        let searcher = fill(entries, &analyser, schema, &fields).map_err(fault)?;
        Ok(Self {
            names: entries
                .iter()
                .map(|entry| names(entry, &analyser))
                .collect(),
            entries: entries.to_vec(),
            analyser,
            fields,
            searcher,
        })
    }

    /// The best answers to what was typed, at most `most`; any text may be typed.
    ///
    /// # Errors
    /// `search-index` when the index cannot be read.
    pub fn find(&self, words: &str, most: usize) -> Result<Vec<Hit>, Fault> {
        self.answers(words, most).map_err(fault)
    }

    /// Words of the pages that come near to what was typed, for when nothing is found.
    ///
    /// # Errors
    /// `search-index` when the index cannot be read.
    pub fn near(&self, words: &str) -> Result<Vec<String>, Fault> {
        let all = self.written().all().map_err(fault)?;
        let mut near: Vec<String> = Vec::new();
        for typed in self
            .analyser
            .written(&words[..words.floor_char_boundary(200)])
        {
            let word = nearest(&typed, all.iter().map(String::as_str));
            let new = word.filter(|word| *word != typed && !near.iter().any(|n| n == word));
            near.extend(new.map(str::to_owned));
        }
        near.truncate(MOST_NEAR);
        Ok(near)
    }

    fn written(&self) -> Written<'_> {
        Written {
            searcher: &self.searcher,
            fields: &self.fields,
        }
    }

    fn answers(&self, typed: &str, most: usize) -> tantivy::Result<Vec<Hit>> {
        let question = Question::new(typed, &self.analyser, &self.written())?;
        if question.is_empty() || self.entries.is_empty() {
            return Ok(Vec::new());
        }
        let all = TopDocs::with_limit(self.entries.len()).order_by_score();
        let found = self
            .searcher
            .search(&question.clauses(&self.fields), &all)?;
        let name = question.name();
        let mut ranked: Vec<(bool, f32, &Entry)> = Vec::new();
        for (score, address) in found {
            let at = address.doc_id as usize;
            if let (Some(entry), Some(names)) = (self.entries.get(at), self.names.get(at)) {
                let is_named = names.whole.iter().any(|whole| same(whole, &name));
                let is_first = is_named && entry.kind == EntryKind::Procedure;
                let factor = factor(entry.kind, is_named, names, &question);
                ranked.push((is_first, score * factor, entry));
            }
        }
        ranked.sort_by(|(first, score, entry), (other_first, other_score, other)| {
            other_first
                .cmp(first)
                .then(other_score.total_cmp(score))
                .then_with(|| (&entry.id, entry.kind).cmp(&(&other.id, other.kind)))
        });
        let marks = question.marks();
        let hit = |(_, score, entry): (bool, f32, &Entry)| Hit {
            kind: entry.kind,
            id: entry.id.clone(),
            title: entry.title.clone(),
            context: context(entry, &marks, &self.analyser),
            next: entry.next.clone(),
            score,
        };
        Ok(ranked.into_iter().take(most).map(hit).collect())
    }
}

fn factor(kind: EntryKind, is_named: bool, names: &Names, question: &Question) -> f32 {
    let holds_all = || question.plain().all(|word| names.words.contains(word));
    match kind {
        EntryKind::Record => RECORD,
        _ if is_named => NAMED,
        EntryKind::Procedure if holds_all() => HOLDS_ALL,
        _ => 1.0,
    }
}

fn names(entry: &Entry, analyser: &Analyser) -> Names {
    let mut names = Names {
        whole: Vec::new(),
        words: BTreeSet::new(),
    };
    for text in [&entry.id, &entry.title].into_iter().chain(&entry.also) {
        let words = analyser.words(text);
        names.whole.push(name(&words));
        let plain = words.into_iter().filter(|word| word.sort == Sort::Plain);
        names.words.extend(plain.map(|word| word.text));
    }
    names
}

/// Names get no penalty for their length: a long title is no worse.
pub(super) fn schema() -> (Schema, Fields) {
    let options = |tokenizer: &str, norms: bool, record: IndexRecordOption| {
        TextOptions::default().set_indexing_options(
            TextFieldIndexing::default()
                .set_tokenizer(tokenizer)
                .set_fieldnorms(norms)
                .set_index_option(record),
        )
    };
    let name = options(ANALYSER, false, IndexRecordOption::WithFreqsAndPositions);
    let text = options(ANALYSER, true, IndexRecordOption::WithFreqsAndPositions);
    let written = options("whitespace", false, IndexRecordOption::Basic);
    let mut schema = Schema::builder();
    let fields = Fields {
        title: schema.add_text_field("title", name.clone()),
        also: schema.add_text_field("also", name),
        summary: schema.add_text_field("summary", text.clone()),
        body: schema.add_text_field("body", text),
        written: schema.add_text_field("written", written),
    };
    (schema.build(), fields)
}

fn fill(
    entries: &[Entry],
    analyser: &Analyser,
    schema: Schema,
    fields: &Fields,
) -> tantivy::Result<Searcher> {
    let tokenizers = tantivy::tokenizer::TokenizerManager::default();
    tokenizers.register(ANALYSER, analyser.clone());
    let mut writer = tantivy::Index::builder()
        .schema(schema)
        .tokenizers(tokenizers)
        .single_segment_index_writer(RamDirectory::create(), MEMORY)?;
    for entry in entries {
        let mut document = TantivyDocument::default();
        document.add_text(fields.title, &entry.title);
        document.add_text(fields.also, entry.id.replace('-', " "));
        document.add_text(fields.summary, &entry.summary);
        for (field, texts) in [(fields.also, &entry.also), (fields.body, &entry.body)] {
            for text in texts {
                document.add_text(field, text);
            }
        }
        let texts = [&entry.title, &entry.summary].into_iter();
        for text in texts.chain(&entry.also).chain(&entry.body) {
            document.add_text(fields.written, analyser.written(text).join(" "));
        }
        writer.add_document(document)?;
    }
    Ok(writer.finalize()?.reader()?.searcher())
}

/// What went wrong in the index as a fault of ours.
pub(super) fn fault(error: TantivyError) -> Fault {
    Fault::error(
        Code::SEARCH_INDEX,
        format!("the search index fails: {error}"),
    )
    .hint("nothing on disk is touched; try again, and report it if it stays")
}
