//! Ten thousand joints of the library cut until they are good: mean test cuts, shares good, by
//! hand, overshot, for this program's moves and two rules of thumb, with and without past records.
//! The world is told at the head of `tests/fit/simulation.rs`.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a bench prints, and may fail"
)]

#[path = "../fit/simulation.rs"]
#[allow(dead_code, reason = "the test of that file is not part of the bench")]
mod simulation;

use simulation::{Rule, Task, is_narrow, run, tasks};

fn main() {
    let all = tasks();
    table("all values", &all);
    let narrow: Vec<_> = all.iter().filter(|task| is_narrow(task)).copied().collect();
    table("values with a range of 0.1 mm or less", &narrow);
}

/// Ten thousand joints of these tasks by each rule.
fn table(what: &str, tasks: &[Task]) {
    let joints = 10_000;
    println!("\n{joints} joints; {what} of the library: {}", tasks.len());
    println!(
        "{:<44} {:>9} {:>7} {:>8} {:>9} {:>11} {:>11}",
        "", "test cuts", "good", "by hand", "overshot", "still tight", "unfinished"
    );
    let rows = [
        ("next move, no record", Rule::Ours, 0),
        (
            "setting by half the difference, no record",
            Rule::HalfTheDifference,
            0,
        ),
        ("halving the gap, no record", Rule::HalvingTheGap, 0),
        ("next move, ten records", Rule::Ours, 10),
        (
            "setting by half the difference, ten records",
            Rule::HalfTheDifference,
            10,
        ),
        ("halving the gap, ten records", Rule::HalvingTheGap, 10),
    ];
    for (name, rule, records) in rows {
        let tally = run(tasks, rule, joints, records, 2026);
        let told = tally.good + tally.by_hand + tally.overshot + tally.unfinished;
        println!(
            "{name:<44} {:>9.2} {:>6.1}% {:>7.1}% {:>8.2}% {:>10.1}% {:>10.1}%",
            tally.mean_cuts(),
            tally.percent(tally.good),
            tally.percent(tally.by_hand),
            tally.percent(tally.overshot),
            // The reading was good and the piece was not, on the side where wood is on.
            tally.percent(tally.joints.saturating_sub(told)),
            tally.percent(tally.unfinished)
        );
    }
}
