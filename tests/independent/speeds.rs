//! Speeds, loads and temperatures through the units of `uom`, which carries the factors itself.

use proptest::prelude::*;

use faceside::units::{Feed, Kind, Measure, RimSpeed, Spindle, Unit, Value, parse};
use uom::si::f64::{Force, Frequency, Length, Pressure, ThermodynamicTemperature, Time, Velocity};
use uom::si::force::{kilogram_force, newton, pound_force};
use uom::si::frequency::cycle_per_minute;
use uom::si::length::{inch, millimeter, nanometer};
use uom::si::pressure::{gigapascal, psi};
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::minute;
use uom::si::velocity::{foot_per_minute, meter_per_second};

use crate::{Ask, nm, within};

fn turns(rpm: f64) -> Frequency {
    Frequency::new::<cycle_per_minute>(rpm)
}

/// The way that a point of the edge makes in one turn.
fn round(diameter: Length) -> Length {
    diameter * std::f64::consts::PI
}

/// The result as the number of its own unit.
#[track_caller]
fn number(answer: &faceside::joints::Answer, name: &str) -> f64 {
    match &answer.worked.results[name] {
        Value::RimSpeed(speed) => speed.to_metres_per_second(),
        Value::Speed(speed) => speed.to_rpm(),
        Value::Feed(feed) => feed.to_metres_per_minute(),
        Value::Amount(amount) => amount.to_base(),
        other => panic!("{name} is {other:?}"),
    }
}

fn feed(metres_per_minute: f64) -> Velocity {
    let metre = Length::new::<millimeter>(1e3);
    metre * metres_per_minute / Time::new::<minute>(1.0)
}

proptest! {
    // The edge makes the way round once a turn; a limit is met by the turns that it has room for.
    #[test]
    fn rim_speed(
        diameter in 2_000_000..500_000_000_i64, rpm in 100.0..20_000.0_f64, limit in 20.0..119.0_f64,
    ) {
        let length = Length::new::<nanometer>(diameter as f64);
        let speed: Velocity = round(length) * turns(rpm);
        let ask = Ask::new("rim-speed", &[("diameter", diameter)])
            .with("speed", Value::Speed(Spindle::rpm(rpm)));
        let wanted = speed.get::<meter_per_second>();
        within(number(&ask.answer(), "rim_speed"), wanted, wanted * 1e-9);
        let most: Frequency = Velocity::new::<meter_per_second>(limit) / round(length);
        let most = most.get::<cycle_per_minute>();
        let limited = ask.with("limit", Value::RimSpeed(RimSpeed::metres_per_second(limit)));
        match limited.maybe() {
            Some(answer) => {
                prop_assert!(wanted <= limit * (1.0 + 1e-9));
                within(number(&answer, "speed_most"), most, most * 1e-9);
            }
            None => prop_assert!(wanted > limit * (1.0 - 1e-9)),
        }
    }

    // The speed to set is the largest that neither mark, machine nor rim limit forbids; it is refused
    // when even the machine's slowest is over one of them.
    #[test]
    fn spindle(
        diameter in 0.25..6.0_f64, marked in 5_000.0..30_000.0_f64, limit in 20.0..100.0_f64,
        least in 2_000.0..12_000.0_f64, wider in 0.0..20_000.0_f64,
    ) {
        let length = Length::new::<inch>(diameter);
        let by_rim: Frequency = Velocity::new::<meter_per_second>(limit) / round(length);
        let most = by_rim.get::<cycle_per_minute>().min(marked);
        let ask = Ask::new("spindle", &[("diameter", length.get::<nanometer>().round() as i64)])
            .with("marked", Value::Speed(Spindle::rpm(marked)))
            .with("limit", Value::RimSpeed(RimSpeed::metres_per_second(limit)))
            .with("machine_least", Value::Speed(Spindle::rpm(least)))
            .with("machine_most", Value::Speed(Spindle::rpm(least + wider)));
        let Some(answer) = ask.maybe() else {
            prop_assert!(most < least * (1.0 + 1e-6));
            return Ok(());
        };
        prop_assert!(most > least * (1.0 - 1e-6));
        let set = number(&answer, "speed_set");
        // The diameter of an inch fraction is rounded to a nanometre.
        within(set, most.min(least + wider), set * 1e-6);
        prop_assert!(set <= marked && set <= least + wider && set >= least);
        let speed: Velocity = round(length) * turns(set);
        prop_assert!(speed.get::<meter_per_second>() <= limit * (1.0 + 1e-6));
        within(number(&answer, "rim_speed"), speed.get::<meter_per_second>(), limit * 1e-6);
    }

    // One tooth comes round in 1 / (n z); the work moves feed times that.
    #[test]
    fn feed_per_tooth(
        feet in 5_000..60_000_i64, rpm in 1_000.0..25_000.0_f64, teeth in 1..60_i64,
        most in 1_000_000..5_000_000_i64,
    ) {
        let feet = feet as f64 / 1e3;
        let velocity = Velocity::new::<foot_per_minute>(feet);
        let metres = (velocity / feed(1.0)).value;
        let tooth: Time = (turns(rpm) * teeth as f64).recip();
        let wanted: Length = velocity * tooth;
        let ask = Ask::new("feed-per-tooth", &[])
            .with("feed", Value::Feed(Feed::metres_per_minute(metres)))
            .with("speed", Value::Speed(Spindle::rpm(rpm)))
            .with("teeth", Value::Count(teeth));
        within(nm(&ask.answer(), "feed_per_tooth") as f64, wanted.get::<nanometer>(), 0.6);
        let Some(answer) = ask.lengths(&[("most", most)]).maybe() else {
            prop_assert!(wanted.get::<nanometer>() > most as f64 - 1.0);
            return Ok(());
        };
        let fastest: Velocity = Length::new::<nanometer>(most as f64) / tooth;
        let fastest = (fastest / feed(1.0)).value;
        within(number(&answer, "feed_most"), fastest, fastest * 1e-9);
        // A feed as typed: the same, through the program's own reading of feet a minute.
        let typed = parse(&format!("{feet} ft/min"), Kind::Feed, Unit::Mm).unwrap();
        let Value::Feed(typed) = typed else { panic!("{typed:?}") };
        within(typed.to_metres_per_minute(), metres, metres * 1e-9);
    }

    // Loads, moduli and temperatures as typed. `uom` gives pound-force and psi to seven digits.
    #[test]
    fn amounts_as_typed(number in 1_000..5_000_000_i64, fahrenheit in 31_000..139_000_i64) {
        let (number, fahrenheit) = (number as f64 / 1e3, fahrenheit as f64 / 1e3);
        let read = |text: &str, measure: Measure| {
            match parse(text, Kind::Amount(measure), Unit::Mm).unwrap() {
                Value::Amount(amount) => amount.to_base(),
                other => panic!("{other:?}"),
            }
        };
        let force = |text: &str| read(&format!("{number} {text}"), Measure::Load);
        let wanted = Force::new::<kilogram_force>(number).get::<newton>();
        within(force("kg"), wanted, wanted * 1e-12);
        let wanted = Force::new::<pound_force>(number).get::<newton>();
        within(force("lb"), wanted, wanted * 2e-7);
        let wanted = Pressure::new::<psi>(number).get::<gigapascal>();
        within(read(&format!("{number} psi"), Measure::Stress), wanted, wanted * 2e-7);
        let celsius = ThermodynamicTemperature::new::<degree_fahrenheit>(fahrenheit)
            .get::<degree_celsius>();
        let typed = read(&format!("{fahrenheit} degF"), Measure::Temperature);
        within(typed, celsius, 1e-9);
        // So the same air gives the same moisture in either unit.
        let moisture = |text: &str| {
            let temperature = parse(text, Kind::Amount(Measure::Temperature), Unit::Mm).unwrap();
            let humidity = parse("65 %", Kind::Amount(Measure::Percent), Unit::Mm).unwrap();
            let ask = Ask::new("moisture", &[]).with("temperature", temperature);
            crate::speeds::number(&ask.with("humidity", humidity).answer(), "moisture")
        };
        let (one, two) = (format!("{fahrenheit} degF"), format!("{celsius:.9} degC"));
        within(moisture(&one), moisture(&two), 1e-8);
    }
}
