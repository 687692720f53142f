//! A procedure file as it is written: names and texts, nothing looked up yet.
//!
//! The doc comments of the structs and fields are the description of the format: the schema for
//! editors and the page "Writing a procedure" are made from them (`schema.rs`, `format.rs`), so
//! they speak to the writer of a file.

use std::fmt;
use std::marker::PhantomData;

use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, MapAccess, SeqAccess, Visitor};

use super::schema::{Choices, Does, Figure, Guides, Id, Kinds, OneOf, Shapes, YesNo};
use crate::yaml::Ordered;

/// A text, a list of texts, or the word `none` for a list that is empty on purpose.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Listed {
    pub(super) texts: Vec<String>,
    /// Whether it was written as a list, so that an item has a place of its own.
    pub(super) is_list: bool,
}

impl<'de> Deserialize<'de> for Listed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;

        impl<'de> Visitor<'de> for Either {
            type Value = Listed;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("a text, a list of texts, or the word none")
            }

            fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Listed, E> {
                let texts = if text == "none" {
                    Vec::new()
                } else {
                    vec![text.to_owned()]
                };
                Ok(Listed {
                    texts,
                    is_list: false,
                })
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Listed, A::Error> {
                let mut texts = Vec::new();
                while let Some(text) = items.next_element()? {
                    texts.push(text);
                }
                Ok(Listed {
                    texts,
                    is_list: true,
                })
            }
        }

        deserializer.deserialize_any(Either)
    }
}

/// A mapping, or the word `none` for one that is empty on purpose.
#[derive(Debug)]
pub(super) struct OrNone<T>(pub(super) T);

impl<'de, T: Deserialize<'de> + Default> Deserialize<'de> for OrNone<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either<T>(PhantomData<T>);

        impl<'de, T: Deserialize<'de> + Default> Visitor<'de> for Either<T> {
            type Value = OrNone<T>;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("a mapping of names, or the word none")
            }

            fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<OrNone<T>, E> {
                if text == "none" {
                    return Ok(OrNone(T::default()));
                }
                Err(E::invalid_value(serde::de::Unexpected::Str(text), &self))
            }

            fn visit_map<A: MapAccess<'de>>(self, entries: A) -> Result<OrNone<T>, A::Error> {
                T::deserialize(MapAccessDeserializer::new(entries)).map(OrNone)
            }
        }

        deserializer.deserialize_any(Either(PhantomData))
    }
}

/// A procedure: one file, one piece of work from measured stock to a machine left safe.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "procedure")]
pub(super) struct RawProcedure {
    /// Its id, by which jobs, notes and other procedures call it: small letters and digits, words
    /// joined by hyphens. The id of a built-in procedure replaces that one.
    #[schemars(with = "Id")]
    pub(super) procedure: String,
    /// Its heading.
    pub(super) title: String,
    /// Other names that people look for, those of the other side of the Atlantic among them.
    #[serde(default)]
    pub(super) also_called: Vec<String>,
    /// The group that it is listed under: `housings`.
    pub(super) family: String,
    /// What the work is for, in one sentence.
    pub(super) purpose: String,
    /// When to take this procedure and not another.
    pub(super) use_when: String,
    /// What it does not do, each with what to take in its place.
    #[serde(default)]
    pub(super) not_for: Vec<String>,
    /// Ids of procedures that an apprentice learns first.
    #[serde(default)]
    #[schemars(with = "Vec<Id>")]
    pub(super) after: Vec<String>,
    /// Number of the revision, one higher after each change that counts; printed on every sheet.
    pub(super) revision: u32,
    /// Day on which somebody last read the whole: `2026-11-25`.
    #[schemars(extend("pattern" = r"^\d{4}-\d{2}-\d{2}$"))]
    pub(super) reviewed: String,
    /// The end, written first: how anyone sees that the work is done.
    pub(super) done_when: String,
    /// Where its rules come from, each with how well it is known: `(read)`, `(derived)`, `from
    /// memory`, or `common practice, no source`.
    #[schemars(length(min = 1))]
    pub(super) sources: Vec<String>,
    /// What is measured, by names that stand in formulas and in texts between braces; or `none`
    /// where nothing is.
    pub(super) measure: OrNone<Ordered<RawMeasure>>,
    /// What is chosen, by names: cutters, shares, one of several ways.
    #[serde(default)]
    pub(super) choose: Ordered<RawChoose>,
    /// What is worked out, a formula a name, in order: a later one may use an earlier one, and a
    /// calculator by its name with named inputs.
    #[serde(default)]
    #[schemars(with = "Ordered<Figure>")]
    pub(super) work_out: Ordered<String>,
    /// When the work is refused.
    #[serde(default)]
    pub(super) refuse: Vec<RawRefuse>,
    /// When the sheet warns and goes on.
    #[serde(default)]
    pub(super) warn: Vec<RawWarn>,
    /// Finished sizes for the cutting list.
    #[serde(default)]
    pub(super) sizes: Vec<RawSize>,
    /// The drawing: its `shape`, and a formula for each of its lengths and angles.
    #[schemars(with = "Option<Ordered<Figure>>")]
    pub(super) drawing: Option<Ordered<String>>,
    /// What must be ready before anyone begins.
    pub(super) ready: RawReady,
    /// The work, set-up by set-up, in the order of a careful maker.
    #[schemars(length(min = 1))]
    pub(super) set_ups: Vec<RawSetUp>,
    /// What goes wrong with this work.
    pub(super) faults: Vec<RawTrouble>,
    /// What is true when the work is left.
    pub(super) close: RawClose,
    /// Warnings of `faceside check` that hold here all the same.
    #[serde(default)]
    pub(super) accept: Vec<RawAccept>,
}

/// An entry under `accept`: a warning that holds here all the same.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "accept")]
pub(super) struct RawAccept {
    /// The code in brackets at the head of the warning: `step-long`. An error cannot be accepted.
    pub(super) code: String,
    /// Why it holds here.
    pub(super) because: String,
}

/// Under `ready`: what must be there before anyone begins. Each is a text, a list of texts, or
/// `none`; all six are asked for, so that none is forgotten.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "ready")]
pub(super) struct RawReady {
    /// How many, and when a helper is needed.
    pub(super) people: Listed,
    /// Measuring and hand tools; every tool that a `check` reads with stands here.
    pub(super) tools: Listed,
    /// Guards and extraction.
    pub(super) guards: Listed,
    /// Push-blocks, featherboards, sleds, stops, cramps.
    pub(super) aids: Listed,
    /// Glue, paper, wax.
    pub(super) supplies: Listed,
    /// Test pieces, with their sizes in slots.
    pub(super) pieces: Listed,
}

/// Under `close`: what is true when the work is left. Each is a text, a list of texts, or `none`.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "close")]
pub(super) struct RawClose {
    /// The machine: isolated, tables and fences back.
    pub(super) machine: Listed,
    /// The cutters: out, wiped, in their place.
    pub(super) cutters: Listed,
    /// The guards: back on.
    pub(super) guards: Listed,
    /// The place: records written, floor swept, test pieces kept.
    pub(super) place: Listed,
}

/// An entry under `measure`: something that is measured on today's stock, or during the job.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "measure")]
pub(super) struct RawMeasure {
    /// The question: where, how often, and which reading counts.
    pub(super) ask: String,
    /// What sort of value it is.
    #[schemars(with = "OneOf<Kinds>")]
    pub(super) kind: String,
    /// The least that is taken, with its unit; less is refused.
    #[schemars(with = "Option<Figure>")]
    pub(super) from: Option<String>,
    /// The most that is taken, with its unit; more is refused.
    #[schemars(with = "Option<Figure>")]
    pub(super) to: Option<String>,
    /// A value with its unit, from which the page of the procedure is filled; needed unless there
    /// is `later`.
    #[schemars(with = "Option<Figure>")]
    pub(super) example: Option<String>,
    /// For what is measured after a cut: the formula of the value that is planned until then.
    #[schemars(with = "Option<Figure>")]
    pub(super) later: Option<String>,
}

/// An entry under `choose`: a cutter, a quantity, or one of several words.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "choose")]
pub(super) struct RawChoose {
    /// What is to be chosen, and by what.
    pub(super) ask: String,
    /// `cutter`, `choice`, or the sort of a quantity.
    #[schemars(with = "OneOf<Choices>")]
    pub(super) kind: String,
    /// For a cutter: its shape.
    #[schemars(with = "Option<OneOf<Shapes>>")]
    pub(super) shape: Option<String>,
    /// For a cutter: a condition that it must meet, as a formula; the best of the drawer that
    /// meets it is taken when the job names none.
    #[schemars(with = "Option<Figure>")]
    pub(super) fits: Option<String>,
    /// For a choice: the words, two or more.
    #[serde(default)]
    #[schemars(with = "Vec<Figure>")]
    pub(super) options: Vec<String>,
    /// For a quantity: the least.
    #[schemars(with = "Option<Figure>")]
    pub(super) from: Option<String>,
    /// For a quantity: the most.
    #[schemars(with = "Option<Figure>")]
    pub(super) to: Option<String>,
    /// What holds when the job says nothing.
    #[schemars(with = "Option<Figure>")]
    pub(super) usual: Option<String>,
    /// What the page of the procedure is filled from; for a cutter the id of one in the drawer.
    #[schemars(with = "Option<Figure>")]
    pub(super) example: Option<String>,
}

/// An entry under `refuse`: when the work is not done, and what is done instead.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "refuse")]
pub(super) struct RawRefuse {
    /// The condition, as a formula: `depth > side / 2`.
    #[schemars(with = "Figure")]
    pub(super) when: String,
    /// What is wrong, with the figures in slots.
    pub(super) say: String,
    /// What to do instead.
    pub(super) instead: String,
}

/// An entry under `warn`: when the sheet says so and goes on.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "warn")]
pub(super) struct RawWarn {
    /// The condition, as a formula.
    #[schemars(with = "Figure")]
    pub(super) when: String,
    /// What the sheet says then.
    pub(super) say: String,
}

/// An entry under `sizes`: a finished size.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "size")]
pub(super) struct RawSize {
    /// What it is the size of.
    pub(super) what: String,
    /// The formula of a length or a number of pieces.
    #[schemars(with = "Figure")]
    pub(super) is: String,
}

/// An entry under `set_ups`: one machine, one cutter, one group of settings, and the steps done
/// with them. It stands on its own, since other work may come between two of them: it isolates the
/// machine before it adjusts, and puts back a guard that it took off.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "set_up")]
pub(super) struct RawSetUp {
    /// What is done, as the heading of its sheet.
    pub(super) set_up: String,
    /// Kind of the machine, as in machines.yaml: `router-table`. Left out at the bench.
    pub(super) machine: Option<String>,
    /// What the machine does: `through-groove`; `setting` where it cuts nothing. At the bench
    /// `chisel-plane-saw`, `glue-up` or `finish`. Machine and operation decide the cautions.
    pub(super) operation: String,
    /// The name under `choose` of its cutter.
    pub(super) cutter: Option<String>,
    /// A condition, as a formula: the set-up stands only where it holds.
    #[schemars(with = "Option<Figure>")]
    pub(super) when: Option<String>,
    /// The size of the piece as it passes the machine; needed where a step cuts.
    pub(super) piece: Option<RawPiece>,
    /// Whether the cut leaves a loose strip between cutter and fence: `yes`, `no`, or a formula.
    #[schemars(with = "Option<Figure>")]
    pub(super) leaves_strip: Option<String>,
    /// What holds a piece that is shorter along the feed than the shop's `short_piece`. Without it
    /// such a piece is refused.
    pub(super) holder: Option<String>,
    /// How the work is guided past the tool, for the plan view of the machine: along the `fence`
    /// itself; by a `sled` behind it or a `carrier` round it that runs along the fence, the work
    /// across; in a `jig` between two stops, the cutter covered at both ends of the way; by a mitre
    /// `gauge` or sled in the slots of the table; upright on a `carriage`; `cramped` to the machine;
    /// by `rollers`; `freehand`, along a line or under push-blocks; cramped to the bench while the
    /// machine runs along a `straightedge`, between guide `boards`, in the `slot` of a jig, or by its
    /// own `edge-guide`. Without it there is no plan view.
    #[schemars(with = "Option<OneOf<Guides>>")]
    pub(super) guided: Option<String>,
    /// The face that lies on the table, as it is called in the shop: `face side`, `back`, `inside
    /// face`. The plan view shows it. Left out where pieces lie differently.
    pub(super) down: Option<String>,
    /// The face, edge or end that bears on fence, gauge or carriage: `face side`, `face edge`,
    /// `end`. The plan view shows it.
    pub(super) to_guide: Option<String>,
    /// Lengths of the plan view that are no settings, by their names there: `rest`, from the fence to
    /// the work where packing or a plate stands between. One of nothing is left out.
    #[serde(default)]
    #[schemars(with = "Ordered<Figure>")]
    pub(super) drawn: Ordered<String>,
    /// What the machine is set to, by names: `height`, `fence`, `speed`. The steps and routines
    /// name them in slots: `{set.fence}`.
    #[serde(default)]
    pub(super) settings: Ordered<RawSetting>,
    /// A table of the settings for other readings of something measured during the job.
    pub(super) table: Option<RawTable>,
    /// The steps in order.
    #[schemars(length(min = 1))]
    pub(super) steps: Vec<RawStep>,
}

/// Under `piece`: its size as it passes the machine, as formulas.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "piece")]
pub(super) struct RawPiece {
    /// Along the feed.
    #[schemars(with = "Figure")]
    pub(super) length: String,
    /// Across the feed.
    #[schemars(with = "Figure")]
    pub(super) width: String,
    /// Off the table.
    #[schemars(with = "Figure")]
    pub(super) thickness: String,
}

/// An entry under `settings`: one thing that the machine is set to.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "setting")]
pub(super) struct RawSetting {
    /// What is set, measured from where: `Fence face to the axis of the cutter`.
    pub(super) label: String,
    /// Its formula. A length is a calculator's result or ends in `down_to`, `up_to` or
    /// `nearest_to` a step of the machine.
    #[schemars(with = "Figure")]
    pub(super) is: String,
}

/// Under `table`: settings for other readings of a value measured during the job.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "table")]
pub(super) struct RawTable {
    /// The name under `measure`, one with `later`.
    pub(super) vary: String,
    /// From row to row, with its unit: `0.05 mm`.
    #[schemars(with = "Figure")]
    pub(super) by: String,
    /// Rows on either side of the planned one.
    #[schemars(range(min = 1, max = 5))]
    pub(super) rows: u32,
}

/// An entry under `steps`: one act. Or `use` alone, which stands for the steps of a routine.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(
    rename = "step",
    extend("oneOf" = [
        {"required": ["use"], "maxProperties": 1},
        {"required": ["do"], "properties": {"use": false}},
    ])
)]
pub(super) struct RawStep {
    /// The id of a routine of routines.yaml, alone in its step: `- use: fit-cutter`.
    #[serde(rename = "use")]
    #[schemars(with = "Option<Id>")]
    pub(super) routine: Option<String>,
    /// A condition, as a formula: the step stands only where it holds.
    #[schemars(with = "Option<Figure>")]
    pub(super) when: Option<String>,
    /// A condition that is seen at the machine, printed before the act: `another cutter is in the
    /// collet`.
    #[serde(rename = "if")]
    pub(super) only_if: Option<String>,
    /// The act: one only, verb first, at most 20 words.
    #[serde(rename = "do")]
    pub(super) act: Option<String>,
    /// What is done when `if` does not hold.
    pub(super) otherwise: Option<String>,
    /// Two or more ways to do the act, the usual one first.
    #[serde(default)]
    pub(super) one_of: Vec<String>,
    /// The step is done again until this is so.
    pub(super) until: Option<String>,
    /// How long, with its unit: `60 min in the cramps`.
    pub(super) timed: Option<String>,
    /// What must be so before anyone goes on; printed with a line to sign.
    pub(super) hold: Option<String>,
    /// Who does it, when not the person of the sheet.
    pub(super) who: Option<String>,
    /// What sort of act it is; cautions are put before it by this word.
    #[schemars(with = "Option<OneOf<Does>>")]
    pub(super) does: Option<String>,
    /// `no` for a cut in a test piece: other cuts get a box for each piece.
    #[schemars(with = "Option<OneOf<YesNo>>")]
    pub(super) each: Option<String>,
    /// What makes or breaks the step: one text or a list.
    #[serde(default)]
    pub(super) key: Listed,
    /// The reason, for teaching; not printed on the checklist.
    pub(super) why: Option<String>,
    /// What is measured after the act, and what to do with it.
    pub(super) check: Option<RawCheck>,
}

impl RawStep {
    /// Whether nothing but `use` was written.
    pub(super) fn is_use_alone(&self) -> bool {
        let texts = [&self.when, &self.only_if, &self.act, &self.otherwise];
        let more = [&self.until, &self.timed, &self.hold, &self.who];
        let last = [&self.does, &self.each, &self.why];
        let none = |texts: &[&Option<String>]| texts.iter().all(|text| text.is_none());
        let lists = self.one_of.is_empty() && self.key.texts.is_empty();
        none(&texts) && none(&more) && none(&last) && lists && self.check.is_none()
    }
}

/// A run of steps that several procedures share.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawRoutine {
    /// Its id, by which steps use it.
    pub(super) routine: String,
    /// What is so when its steps are done.
    pub(super) what: String,
    /// The steps, with slots `{set.NAME}` for the settings of the set-up that uses them.
    pub(super) steps: Vec<RawStep>,
}

/// Under `check`: a reading after a step, with its limits and what to do beyond them.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "check")]
pub(super) struct RawCheck {
    /// What is measured, from where to where.
    pub(super) measure: String,
    /// The value that is wanted, as a formula.
    #[schemars(with = "Figure")]
    pub(super) is: String,
    /// The lowest that is good.
    #[schemars(with = "Figure")]
    pub(super) low: String,
    /// The highest that is good.
    #[schemars(with = "Figure")]
    pub(super) high: String,
    /// The measuring tool, as in shop.yaml.
    pub(super) tool: String,
    /// The setting that moves the value, for `faceside fit`; left out where no setting does.
    pub(super) moved_by: Option<RawMovedBy>,
    /// What to do when the reading is lower.
    pub(super) if_low: String,
    /// What to do when the reading is higher.
    pub(super) if_high: String,
}

/// Under `moved_by`: which setting of the set-up moves the value that is measured, and how.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "moved_by")]
pub(super) struct RawMovedBy {
    /// The setting, by its name under `settings`.
    pub(super) setting: String,
    /// How much the value grows when the figure of the setting grows by one: `1`, `-1` where it
    /// shrinks, `2` or `-2` where two walls are cut with the piece turned.
    pub(super) each: f64,
    /// On which side wood is still on, so that the same piece can be cut again: `low` for an
    /// opening, `high` for what enters. Left out for a place, where each try takes a fresh piece.
    pub(super) wood: Option<RawWood>,
    /// The fit of the shop, `hand_press` or `sliding`, that the joint has at the wanted value, so
    /// that trying it in its mate tells as much as a reading. Left out where that tells nothing.
    pub(super) fit: Option<String>,
}

/// The side on which wood is still on.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub(super) enum RawWood {
    /// A reading that is low can still be cut larger.
    Low,
    /// A reading that is high can still be cut smaller.
    High,
}

/// An entry under `faults`: something that goes wrong.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "fault")]
pub(super) struct RawTrouble {
    /// What is seen.
    pub(super) see: String,
    /// Why it comes.
    pub(super) cause: String,
    /// What to do.
    pub(super) cure: String,
}
