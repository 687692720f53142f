//! `shop.yaml`: the shop's units, paper, words, measuring tools, fits and limits.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Deserialize;

use super::fields::{Field, Fields, SMALLEST, at};
use crate::diag::{Code, Fault, Faults, Source};
use crate::shop::{Jurisdiction, Paper, Region, Shop, Tool};
use crate::units::{Length, Unit};
use crate::yaml::{Ordered, Step, read};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawShop {
    shop: String,
    units: RawUnits,
    paper: RawPaper,
    region: RawRegion,
    #[serde(default)]
    jurisdiction: RawJurisdiction,
    tools: Vec<RawTool>,
    fits: Ordered<String>,
    rim_speed_limit: String,
    short_piece: String,
    hand_distance: String,
}

#[derive(Deserialize)]
enum RawUnits {
    #[serde(rename = "mm")]
    Mm,
    #[serde(rename = "in")]
    Inch,
}

#[derive(Deserialize)]
enum RawPaper {
    A4,
    Letter,
}

#[derive(Deserialize)]
#[serde(rename_all = "lowercase")]
enum RawRegion {
    British,
    American,
}

#[derive(Deserialize, Default)]
#[serde(rename_all = "lowercase")]
enum RawJurisdiction {
    #[default]
    Unknown,
    Us,
    Uk,
    Eu,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTool {
    tool: String,
    resolution: String,
}

/// Reads `shop.yaml`; nothing when a field of it is wrong.
pub fn read_shop(source: &Arc<Source>) -> (Option<Shop>, Faults) {
    let raw: RawShop = match read(source) {
        Ok(raw) => raw,
        Err(faults) => return (None, faults),
    };
    let units = match raw.units {
        RawUnits::Mm => Unit::Mm,
        RawUnits::Inch => Unit::Inch,
    };
    let mut fields = Fields::new(source, units);
    let shop = raw.shop(units, &mut fields);
    (shop, fields.faults)
}

impl RawShop {
    fn shop(&self, units: Unit, fields: &mut Fields<'_>) -> Option<Shop> {
        let path = |key: &str| [Step::from(key)];
        let name = fields.words(Field::new(&path("shop"), &self.shop));
        let tools = self.tools(fields);
        let fits = self.fits(fields);
        let rim_limit = self.rim_limit(fields);
        let short_piece = fields.size(Field::new(&path("short_piece"), &self.short_piece));
        let hand_distance = fields.size(Field::new(&path("hand_distance"), &self.hand_distance));
        Some(Shop {
            name: name?,
            units,
            paper: match self.paper {
                RawPaper::A4 => Paper::A4,
                RawPaper::Letter => Paper::Letter,
            },
            region: match self.region {
                RawRegion::British => Region::British,
                RawRegion::American => Region::American,
            },
            jurisdiction: match self.jurisdiction {
                RawJurisdiction::Unknown => Jurisdiction::Unknown,
                RawJurisdiction::Us => Jurisdiction::Us,
                RawJurisdiction::Uk => Jurisdiction::Uk,
                RawJurisdiction::Eu => Jurisdiction::Eu,
            },
            tools: tools?,
            fits: fits?,
            rim_limit_mm_per_s: rim_limit?,
            short_piece: short_piece?,
            hand_distance: hand_distance?,
        })
    }

    fn tools(&self, fields: &mut Fields<'_>) -> Option<Vec<Tool>> {
        let list = [Step::from("tools")];
        if self.tools.is_empty() {
            let fault = Fault::error(Code::MISSING_KEY, "the shop has no measuring tool");
            let hint = "add one: `- {tool: steel rule, resolution: 0.5 mm}`";
            fields.fault(&list, fault.hint(hint));
            return None;
        }
        let read: Vec<_> = self
            .tools
            .iter()
            .enumerate()
            .map(|(item, raw)| {
                let path = at(&list, item);
                let name = fields.words(Field::new(&at(&path, "tool"), &raw.tool));
                let resolution = fields.length(
                    Field::new(&at(&path, "resolution"), &raw.resolution),
                    SMALLEST,
                    Length::mm(10.0),
                );
                Some(Tool {
                    name: name?,
                    resolution: resolution?,
                })
            })
            .collect();
        for (item, raw) in self.tools.iter().enumerate() {
            if self.tools[..item]
                .iter()
                .any(|before| before.tool == raw.tool)
            {
                let message = format!("the tool `{}` is listed twice", raw.tool);
                let fault = Fault::error(Code::DUPLICATE_ID, message);
                let path = at(&at(&list, item), "tool");
                fields.fault(&path, fault.hint("keep one of them"));
            }
        }
        read.into_iter().collect()
    }

    /// A total clearance may be negative where parts are pressed together.
    fn fits(&self, fields: &mut Fields<'_>) -> Option<BTreeMap<String, Length>> {
        let read: Vec<_> = self
            .fits
            .iter()
            .map(|(name, text)| {
                let path = ["fits".into(), Step::from(name.as_str())];
                let fit = fields.length(Field::new(&path, text), Length::mm(-1.0), Length::mm(5.0));
                Some((name.clone(), fit?))
            })
            .collect();
        read.into_iter().collect()
    }

    /// At most 100 m/s: twice and more what router cutters are run at (common practice, no
    /// source); more is a slip of the hand.
    fn rim_limit(&self, fields: &mut Fields<'_>) -> Option<u32> {
        let path = [Step::from("rim_speed_limit")];
        let text = Field::new(&path, &self.rim_speed_limit);
        let limit = fields.rim_speed(text)?.to_metres_per_second();
        if !(1.0..=100.0).contains(&limit) {
            fields.out_of_range(text, "1 m/s to 100 m/s");
            return None;
        }
        // Down to the whole mm/s, so that the limit is never over what was written.
        Some((limit * 1000.0) as u32)
    }
}
