//! "Did you mean": the nearest of the names that would have done.

/// The name nearest to `typed` by edit distance, if one is near enough to be a slip of the hand.
///
/// Near enough is a third of the longer word, at least one letter; case is not a difference.
///
/// ```
/// let names = ["housing", "halving"];
/// assert_eq!(faceside::diag::nearest("housng", names), Some("housing"));
/// assert_eq!(faceside::diag::nearest("tenon", names), None);
/// ```
pub fn nearest<'n>(typed: &str, names: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let typed = typed.to_lowercase();
    names
        .into_iter()
        .map(|name| (strsim::osa_distance(&typed, &name.to_lowercase()), name))
        .filter(|(distance, name)| *distance <= (typed.len().max(name.len()) / 3).max(1))
        .min()
        .map(|(_, name)| name)
}
