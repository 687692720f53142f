//! Joints cut until they are good, on machines that do not repeat and with tools that do not read
//! exactly: this program's moves against two rules of thumb, from the same first cuts.
//!
//! The joints are the library's own: every value of a filled procedure that a setting moves and
//! that has a side with wood, with its limits, its machine's scale and its tool. The world:
//!
//! * the machine cuts an unknown amount more or less than is set, anywhere within 0.15 mm, the same
//!   for all cuts of one joint (and for its past records);
//! * two settings to one figure differ by no more than the machine's repeatability: each is off by
//!   anything up to half of it;
//! * a reading is off by anything up to half the tool's step, then rounded to that step;
//! * the first cut is at the setting that the program proposes: without a record for all that scale,
//!   tool and cutter explain, which need not be all that this machine is off; with past records at
//!   95 %. The rules of thumb begin there too.
//!
//! Overshot is a joint any of whose cuts was truly past its limit on the side without wood; it is
//! told apart whether that was the first cut or one after a move. Good is
//! one that was truly within its limits when the reading said so. What no safe move can finish is
//! finished by hand and counted apart.

use faceside::joints::{Aim, Found, Means, Next, WoodOn};
use faceside::procedure::{example, fill};
use faceside::shoplog::{
    Asked, Event, Limits, Line, Measured, Moves, Person, SetTo, TestCut, Wood, Work, learned,
    standing,
};
use faceside::store::Workshop;
use faceside::units::{Length, Scale, Towards, Unit};

/// Most that a machine cuts more or less than is set, in mm.
const OFFSET: f64 = 0.15;

/// Cuts after which a joint counts as not finished.
const MOST_CUTS: u32 = 12;

/// One kind of joint.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Task {
    pub(crate) aim: Aim,
    pub(crate) means: Means,
}

/// Random numbers from 0 to 1: a linear congruential generator with Knuth's multiplier (from
/// memory), its high bits taken.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Anywhere within half of `width` to either side.
    fn within(&mut self, width: Length) -> Length {
        width.times(self.next() - 0.5)
    }
}

/// Every value of the library's filled examples that a setting moves and that has wood on a side.
pub(crate) fn tasks() -> Vec<Task> {
    let (workshop, _) = Workshop::open(None, None).unwrap();
    let mut tasks = Vec::new();
    for procedure in workshop.usable() {
        let given = example(procedure, workshop.place());
        let filled = fill(procedure, workshop.place(), &given).unwrap();
        for set_up in &filled.set_ups {
            let Some((id, _)) = &set_up.machine else {
                continue;
            };
            let machine = workshop.machines.iter().find(|one| one.id == *id).unwrap();
            for check in set_up.steps.iter().filter_map(|step| step.check.as_ref()) {
                let Some(moved_by) = check.moved_by.as_ref().filter(|one| one.wood.is_some())
                else {
                    continue;
                };
                let tools = &workshop.shop.tools;
                let tool = tools.iter().find(|tool| tool.name == check.tool).unwrap();
                let scale = machine.scale_of(&moved_by.setting, tool.resolution);
                tasks.push(Task {
                    aim: Aim {
                        wanted: check.is,
                        low: check.low,
                        high: check.high,
                        each: moved_by.each,
                        wood: moved_by.wood,
                    },
                    means: Means {
                        step: scale.resolution,
                        repeatability: scale.repeatability,
                        tool: tool.resolution,
                        most: None,
                    },
                });
            }
        }
    }
    tasks
}

/// Whether the good values are 0.1 mm apart or less.
pub(crate) fn is_narrow(task: &Task) -> bool {
    task.aim.high - task.aim.low <= Length::mm(0.1)
}

/// Who decides on the next move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Rule {
    /// This program.
    Ours,
    /// The setting by half of what the reading is off, whatever is cut with it.
    HalfTheDifference,
    /// The value by half of what it is off.
    HalvingTheGap,
}

/// How many joints ended how.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Tally {
    pub(crate) joints: u32,
    pub(crate) cuts: u32,
    pub(crate) good: u32,
    pub(crate) by_hand: u32,
    pub(crate) overshot: u32,
    /// Of those overshot, by a move.
    pub(crate) by_move: u32,
    pub(crate) unfinished: u32,
}

impl Tally {
    /// Test cuts for a joint.
    pub(crate) fn mean_cuts(&self) -> f64 {
        f64::from(self.cuts) / f64::from(self.joints)
    }

    /// Part of the joints, in percent.
    pub(crate) fn percent(&self, count: u32) -> f64 {
        100.0 * f64::from(count) / f64::from(self.joints)
    }
}

/// Growth of the setting that leaves more wood on: its sign.
fn side(aim: &Aim) -> f64 {
    let sign = if aim.wood == Some(WoodOn::Low) {
        -1.0
    } else {
        1.0
    };
    sign * aim.each.signum()
}

/// The setting that ten past cuts of this machine with this offset propose at 95 %.
fn learned_first(task: &Task, offset: Length, records: u32, dice: &mut Dice) -> Length {
    let moves = Moves {
        setting: "fence".to_owned(),
        by: task.aim.each,
        wood: task.aim.wood.map(Wood::from),
        clearance: None,
    };
    let text: String = (1..=u64::from(records))
        .map(|number| {
            let cut = offset + dice.within(task.means.repeatability);
            let value = read(task, task.aim.wanted + cut.times(task.aim.each), dice);
            let event = Event::TestCut(Box::new(TestCut {
                by: Person::new("BK").unwrap(),
                work: Work {
                    machine: Some("m".to_owned()),
                    settings: vec![SetTo {
                        name: "fence".to_owned(),
                        shown: String::new(),
                        planned: Some(Length::mm(50.0)),
                        set: Some(Length::mm(50.0)),
                    }],
                    ..Work::default()
                },
                measured: Some(Measured {
                    what: "width".to_owned(),
                    value,
                    wanted: Some(task.aim.wanted),
                    limits: Some(Limits {
                        low: task.aim.low,
                        high: task.aim.high,
                    }),
                    tool: None,
                    moves: Some(moves.clone()),
                }),
                feel: None,
                note: None,
            }));
            let line = Line::new(number, "2026-11-20T09:00:00Z").unwrap();
            line.write(&event).unwrap()
        })
        .collect();
    let events = standing(&[faceside::diag::Source::new("2026.jsonl", text)]).0;
    let asked = Asked {
        machine: "m",
        cutter: None,
        moves: &moves,
        steps: (task.means.step, task.means.tool),
        today: "2026-11-26",
    };
    let known = learned(&events, &asked).expect("ten records tell something");
    task.aim.first(&task.means, known.offset, known.bound(0.95))
}

fn read(task: &Task, value: Length, dice: &mut Dice) -> Length {
    let scale = Scale::new(Unit::Mm, task.means.tool);
    scale.round(value + dice.within(task.means.tool), Towards::Nearest)
}

/// Cuts so many joints by a rule, with so many past records each.
pub(crate) fn run(tasks: &[Task], rule: Rule, joints: u32, records: u32, seed: u64) -> Tally {
    let mut dice = Dice(seed);
    let mut tally = Tally::default();
    for _ in 0..joints {
        let task = &tasks[(dice.next() * tasks.len() as f64) as usize];
        let offset = dice.within(Length::mm(2.0 * OFFSET));
        let first = match records {
            0 => task.aim.unlearned(&task.means),
            some => learned_first(task, offset, some, &mut dice),
        };
        joint(task, rule, offset, first, &mut dice, &mut tally);
    }
    tally
}

fn joint(
    task: &Task,
    rule: Rule,
    offset: Length,
    first: Length,
    dice: &mut Dice,
    tally: &mut Tally,
) {
    let aim = &task.aim;
    tally.joints += 1;
    let (mut set, mut past) = (first, false);
    for number in 0..MOST_CUTS {
        tally.cuts += 1;
        let cut = set + offset + dice.within(task.means.repeatability);
        let value = aim.wanted + cut.times(aim.each);
        let passes = match aim.wood {
            Some(WoodOn::Low) => value > aim.high,
            _ => value < aim.low,
        };
        tally.by_move += u32::from(passes && !past && number > 0);
        past |= passes;
        let reading = read(task, value, dice);
        let by = match aim.next(&task.means, Found::Value(reading)) {
            Next::Stop => {
                tally.good += u32::from(aim.low <= value && value <= aim.high && !past);
                tally.overshot += u32::from(past);
                return;
            }
            Next::Over(_) => {
                // The reading may be wrong where the cut was not past the limit.
                tally.overshot += u32::from(past);
                tally.unfinished += u32::from(!past);
                return;
            }
            Next::ByHand(_) if rule == Rule::Ours => {
                tally.by_hand += 1;
                tally.overshot += u32::from(past);
                return;
            }
            Next::Move(one) | Next::Shim(one) if rule == Rule::Ours => one.by,
            _ => thumb(task, rule, reading),
        };
        set = set + by;
    }
    tally.unfinished += 1;
    tally.overshot += u32::from(past);
}

/// A rule of thumb, to the nearest step and one step at least.
fn thumb(task: &Task, rule: Rule, reading: Length) -> Length {
    let off = (reading - task.aim.wanted).abs();
    let half = match rule {
        Rule::HalvingTheGap => off.times(0.5 / task.aim.each.abs()),
        _ => off.times(0.5),
    };
    let scale = Scale::new(Unit::Mm, task.means.step);
    let size = scale.round(half, Towards::Nearest).max(task.means.step);
    size.times(-side(&task.aim))
}

/// Fixed dice; the figures of ten thousand are printed by `cargo bench --bench fit`.
#[test]
fn no_joint_is_overshot_by_a_move_and_few_cuts_are_needed() {
    let tasks = tasks();
    assert!(tasks.len() > 60, "{} values of the library", tasks.len());
    let ours = run(&tasks, Rule::Ours, 2000, 0, 1);
    assert_eq!(ours.by_move, 0, "{ours:?}");
    assert!(ours.percent(ours.overshot) < 1.0, "{ours:?}");
    let half = run(&tasks, Rule::HalfTheDifference, 2000, 0, 1);
    let halving = run(&tasks, Rule::HalvingTheGap, 2000, 0, 1);
    assert!(
        ours.mean_cuts() < halving.mean_cuts(),
        "{ours:?} {halving:?}"
    );
    assert!(half.overshot > ours.overshot, "{half:?}");
    let with_records = run(&tasks, Rule::Ours, 2000, 10, 1);
    assert!(
        with_records.mean_cuts() < ours.mean_cuts(),
        "{with_records:?}"
    );
    assert!(
        with_records.percent(with_records.overshot) < 5.0,
        "{with_records:?}"
    );
    assert_eq!(with_records.by_move, 0, "{with_records:?}");
    let narrow: Vec<_> = tasks
        .iter()
        .filter(|task| is_narrow(task))
        .copied()
        .collect();
    let ours = run(&narrow, Rule::Ours, 2000, 0, 1);
    assert_eq!(ours.by_move, 0, "{ours:?}");
    assert!(
        ours.mean_cuts() < 2.0 && ours.percent(ours.overshot) < 1.0,
        "{ours:?}"
    );
}
