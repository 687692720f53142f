//! Woods as words: `cherry-black` for the tables' `Cherry, black`.
//!
//! The words of both tables stand here as texts with ` | ` between them, as the calculators' inputs
//! want a choice; a test holds them against the tables. What stands in brackets is left out
//! (`beech` is the genus average of European sources, `beech-american` the Handbook's species).

/// Every wood of the shrinkage table.
pub const MOVING: &str = "\
    afrormosia | alder-red | ash | ash-black | ash-blue | ash-green | ash-oregon \
    | ash-pumpkin | ash-white | aspen-bigtooth | aspen-quaking | baldcypress \
    | basswood-american | beech | beech-american | birch-paper | birch-river \
    | birch-sweet | birch-yellow | buckeye-yellow | butternut | cedar-atlantic-white \
    | cedar-eastern-redcedar | cedar-incense | cedar-northern-white | cedar-port-orford \
    | cedar-western-redcedar | cedar-yellow | cherry-black | chestnut-american \
    | chestnut-sweet | cottonwood-black | cottonwood-eastern | douglas-fir-coast \
    | douglas-fir-interior-north | douglas-fir-interior-west | elm | elm-american \
    | elm-cedar | elm-rock | elm-slippery | elm-winged | fir-balsam | fir-california-red \
    | fir-grand | fir-noble | fir-pacific-silver | fir-subalpine | fir-white | hackberry \
    | hemlock-eastern | hemlock-western | hickory-mockernut | hickory-pecan \
    | hickory-pignut | hickory-shagbark | honeylocust | iroko | larch-european \
    | larch-western | lauan-white | limba | lime | locust-black | magnolia-southern \
    | mahogany-african | mahogany-true | maple | maple-bigleaf | maple-black | maple-red \
    | maple-silver | maple-sugar | meranti-white | oak-red-black | oak-red-laurel \
    | oak-red-northern | oak-red-scarlet | oak-red-southern-red | oak-white-bur \
    | oak-white-chestnut | oak-white-live | oak-white-overcup | oak-white-post \
    | oak-white-swamp-chestnut | oak-white-white | persimmon-common | pine-eastern-white \
    | pine-loblolly | pine-lodgepole | pine-longleaf | pine-ponderosa | pine-red \
    | pine-scots | pine-shortleaf | pine-slash | pine-sugar | pine-western-white \
    | purpleheart | redwood-old-growth | redwood-young-growth | rosewood-indian | sapele \
    | sassafras | spanish-cedar | spruce | spruce-engelmann | spruce-red | spruce-sitka \
    | sweetgum | sycamore-american | tanoak | teak | tupelo-black | tupelo-water \
    | walnut-black | walnut-european | willow-black | yellow-poplar";

/// Every wood of the strength table.
pub const STIFF: &str = "\
    alder-red | ash-black | ash-green | ash-white | aspen-quaking | baldcypress \
    | basswood-american | beech-american | birch-paper | birch-sweet | birch-yellow \
    | butternut | cedar-eastern-redcedar | cedar-northern-white | cedar-port-orford \
    | cedar-western-redcedar | cedar-yellow | cherry-black | chestnut-american \
    | douglas-fir-coast | douglas-fir-interior-south | elm-american | fir-grand \
    | fir-noble | fir-pacific-silver | hackberry | hemlock-western | hickory-mockernut \
    | hickory-pecan | hickory-shagbark | iroko | larch-western | locust-black \
    | mahogany-african | mahogany-true | maple-bigleaf | maple-black | maple-red \
    | maple-silver | maple-sugar | oak-red-laurel | oak-red-northern \
    | oak-red-southern-red | oak-white-bur | oak-white-white | pine-eastern-white \
    | pine-loblolly | pine-lodgepole | pine-longleaf | pine-pond | pine-ponderosa \
    | pine-red | pine-sand | pine-shortleaf | pine-slash | pine-spruce | pine-sugar \
    | pine-virginia | pine-western-white | redwood-old-growth | redwood-young-growth \
    | sapele | spruce-engelmann | spruce-sitka | sweetgum | sycamore-american | teak \
    | walnut-black | yellow-poplar";

/// The word of a name: small letters and digits, with hyphens between what else there is.
pub(super) fn word(name: &str) -> String {
    let plain = name.split('(').next().unwrap_or(name).to_lowercase();
    let parts = plain.split(|c: char| !c.is_ascii_alphanumeric());
    let parts: Vec<_> = parts.filter(|part| !part.is_empty()).collect();
    parts.join("-")
}

#[cfg(test)]
mod tests {
    use super::{MOVING, STIFF};
    use crate::wood::{shrinkage_rows, stiffness_rows};

    fn assert_same<'w>(listed: &str, words: impl Iterator<Item = &'w String>) {
        let mut words: Vec<_> = words.map(String::as_str).collect();
        words.sort_unstable();
        assert_eq!(listed.split(" | ").collect::<Vec<_>>(), words);
        words.dedup();
        assert_eq!(listed.split(" | ").count(), words.len());
    }

    #[test]
    fn the_lists_hold_every_wood_of_the_tables_once() {
        assert_same(MOVING, shrinkage_rows().iter().map(|row| &row.word));
        assert_same(STIFF, stiffness_rows().iter().map(|row| &row.word));
    }
}
