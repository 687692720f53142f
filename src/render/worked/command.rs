//! A calculator's example as the words that one types.

use crate::joints::Calculator;

/// The words of the command, in order: `faceside`, `figure`, the name, `stock=19mm` and so on; a
/// value of several words stands in quotes.
pub(super) fn command(calculator: &Calculator) -> Vec<String> {
    let values = calculator.example.iter().map(|(name, text)| {
        let words: Vec<_> = text.split(' ').collect();
        match words[..] {
            [number, unit] if !unit.starts_with(|c: char| c.is_ascii_digit()) => {
                format!("{name}={number}{unit}")
            }
            [word] => format!("{name}={word}"),
            _ => format!("{name}=\"{text}\""),
        }
    });
    let start = ["faceside", "figure", calculator.name].map(str::to_owned);
    start.into_iter().chain(values).collect()
}
