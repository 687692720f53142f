//! Any text at all: no panic, and after the check no fault but of values.

use faceside::diag::Code;
use faceside::formula::{Known, Outcome};
use faceside::units::{Kind, Length, Value};
use proptest::prelude::{Just, ProptestConfig, any, prop, prop_oneof, proptest};

use super::{call, read, scope, shown, values, worked};

/// Reads, checks and runs whatever it is: no panic, and after the check no fault but of values,
/// and the kind that was foretold.
fn never_breaks(text: &str) {
    let Ok(formula) = read(text) else { return };
    assert_eq!(formula.text(), text);
    let Ok(known) = formula.check(&scope()) else {
        let _ = formula.run(&values(), &call);
        return;
    };
    match formula.run(&values(), &call) {
        Ok(Outcome::Results(_)) => assert!(matches!(known, Known::Results(_)), "{text}"),
        Ok(Outcome::One(value)) => {
            let own = Known::One(value.kind());
            let is_foretold = match &known {
                Known::One(kind) => own.does_for(*kind),
                known => known.does_for(value.kind()),
            };
            assert!(is_foretold, "{text}: {known:?} became {value:?}");
        }
        Err(fault) => {
            let of_values = [Code::FORMULA_VALUE, Code::VALUE_MISSING];
            assert!(of_values.contains(&fault.code), "{text}: {}", shown(&fault));
        }
    }
}

/// Parts of formulas, good and bad; `~` stands for a blank.
const SOUP: &str = r#"
    side   cut.mouth   cut.fence_first   slope   spin   rim   feed   pins   ratio   ready
    hand   places   cut   cutter.marked_speed   nothing   "left"   "   1   0   2.5   1/2   in
    mm   deg   rpm   m/s   1~1/2~in   3~mm   14~deg   +   -   *   /   (   )   (   )   ,   :
    .mouth   <   <=   ==   !=   and   or   not   yes   no   if(   min(   sqrt(   tan(   round(
    down_to(   housing(   width:   cutter:   from:   ^   −   ½
"#;

fn soup() -> Vec<String> {
    SOUP.split_whitespace()
        .map(|part| part.replace('~', " "))
        .collect()
}

/// How a length, number, angle or truth is written: a line of leaves, then of what is made of
/// others, each letter standing for one of these.
const WRITTEN: &[(char, &str, &str)] = &[
    (
        'L',
        "side|1 mm|0 mm|1 1/2 in|5 thou|cut.mouth|cut.fence_first|cutter.diameter",
        "(L + L)|(L - L)|(L * N)|(N * L)|(L / N)|(-L)|min(L, L, L)|max(L, L)|abs(L)|if(T, L, L)\
         |sqrt(L * L)|(L * L / L)|(1 / (ratio / L))|down_to(L, L)|up_to(L, L)\
         |nearest_to(L, 0.05 mm)|housing(width: L, cutter: L).mouth\
         |housing(cutter: L, width: L, from: L).fence_first",
    ),
    (
        'N',
        "ratio|pins|0|1|2|2.5|1/2",
        "(N + N)|(N - N)|(N * N)|(N / N)|(-N)|(L / L)|(A / A)|(L * L / (L * L))|tan(A)|cos(A)\
         |ceil(N)|floor(N)|round(N)|sqrt(N)|max(N, N)|if(T, N, N)",
    ),
    (
        'A',
        "slope|14 deg",
        "(A + A)|(A - A)|(A * N)|(A / N)|atan(N)|min(A, A)|if(T, A, A)",
    ),
    (
        'T',
        "ready|yes|no|(hand == \"left\")|(\"right\" != hand)|(spin > 9000 rpm)",
        "(L < L)|(N == N)|(A >= A)|(T and T)|(T or T)|(not T)|(T != T)|if(T, T, T)",
    ),
];

/// A formula of that sort, put together as the numbers say.
fn written(sort: char, depth: u8, numbers: &mut impl Iterator<Item = u8>) -> String {
    let row = WRITTEN.iter().find(|row| row.0 == sort).unwrap();
    let all: Vec<_> = if depth == 0 { row.1 } else { row.2 }.split('|').collect();
    let chosen = all[usize::from(numbers.next().unwrap_or(0)) % all.len()];
    let mut text = String::new();
    for letter in chosen.chars() {
        if letter.is_ascii_uppercase() {
            let less = depth - 1 - numbers.next().unwrap_or(0) % depth;
            text += &written(letter, less, numbers);
        } else {
            text.push(letter);
        }
    }
    text
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4096, ..ProptestConfig::default() })]

    #[test]
    fn token_soup_never_breaks(
        parts in prop::collection::vec(prop::sample::select(soup()), 0..16),
        blank in prop_oneof![Just(""), Just(" ")],
    ) {
        never_breaks(&parts.join(blank));
    }

    #[test]
    fn any_characters_never_break(text in any::<String>()) {
        never_breaks(&text);
    }

    #[test]
    fn what_is_written_well_is_accepted_and_never_breaks(
        sort in prop::sample::select(&[('L', Kind::Length), ('N', Kind::Number), ('A', Kind::Angle), ('T', Kind::Truth)][..]),
        numbers in prop::collection::vec(any::<u8>(), 1..120),
    ) {
        let (letter, kind) = sort;
        let text = written(letter, numbers[0] % 5, &mut numbers.into_iter().skip(1));
        match read(&text).and_then(|formula| formula.check(&scope())) {
            Ok(known) => assert!(known.does_for(kind), "{text}: {known:?}"),
            Err(fault) => panic!("{text}: {}", shown(&fault)),
        }
        never_breaks(&text);
    }

    #[test]
    fn sums_of_lengths_are_exact(
        terms in prop::collection::vec((-999_999_999_i64..=999_999_999, any::<bool>()), 1..60),
    ) {
        let mut text = "0 mm".to_owned();
        let mut total = 0;
        for (nm, is_added) in terms {
            let (mm, part) = (nm.abs() / 1_000_000, nm.abs() % 1_000_000);
            let minus = if nm < 0 { "-" } else { "" };
            text += &format!(" {} {minus}{mm}.{part:06} mm", if is_added { "+" } else { "-" });
            total += if is_added { nm } else { -nm };
        }
        assert_eq!(worked(&text), Ok(Value::Length(Length::nm(total))));
    }
}
