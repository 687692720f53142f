//! One set-up filled: its machine, cutter and settings, the cautions that the book gives for it,
//! its steps behind them, and the table for other readings.

use super::Does;
use super::fill::{Filler, Set, no_machine, runs};
use super::filled::{
    Drawing, FilledCheck, FilledSetUp, FilledStep, Mark, PieceSize, Plan, Run, RunCutter, RunTable,
    Setting, plain,
};
use super::model::{Check, SetUp, Step, Table};
use super::pause::Pauses;
use super::plan_view::{Bench, plan_view};
use super::show::show;
use super::text::Text;
use super::values::{Named, caliper, truth};
use super::workplace::machine_kind;
use crate::caution::{Caution, CautionKind, Selected, Stands};
use crate::diag::{Code, Fault, Faults, Span};
use crate::formula::{Formula, Outcome, Values};
use crate::shop::Machine;
use crate::units::{Length, Scale, Towards, Value};

impl Filler<'_> {
    pub(super) fn set_up(&self, set_up: &SetUp) -> Result<Option<FilledSetUp>, Faults> {
        if let Some(when) = &set_up.when
            && !truth(when, &self.named.values, self.calls)?
        {
            return Ok(None);
        }
        let machine = set_up
            .machine
            .as_ref()
            .map(|(kind, _)| self.machine(kind, set_up));
        let machine = machine.transpose()?;
        let piece = set_up
            .piece
            .as_ref()
            .map(|piece| self.piece(piece))
            .transpose()?;
        let settings = self.settings(set_up, machine, self.named)?;
        let selected = self.select(set_up, machine, piece, &settings)?;
        let short = self.short(set_up, piece, &selected)?;
        let cutter = set_up
            .cutter
            .as_ref()
            .map(|(name, place)| self.cutter(name, place))
            .transpose()?;
        let formulas = set_up.settings.iter().map(|(_, _, is)| is.text().trim());
        let set = Set {
            settings: formulas
                .map(str::to_owned)
                .zip(settings.iter().cloned())
                .collect(),
            cutter: cutter.as_ref().map(|cutter| cutter.name.clone()),
        };
        let holder = set_up.holder.as_ref().filter(|_| short);
        let holder = holder.map(|text| runs(text, self.named, self.at, &set));
        let mut steps = Vec::new();
        let mut pauses = Pauses::of(set_up);
        for step in &set_up.steps {
            if let Some(mut filled) = self.step(step, &selected, &set)? {
                filled.pause = pauses.pass(step);
                steps.push(filled);
            }
        }
        let table = set_up
            .table
            .as_ref()
            .map(|table| self.table(table, set_up, machine));
        let drawn = set_up.drawn.iter();
        let drawn = drawn.map(|(name, formula)| Ok((name.as_str(), self.length(formula)?)));
        let drawn = drawn.collect::<Result<Vec<_>, Fault>>()?;
        let plan = self.plan(set_up, (machine, piece), (&settings, &drawn));
        Ok(Some(FilledSetUp {
            plan,
            title: plain(&runs(&set_up.title, self.named, self.at, &set)),
            machine: machine.map(|machine| (machine.id.clone(), machine.name.clone())),
            operation: set_up.operation.clone(),
            cutter,
            piece,
            holder,
            settings,
            standing: selected.standing(Stands::Sheet).cloned().collect(),
            steps,
            table: table.transpose()?.flatten(),
        }))
    }

    /// The machine from above, where the set-up says how the work is guided.
    fn plan(
        &self,
        set_up: &SetUp,
        (machine, piece): (Option<&Machine>, Option<PieceSize>),
        (settings, drawn): (&[Setting], &[(&str, Length)]),
    ) -> Option<Drawing> {
        let (guide, _) = set_up.guided.as_ref()?;
        if !set_up.steps.iter().any(|step| step.does == Does::Cut) {
            return None;
        }
        let cutter = match &set_up.cutter {
            Some((name, _)) => Some(self.named.cutters.get(name)?.cutter.diameter()),
            None => None,
        };
        plan_view(Bench {
            plan: Plan {
                machine: machine_kind(set_up).to_owned(),
                operation: set_up.operation.clone(),
                guide: *guide,
                down: set_up.down.clone(),
                to_guide: set_up.to_guide.clone(),
            },
            settings,
            drawn,
            cutter,
            piece: piece?,
            other_pass: self.other_pass(set_up),
            table: machine?.table_width,
            hands: self.at.shop.hand_distance,
            scale: caliper(self.at),
        })
    }

    /// The fence of the other pass, where this set-up cuts the first or the last of several: the
    /// two stand under the names `fence_first` and `fence_last` of one thing, or as settings.
    fn other_pass(&self, set_up: &SetUp) -> Option<(&'static str, Length)> {
        let value = |name: &str| match self.named.values.get(name) {
            Some(Value::Length(length)) => Some(*length),
            _ => None,
        };
        let formula = |setting: &str| {
            let mut all = set_up.settings.iter();
            let found = all.find(|(name, _, _)| name == setting);
            found.map(|(_, _, formula)| formula)
        };
        let fence = formula("fence")?;
        if let Some(first) = formula("fence_first") {
            return Some(("pass_before", self.length(first).ok()?));
        }
        let text = fence.text().trim();
        let (name, other, of) = match text.strip_suffix("fence_first") {
            Some(of) => ("pass_after", "fence_last", of),
            None => (
                "pass_before",
                "fence_first",
                text.strip_suffix("fence_last")?,
            ),
        };
        let other = value(&format!("{of}{other}"))?;
        (Some(other) != value(text)).then_some((name, other))
    }

    fn machine(&self, kind: &str, set_up: &SetUp) -> Result<&Machine, Fault> {
        self.at
            .machine(kind)
            .ok_or_else(|| no_machine(set_up, &self.given.place))
    }

    fn piece(&self, [length, width, thickness]: &[Formula; 3]) -> Result<PieceSize, Fault> {
        Ok(PieceSize {
            length: self.length(length)?,
            width: self.length(width)?,
            thickness: self.length(thickness)?,
        })
    }

    /// Whether the piece is too short for the hands that feed it; one that nothing holds is
    /// refused. Work that is cramped and not fed may be of any length.
    fn short(
        &self,
        set_up: &SetUp,
        piece: Option<PieceSize>,
        selected: &Selected,
    ) -> Result<bool, Fault> {
        let cuts = set_up.steps.iter().any(|step| step.does == Does::Cut);
        let mut kinds = selected.all().iter().map(Caution::kind);
        let fed = kinds.any(|kind| kind == CautionKind::FeedDirection);
        let least = self.at.shop.short_piece;
        let Some(piece) = piece.filter(|piece| cuts && fed && piece.length < least) else {
            return Ok(false);
        };
        if set_up.holder.is_some() {
            return Ok(true);
        }
        let scale = caliper(self.at);
        let is = scale.show(piece.length, Towards::Nearest).text;
        let may_be = scale.show(least, Towards::Up).text;
        let message = format!(
            "{}: the piece is {is} long, and under {may_be} nothing passes this machine by hand",
            self.given.part
        );
        Err(Fault::error(Code::REFUSED, message)
            .at(self.given.place.clone())
            .also(set_up.place.clone(), "in this set-up")
            .hint("cut the joint in a long blank and saw the piece off, or cut it by hand"))
    }

    fn select(
        &self,
        set_up: &SetUp,
        machine: Option<&Machine>,
        piece: Option<PieceSize>,
        settings: &[Setting],
    ) -> Result<Selected, Faults> {
        let mut values = Values::new();
        let mut put = |name: &str, value: Value| values.insert(name.to_owned(), value);
        put("short_piece", Value::Length(self.at.shop.short_piece));
        put("hand_distance", Value::Length(self.at.shop.hand_distance));
        if let Some(piece) = piece {
            put("piece.length", Value::Length(piece.length));
            put("piece.width", Value::Length(piece.width));
            put("piece.thickness", Value::Length(piece.thickness));
        }
        if let Some(machine) = machine {
            put("table.length", Value::Length(machine.table_length));
            put("table.width", Value::Length(machine.table_width));
        }
        let leaves_strip = set_up
            .leaves_strip
            .as_ref()
            .map(|formula| self.run(formula));
        put(
            "leaves_strip",
            leaves_strip.transpose()?.unwrap_or(Value::Truth(false)),
        );
        if let Some(speed) = settings.iter().find(|setting| setting.name == "speed") {
            put("speed_set", speed.value.clone());
        }
        if let Some((name, _)) = &set_up.cutter
            && let Some(picked) = self.named.cutters.get(name)
        {
            put("cutter.diameter", Value::Length(picked.cutter.diameter()));
        }
        let kind = machine_kind(set_up);
        self.at
            .book
            .select(kind, &set_up.operation, &values)
            .map_err(|faults| {
                let mut placed = Faults::new();
                placed.extend(
                    faults
                        .into_iter()
                        .map(|fault| fault.at_least(&set_up.operation_place)),
                );
                placed
            })
    }

    fn cutter(&self, name: &str, place: &Span) -> Result<RunCutter, Fault> {
        let Some(picked) = self.named.cutters.get(name) else {
            let message = format!("no cutter is chosen under the name `{name}`");
            return Err(Fault::error(Code::UNKNOWN_NAME, message).at(place.clone()));
        };
        let cutter = picked.cutter;
        if cutter.marked_speed.is_none() && cutter.shape.bears_speed() {
            let message = format!(
                "{}: the cutter `{}` bears no maximum speed; do not run it before the maker's \
                 figure is known",
                self.given.part, cutter.id
            );
            return Err(Fault::error(Code::REFUSED, message)
                .at(self.given.place.clone())
                .hint("find the maker's figure and enter it in cutters.yaml, or take another"));
        }
        let known_from = match &cutter.measured {
            Some(measured) => format!("measured {} with {}", measured.on, measured.with),
            None => "as marked, not measured".to_owned(),
        };
        Ok(RunCutter {
            id: cutter.id.clone(),
            name: cutter.name.clone(),
            diameter: caliper(self.at)
                .show(cutter.diameter(), Towards::Nearest)
                .text,
            known_from,
            speed_note: cutter.marked_speed.map_or_else(String::new, |marked| {
                format!("marked for {:.0} rpm at most", marked.to_rpm())
            }),
            why: picked.why.clone(),
        })
    }

    fn settings(
        &self,
        set_up: &SetUp,
        machine: Option<&Machine>,
        named: &Named<'_>,
    ) -> Result<Vec<Setting>, Fault> {
        let mut settings = Vec::new();
        for (name, label, formula) in &set_up.settings {
            let outcome = formula.run(&named.values, &|call, args| self.calls.call(call, args))?;
            let Outcome::One(value) = outcome else {
                return Err(Fault::error(
                    Code::FORMULA_DIMENSION,
                    "one value is wanted here",
                ));
            };
            let (shown, rounding) = show(&value, self.scale(name, machine), named.role(formula));
            let (name, label) = (name.clone(), label.clone());
            settings.push(Setting {
                name,
                label,
                value,
                shown,
                rounding,
            });
        }
        Ok(settings)
    }

    /// The scale that a setting is made by: the machine's own, else the finest measuring tool.
    fn scale(&self, setting: &str, machine: Option<&Machine>) -> Scale {
        let unit = self.at.shop.units;
        match machine {
            Some(machine) if setting.starts_with("height") => {
                Scale::new(unit, machine.height.resolution)
            }
            Some(machine) if setting.starts_with("fence") || setting.starts_with("stop") => {
                Scale::new(unit, machine.fence.resolution)
            }
            _ => caliper(self.at),
        }
    }

    /// A step; none when its condition does not hold.
    fn step(
        &self,
        step: &Step,
        selected: &Selected,
        set: &Set,
    ) -> Result<Option<FilledStep>, Fault> {
        if let Some(when) = &step.when
            && !truth(when, &self.named.values, self.calls)?
        {
            return Ok(None);
        }
        let fill = |text: &Text| runs(text, self.named, self.at, set);
        let mut filled = FilledStep::new(step.does, selected, act(step, fill));
        filled.after = after(step, fill);
        filled.each_piece = step.each;
        filled.keys = step.keys.iter().map(fill).collect();
        filled.why = step.why.as_ref().map(fill).unwrap_or_default();
        filled.check = step
            .check
            .as_ref()
            .map(|check| self.check(check, set))
            .transpose()?;
        Ok(Some(filled))
    }

    fn check(&self, check: &Check, set: &Set) -> Result<FilledCheck, Fault> {
        let (tool, place) = &check.tool;
        let unit = self.at.shop.units;
        let scale = match self.at.shop.tools.iter().find(|known| known.name == *tool) {
            Some(known) => Scale::new(unit, known.resolution),
            None => caliper(self.at),
        };
        let (is, low, high) = (
            self.length(&check.is)?,
            self.length(&check.low)?,
            self.length(&check.high)?,
        );
        let (low, high) = (
            scale.show(low, Towards::Up),
            scale.show(high, Towards::Down),
        );
        if low.rounded > high.rounded {
            let message = format!("no reading of the {tool} lies between the limits");
            return Err(Fault::error(Code::OUT_OF_RANGE, message)
                .at(place.clone())
                .hint("widen the limits, or name a finer tool"));
        }
        let fill = |text: &Text| runs(text, self.named, self.at, set);
        Ok(FilledCheck {
            measure: fill(&check.measure),
            is,
            wanted: scale.show(is, self.named.role(&check.is).towards()).text,
            low: low.rounded,
            high: high.rounded,
            low_shown: low.text,
            high_shown: high.text,
            tool: tool.clone(),
            moved_by: check
                .moved_by
                .as_ref()
                .map(|(moved_by, _)| moved_by.clone()),
            if_low: fill(&check.if_low),
            if_high: fill(&check.if_high),
        })
    }

    /// Settings for readings around the planned one; none once the value is measured.
    fn table(
        &self,
        table: &Table,
        set_up: &SetUp,
        machine: Option<&Machine>,
    ) -> Result<Option<RunTable>, Faults> {
        let Some(Value::Length(planned)) = self.named.values.get(&table.vary) else {
            return Ok(None);
        };
        if !self.named.is_planned(&table.vary) {
            return Ok(None);
        }
        let by = self.length(&table.by)?;
        let centre = caliper(self.at).round(*planned, Towards::Nearest);
        let rows = i64::from(table.rows);
        let mut run_table = RunTable {
            measured: self.label(&table.vary),
            heads: set_up
                .settings
                .iter()
                .map(|(_, label, _)| label.clone())
                .collect(),
            rows: Vec::new(),
        };
        let mut all: Vec<(String, Vec<Setting>, bool)> = Vec::new();
        for row in -rows..=rows {
            let reading = match row {
                0 => *planned,
                _ => centre + by.times(row as f64),
            };
            let varied = self
                .named
                .varied(self.procedure, self.at, &table.vary, reading);
            let Ok(varied) = varied else { continue };
            let shown = caliper(self.at).show(reading, Towards::Nearest).text;
            all.push((shown, self.settings(set_up, machine, &varied)?, row == 0));
        }
        let changes = |at: usize| {
            let mut texts = all.iter().map(|(_, settings, _)| &settings[at].shown);
            let first = texts.next();
            texts.any(|text| Some(text) != first)
        };
        let columns: Vec<usize> = (0..run_table.heads.len())
            .filter(|at| changes(*at))
            .collect();
        run_table.heads = columns
            .iter()
            .map(|at| run_table.heads[*at].clone())
            .collect();
        for (reading, settings, planned) in &all {
            let row = columns
                .iter()
                .map(|at| settings[*at].shown.clone())
                .collect();
            run_table.rows.push((reading.clone(), row, *planned));
        }
        Ok(Some(run_table))
    }

    fn label(&self, name: &str) -> String {
        let measure = self
            .procedure
            .measures
            .iter()
            .find(|measure| measure.name == name);
        measure.map_or_else(|| name.to_owned(), |measure| measure.ask.clone())
    }
}

/// The act behind who does it and the condition under which it is done.
fn act(step: &Step, fill: impl Fn(&Text) -> Vec<Run>) -> Vec<Run> {
    let words = |words: &str| Run::Words(words.to_owned());
    let mut runs = Vec::new();
    if let Some(who) = &step.who {
        runs.extend(fill(who));
        runs.push(words(": "));
    }
    if let Some(condition) = &step.only_if {
        runs.push(words("If "));
        runs.extend(fill(condition));
        runs.push(words(": "));
    }
    runs.extend(fill(&step.act));
    runs
}

/// What is said below the act.
fn after(step: &Step, fill: impl Fn(&Text) -> Vec<Run>) -> Vec<(Mark, Vec<Run>)> {
    let ways = step.one_of.iter().map(|way| (Mark::Way, way));
    let said = [
        (Mark::Until, &step.until),
        (Mark::Otherwise, &step.otherwise),
        (Mark::Timed, &step.timed),
        (Mark::Hold, &step.hold),
    ];
    let said = said
        .into_iter()
        .filter_map(|(mark, text)| Some((mark, text.as_ref()?)));
    ways.chain(said)
        .map(|(mark, text)| (mark, fill(text)))
        .collect()
}
